// How fast the small computations are that every plan does by the million.

#include <benchmark/benchmark.h>
#include <random>
#include <vector>

#include "quantity/distribution.hpp"
#include "quantity/interval.hpp"
#include "quantity/text.hpp"

namespace cotter::quantity {
namespace {

constexpr std::size_t k_comparisons = 1'000'000;

struct Question {
  Interval<Length> value;
  Interval<Length> window;
};

/// A window of 1 mm and a value inside of it, beside it, or over its edge: a third each, in random order.
std::vector<Question> random_questions() {
  std::mt19937_64 random(41);
  const auto below = [&](std::int64_t bound) {
    return static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(bound));
  };
  std::vector<Question> questions;
  questions.reserve(k_comparisons);
  for (std::size_t i = 0; i < k_comparisons; ++i) {
    const std::int64_t low = below(100'000'000);
    const std::int64_t offset[] = {below(500'000), 1'000'001 + below(500'000), 500'001 + below(499'999)};
    const std::int64_t start = low + offset[random() % 3];
    questions.push_back(
        {{nanometres(start), nanometres(start + 500'000)}, {nanometres(low), nanometres(low + 1'000'000)}});
  }
  return questions;
}

void million_interval_comparisons(benchmark::State& state) {
  const std::vector<Question> questions = random_questions();
  std::vector<Certainty> answers(questions.size());
  for ([[maybe_unused]] const auto step : state) {
    for (std::size_t i = 0; i < questions.size(); ++i) answers[i] = within(questions[i].value, questions[i].window);
    benchmark::DoNotOptimize(answers.data());
    benchmark::ClobberMemory();
  }
  double count[3] = {};
  for (const Certainty answer : answers) ++count[static_cast<int>(answer)];
  state.counters["holds"] = count[0];
  state.counters["fails"] = count[1];
  state.counters["open"] = count[2];
}
BENCHMARK(million_interval_comparisons)->Unit(benchmark::kMillisecond);

void parse_one_length(benchmark::State& state) {
  for ([[maybe_unused]] const auto step : state)
    benchmark::DoNotOptimize(parse_value("41.00 +0.05/-0.02 mm measured", Dimension::length));
}
BENCHMARK(parse_one_length)->Unit(benchmark::kMicrosecond);

/// The dearest case that is offered: all widths differ, and half of the corners count.
void probability_of_a_sum(benchmark::State& state) {
  std::vector<Interval<Length>> terms;
  for (std::int64_t i = 0; i < state.range(0); ++i) terms.emplace_back(Length{}, nanometres(50'000 + 7'919 * i));
  const UniformSum sum = *UniformSum::of(terms);
  const Length middle = nanometres(in_nanometres(sum.support().high()) / 2);
  for ([[maybe_unused]] const auto step : state) benchmark::DoNotOptimize(sum.probability_at_most(middle));
}
BENCHMARK(probability_of_a_sum)->Arg(4)->Arg(8)->Arg(16)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace cotter::quantity
