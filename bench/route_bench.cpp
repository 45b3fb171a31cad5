// Route: from a parsed problem to a proof, listing of ways and conflict sets included.
// Invented frames of four sizes (seeds 1 to 20, not chosen by result), and the reference instances when
// COTTER_REFERENCE_DATA names their folder. The label gives how many of a size ended without a proof.
#include <algorithm>
#include <benchmark/benchmark.h>
#include <cstdlib>
#include <filesystem>
#include <set>

#include "../tests/unit/engine/route/instances.hpp"
#include "../tests/unit/engine/route/reference.hpp"
#include "engine/route/solve.hpp"

namespace {

using namespace cotter::engine::route;

struct Size {
  const char* name;
  int cells;
  int lines;
  int tight;  ///< percent; larger frames need wider openings to be about as critical
};

constexpr Size k_sizes[] = {{"small", 9, 5, 85}, {"medium", 12, 9, 100}, {"large", 15, 14, 115}, {"xl", 19, 21, 130}};
constexpr std::uint64_t k_seeds = 20;

void measure(benchmark::State& state, const std::vector<Problem>& problems) {
  std::int64_t nodes = 0;
  std::set<std::size_t> unproven;
  std::size_t next = 0;
  for (auto _ : state) {
    const Result result = solve(problems[next]);
    benchmark::DoNotOptimize(result.objective);
    nodes += result.nodes;
    if (result.status == Status::limit) unproven.insert(next);
    next = (next + 1) % problems.size();
  }
  state.counters["nodes"] = benchmark::Counter(static_cast<double>(nodes), benchmark::Counter::kAvgIterations);
  state.SetLabel(std::to_string(unproven.size()) + " unproven");
}

void register_frames() {
  for (const Size& size : k_sizes) {
    for (const Packing packing : {Packing::density, Packing::exact}) {
      std::vector<Problem> problems;
      for (std::uint64_t seed = 1; seed <= k_seeds; ++seed) {
        problems.push_back(instances::frame(seed, size.cells, size.lines, size.tight));
        problems.back().rules.packing = packing;
      }
      const std::string name = std::string("frame/") + size.name + (packing == Packing::exact ? "/exact" : "/density");
      benchmark::RegisterBenchmark(name.c_str(), [problems](benchmark::State& state) {
        measure(state, problems);
      })->Unit(benchmark::kMillisecond);
    }
  }
}

void register_references() {
  const char* root = std::getenv("COTTER_REFERENCE_DATA");
  const std::filesystem::path folder = std::filesystem::path(root == nullptr ? "" : root) / "route";
  if (root == nullptr || !std::filesystem::is_directory(folder)) return;
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    if (entry.path().extension() == ".json") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  for (const auto& file : files) {
    const std::vector<Problem> problems = {reference::read(file.string())};
    benchmark::RegisterBenchmark(("reference/" + file.stem().string()).c_str(), [problems](benchmark::State& state) {
      measure(state, problems);
    })->Unit(benchmark::kMillisecond);
  }
}

const bool k_registered = [] {
  register_frames();
  register_references();
  return true;
}();

}  // namespace
