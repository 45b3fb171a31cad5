// Bridge: a million invented adapters, 1 000 queries, each timed by itself in processor time. Prints median, 99th
// percentile and worst, the time and the memory to build. Seed 1, not chosen by result.
#include <algorithm>
#include <benchmark/benchmark.h>
#include <ctime>
#include <fstream>
#include <memory>
#include <string>

#include "../tests/unit/engine/fit/bridge_invented.hpp"
#include "engine/fit/bridge/solve.hpp"

namespace {

using namespace cotter::engine::fit::bridge;

constexpr std::uint32_t k_pieces = 1'000'000;
constexpr int k_queries = 1'000;

/// Processor time of this thread: other work on the machine does not count.
double milliseconds() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

/// Memory in use by this process, MB.
double megabytes() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);)
    if (line.starts_with("VmRSS:")) return std::stod(line.substr(6)) / 1024;
  return 0;
}

/// 40 kinds, sizes of 20 to 60 mm in tenths, prices up to 50.00; `loose` of a hundred features have no certain size.
invented::Shape shape(std::uint32_t loose) {
  invented::Shape out;
  out.families = 20;
  out.least = 20'000'000;
  out.most = 60'000'000;
  out.loose_percent = loose;
  return out;
}

void million(benchmark::State& state) {
  invented::Maker maker(1, shape(static_cast<std::uint32_t>(state.range(0))));
  const double before = megabytes();
  Catalog catalog(maker.kinds(), maker.meetings());
  for (std::uint32_t i = 0; i < k_pieces; ++i) catalog.add(maker.piece());
  const double start = milliseconds();
  const Index index(std::move(catalog));
  state.counters["build_ms"] = milliseconds() - start;
  state.counters["memory_mb"] = megabytes() - before;
  std::vector<Query> queries;
  for (int i = 0; i < k_queries; ++i) queries.push_back({maker.feature(), maker.feature(), {}, 4});
  for (auto _ : state) {
    std::vector<double> times;
    int found = 0, certain = 0, unfinished = 0;
    for (const Query& query : queries) {
      const double begin = milliseconds();
      const Result result = solve(index, query);
      times.push_back(milliseconds() - begin);
      found += result.chain ? 1 : 0;
      certain += result.chain && result.chain->certain ? 1 : 0;
      unfinished += result.status == Status::unfinished ? 1 : 0;
    }
    std::sort(times.begin(), times.end());
    state.counters["median_ms"] = times[k_queries / 2];
    state.counters["p95_ms"] = times[k_queries * 95 / 100];
    state.counters["p99_ms"] = times[k_queries * 99 / 100];
    state.counters["worst_ms"] = times.back();
    state.SetLabel(std::to_string(found) + " found, " + std::to_string(certain) + " certain, " +
                   std::to_string(unfinished) + " unfinished");
  }
}

BENCHMARK(million)->ArgName("loose_percent")->Arg(0)->Arg(1)->Iterations(1)->Unit(benchmark::kMillisecond);

}  // namespace
