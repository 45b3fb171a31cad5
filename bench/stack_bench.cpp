// How fast the smallest sets of spacers are found: 40 sizes with counts, up to six pieces a side, a gap over both sides
// and a chainline over one. The gap to fill decides how many sets there are.

#include <algorithm>
#include <benchmark/benchmark.h>
#include <random>
#include <string>
#include <vector>

#include "engine/stack/solve.hpp"

namespace cotter::engine::stack {
namespace {

Length um(std::int64_t n) {
  return quantity::micrometres(n);
}

Term plus_minus(const std::string& id, std::int64_t value, std::int64_t deviation) {
  return {id, {um(value - deviation), um(value + deviation)}, um(value)};
}

/// `total` is to be filled, half of it on the right; the ring's travel leaves a window of 2.4 mm. Sizes go from 0.1 mm
/// up in steps of `step`, one to four of each.
Problem forty_sizes(std::int64_t total, std::int64_t step) {
  Problem problem;
  std::mt19937_64 random(7);
  problem.terms = {plus_minus("gap", total, 150), plus_minus("line", 0, 100)};
  for (int i = 0; i < 40; ++i)
    problem.kit.push_back({"size_" + std::to_string(i), um(100 + step * i), 1 + static_cast<int>(random() % 4)});
  problem.slots = {{"left", 6, {}}, {"right", 6, {}}};
  problem.forms = {{.id = "play",
                    .coefficients = {{"gap", 1}},
                    .slot_coefficients = {{"left", -1}, {"right", -1}},
                    .window = Interval<Length>(um(200), um(2'600))},
                   {.id = "chainline",
                    .coefficients = {{"line", 1}},
                    .slot_coefficients = {{"right", 1}},
                    .window = Interval<Length>(um(total / 2 - 1'500), um(total / 2 + 1'500)),
                    .target = um(total / 2)}};
  return problem;
}

void time_search(benchmark::State& state, const Problem& problem) {
  std::int64_t sets = 0;
  for ([[maybe_unused]] const auto step : state) {
    const Result result = solve(problem, {.most_sets = 10});
    sets = static_cast<std::int64_t>(result.sets.size() + result.sets_left_out);
    benchmark::DoNotOptimize(result);
    if (!result.complete) state.SkipWithError("the search was cut");
  }
  state.counters["sets"] = static_cast<double>(sets);
}

double percentile_95(const std::vector<double>& times) {
  std::vector<double> sorted = times;
  std::sort(sorted.begin(), sorted.end());
  return sorted[(sorted.size() * 95 + 99) / 100 - 1];
}

void smallest_sets(benchmark::State& state) {
  time_search(state, forty_sizes(state.range(0), 60));
}
BENCHMARK(smallest_sets)
    ->Arg(5'000)
    ->Arg(9'500)
    ->Arg(14'000)
    ->Arg(18'500)
    ->Arg(24'000)
    ->ComputeStatistics("95 %", percentile_95)
    ->Unit(benchmark::kMicrosecond);

/// 0.1, 0.2 ... 4.0 mm: very many sets have as many pieces and the same sum.
void smallest_sets_with_ties(benchmark::State& state) {
  time_search(state, forty_sizes(state.range(0), 100));
}
BENCHMARK(smallest_sets_with_ties)
    ->Arg(16'000)
    ->Arg(24'000)
    ->Arg(30'000)
    ->Arg(36'000)
    ->Arg(44'000)
    ->ComputeStatistics("95 %", percentile_95)
    ->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace cotter::engine::stack
