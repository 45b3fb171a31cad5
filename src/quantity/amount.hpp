#pragma once
// Strong integer amounts. A length is a whole number of nanometres in 64 bits, so sums of decimal millimetres and of
// inch fractions down to 1/64 in (396 875 nm) are exact and a gap equal to its limit passes for certain.
//
// Valid for amounts below 1e15 nm (a kilometre): the parser refuses larger ones, so sums of thousands of terms stay
// inside 64 bits.

#include <compare>
#include <cstdint>

namespace cotter::quantity {

/// An integer amount of one base unit. `Tag` keeps a length from meeting an angle; there is no constructor from a bare
/// number, the unit is named on the way in and on the way out.
template <class Tag>
class Amount {
 public:
  constexpr Amount() = default;
  static constexpr Amount from_base(std::int64_t count) { return Amount(count); }
  constexpr std::int64_t base() const { return count_; }

  constexpr auto operator<=>(const Amount&) const = default;
  constexpr Amount operator-() const { return Amount(-count_); }
  friend constexpr Amount operator+(Amount a, Amount b) { return Amount(a.count_ + b.count_); }
  friend constexpr Amount operator-(Amount a, Amount b) { return Amount(a.count_ - b.count_); }
  friend constexpr Amount operator*(Amount a, std::int64_t n) { return Amount(a.count_ * n); }
  friend constexpr Amount operator*(std::int64_t n, Amount a) { return a * n; }
  constexpr Amount& operator+=(Amount b) { return *this = *this + b; }
  constexpr Amount& operator-=(Amount b) { return *this = *this - b; }

 private:
  constexpr explicit Amount(std::int64_t count) : count_(count) {}
  std::int64_t count_ = 0;
};

/// Length in whole nanometres.
using Length = Amount<struct LengthTag>;
/// Angle in millionths of a degree.
using Angle = Amount<struct AngleTag>;
/// Mass in milligrams.
using Mass = Amount<struct MassTag>;

constexpr Length nanometres(std::int64_t n) {
  return Length::from_base(n);
}
constexpr Length micrometres(std::int64_t n) {
  return Length::from_base(n * 1'000);
}
constexpr Length millimetres(std::int64_t n) {
  return Length::from_base(n * 1'000'000);
}
constexpr std::int64_t in_nanometres(Length length) {
  return length.base();
}
/// For drawing and for formulas with roots only; comparisons stay in nanometres.
constexpr double in_millimetres(Length length) {
  return static_cast<double>(length.base()) / 1e6;
}

constexpr Angle microdegrees(std::int64_t n) {
  return Angle::from_base(n);
}
constexpr double in_degrees(Angle angle) {
  return static_cast<double>(angle.base()) / 1e6;
}

constexpr Mass milligrams(std::int64_t n) {
  return Mass::from_base(n);
}
constexpr Mass grams(std::int64_t n) {
  return Mass::from_base(n * 1'000);
}

}  // namespace cotter::quantity
