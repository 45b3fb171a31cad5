// How fast packings are judged: easy and hopeless ones, which an engine asks for by the thousand, and ones within 2 %
// of the limit, two to six bodies, in round, slotted and oval openings. The processor times of single questions are
// reported as median and 95th percentile in microseconds; `undecided` is the number of questions left open, out of
// `asked`.

#include <algorithm>
#include <benchmark/benchmark.h>
#include <ctime>
#include <vector>

#include "geometry/packing.hpp"
#include "packing_questions.hpp"

namespace cotter::geometry {
namespace {

using namespace questions;

double processor_us() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) * 1e6 + static_cast<double>(now.tv_nsec) / 1e3;
}

std::vector<Question> questions(Form form, int circles, bool plug, double least, double most, int count) {
  Dice dice(17);
  std::vector<Question> list;
  for (int i = 0; i < count; ++i) {
    Question question = random_question(form, circles, plug, dice);
    question.opening = larger(question.opening, limit(question, 1e-3) * dice.between(least, most));
    list.push_back(question);
  }
  return list;
}

void ask(benchmark::State& state, double least, double most, int count) {
  const auto form = static_cast<Form>(state.range(0));
  const auto list = questions(form, static_cast<int>(state.range(1)), state.range(2) != 0, least, most, count);
  std::vector<double> times;
  int undecided = 0;
  for ([[maybe_unused]] const auto step : state) {
    for (const Question& question : list) {
      const double start = processor_us();
      const PackingJudgement judgement = judge_packing(question.opening, question.bodies);
      times.push_back(processor_us() - start);
      undecided += judgement.answer == PackingAnswer::undecided ? 1 : 0;
    }
  }
  std::sort(times.begin(), times.end());
  state.counters["median_us"] = times[times.size() / 2];
  state.counters["p95_us"] = times[times.size() * 95 / 100];
  state.counters["undecided"] = undecided;
  state.counters["asked"] = static_cast<double>(times.size());
}

void easy(benchmark::State& state) {
  ask(state, 1.3, 1.8, 60);
}
void near_limit(benchmark::State& state) {
  ask(state, 0.98, 1.02, 60);
}
void hopeless(benchmark::State& state) {
  ask(state, 0.6, 0.85, 60);
}

void forms_and_bodies(benchmark::internal::Benchmark* bench) {
  bench->ArgNames({"form", "circles", "plug"})->Iterations(1)->Unit(benchmark::kMillisecond);
  for (const int form : {0, 1, 2}) {
    for (int circles = 2; circles <= 6; ++circles) bench->Args({form, circles, 0});
    for (int circles = 1; circles <= 4; ++circles) bench->Args({form, circles, 1});
  }
}
BENCHMARK(easy)->Apply(forms_and_bodies);
BENCHMARK(near_limit)->Apply(forms_and_bodies);
BENCHMARK(hopeless)->Apply(forms_and_bodies);

}  // namespace
}  // namespace cotter::geometry
