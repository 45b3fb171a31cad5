// How fast packings are judged: easy and hopeless ones, which an engine asks for by the thousand, and ones within 2 % of
// the limit, two to six bodies, in round, slotted and oval openings. The times of single questions are reported as
// median and 95th percentile in microseconds; `undecided` is the number of questions left open, out of `asked`.

#include <algorithm>
#include <benchmark/benchmark.h>
#include <chrono>
#include <cmath>
#include <random>
#include <vector>

#include "geometry/packing.hpp"

namespace cotter::geometry {
namespace {

using quantity::Length;
using quantity::nanometres;

enum class Form { round, slot, oval };

struct Question {
  Opening opening;
  Bodies bodies;
};

class Dice {
 public:
  explicit Dice(unsigned seed) : random_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(random_() >> 11U) * 0x1p-53;
  }

 private:
  std::mt19937_64 random_;
};

Length scaled(Length length, double factor) {
  return nanometres(std::llround(static_cast<double>(length.base()) * factor));
}

Opening larger(const Opening& opening, double factor) {
  return {scaled(opening.width, factor), scaled(opening.length, factor), opening.shape};
}

Question random_question(Form form, int circles, bool plug, Dice& dice) {
  Question question;
  for (int i = 0; i < circles; ++i)
    question.bodies.diameters.push_back(nanometres(std::llround(1e6 * dice.between(2, 7))));
  if (plug)
    question.bodies.plug = Rectangle{nanometres(std::llround(1e6 * dice.between(4, 11))),
                                     nanometres(std::llround(1e6 * dice.between(2.5, 6)))};
  const Length width = quantity::millimetres(10);
  const Length length = form == Form::round ? width : scaled(width, dice.between(1.2, 2.5));
  question.opening = {width, length, form == Form::oval ? Shape::oval : Shape::slot};
  return question;
}

/// Factor of the opening at which the bodies are just found to fit.
double limit(const Question& question) {
  double low = 0.2;
  double high = 8;
  while (high - low > 1e-4 * low) {
    const double middle = (low + high) / 2;
    const bool fits =
        judge_packing(larger(question.opening, middle), question.bodies, {20'000}).answer == PackingAnswer::fits;
    (fits ? high : low) = middle;
  }
  return high;
}

std::vector<Question> questions(Form form, int circles, bool plug, double least, double most, int count) {
  Dice dice(17);
  std::vector<Question> list;
  for (int i = 0; i < count; ++i) {
    Question question = random_question(form, circles, plug, dice);
    question.opening = larger(question.opening, limit(question) * dice.between(least, most));
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
      const auto start = std::chrono::steady_clock::now();
      const PackingJudgement judgement = judge_packing(question.opening, question.bodies);
      const std::chrono::duration<double, std::micro> time = std::chrono::steady_clock::now() - start;
      times.push_back(time.count());
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
  ask(state, 1.3, 1.8, 100);
}
void near_limit(benchmark::State& state) {
  ask(state, 0.98, 1.02, 100);
}
void hopeless(benchmark::State& state) {
  ask(state, 0.6, 0.85, 100);
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
