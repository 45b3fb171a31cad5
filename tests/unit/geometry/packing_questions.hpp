#pragma once
// Random questions about packings, and the size of the opening at which the bodies just fit: for the tests and the
// bench.

#include <cmath>
#include <random>

#include "geometry/packing.hpp"

namespace cotter::geometry::questions {

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

inline Length scaled(Length length, double factor) {
  return nanometres(std::llround(static_cast<double>(length.base()) * factor));
}

inline Opening larger(const Opening& opening, double factor) {
  return {scaled(opening.width, factor), scaled(opening.length, factor), opening.shape};
}

inline Question random_question(Form form, int circles, bool plug, Dice& dice) {
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

/// Factor of the opening at which the bodies are just found to fit, to that share of it.
inline double limit(const Question& question, double share) {
  double low = 0.2;
  double high = 8;
  while (high - low > share * low) {
    const double middle = (low + high) / 2;
    const bool fits =
        judge_packing(larger(question.opening, middle), question.bodies, {2'000}).answer == PackingAnswer::fits;
    (fits ? high : low) = middle;
  }
  return high;
}

}  // namespace cotter::geometry::questions
