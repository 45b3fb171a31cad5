#pragma once
// Closed intervals and the three answers a comparison of intervals can give.

#include <algorithm>
#include <compare>
#include <string_view>

#include "quantity/ensure.hpp"

namespace cotter::quantity {

/// Whether a requirement holds for every value of its intervals, for none, or for some.
enum class Certainty { holds, fails, open };

constexpr std::string_view word_for(Certainty certainty) {
  if (certainty == Certainty::holds) return "holds";
  return certainty == Certainty::fails ? "fails" : "open";
}

constexpr Certainty both(Certainty a, Certainty b) {
  if (a == Certainty::fails || b == Certainty::fails) return Certainty::fails;
  return a == Certainty::holds && b == Certainty::holds ? Certainty::holds : Certainty::open;
}

/// All values from `low` to `high`, both ends included. `T` is an Amount.
template <class T>
class Interval {
 public:
  constexpr Interval() = default;
  constexpr explicit Interval(T exact) : low_(exact), high_(exact) {}
  constexpr Interval(T low, T high) : low_(low), high_(high) { ensure(low <= high, "interval with its ends swapped"); }

  constexpr T low() const { return low_; }
  constexpr T high() const { return high_; }
  constexpr T width() const { return high_ - low_; }
  constexpr bool contains(T value) const { return low_ <= value && value <= high_; }

  constexpr bool operator==(const Interval&) const = default;
  constexpr Interval operator-() const { return {-high_, -low_}; }
  friend constexpr Interval operator+(Interval a, Interval b) { return {a.low_ + b.low_, a.high_ + b.high_}; }
  friend constexpr Interval operator-(Interval a, Interval b) { return a + (-b); }

 private:
  T low_{};
  T high_{};
};

/// Is `a <= b`, whatever the two values are?
template <class T>
constexpr Certainty at_most(Interval<T> a, Interval<T> b) {
  if (a.high() <= b.low()) return Certainty::holds;
  return a.low() > b.high() ? Certainty::fails : Certainty::open;
}

/// Does every value of `value` lie within `window`?
template <class T>
constexpr Certainty within(Interval<T> value, Interval<T> window) {
  // Without branches: stacks ask this millions of times, and which answer comes next cannot be foretold.
  static_assert(static_cast<int>(Certainty::holds) == 0 && static_cast<int>(Certainty::fails) == 1);
  static_assert(static_cast<int>(Certainty::open) == 2);
  const int inside = static_cast<int>(window.low() <= value.low()) & static_cast<int>(value.high() <= window.high());
  const int outside = static_cast<int>(value.high() < window.low()) | static_cast<int>(value.low() > window.high());
  return static_cast<Certainty>(2 - 2 * inside - outside);
}

}  // namespace cotter::quantity
