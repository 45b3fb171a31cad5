#pragma once
// Points of a tube skeleton on a grid of whole millimetres, with distances and turns decided in whole numbers.
//
// Frame: any one right-handed frame for all points of a problem; nothing here depends on its axes.
// Not for: fits and stacks, which need nanometres. A way along a tube is good to about 20 mm, so a finer grid would
// only pretend.

#include <compare>
#include <cstdint>

namespace cotter::geometry {

/// A point, or the difference of two, in whole millimetres.
struct GridPoint {
  std::int64_t x = 0;
  std::int64_t y = 0;
  std::int64_t z = 0;

  constexpr auto operator<=>(const GridPoint&) const = default;
  friend constexpr GridPoint operator-(GridPoint a, GridPoint b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
};

/// Largest coordinate, either sign, for which the functions below stay inside 64 bits.
constexpr std::int64_t k_most_coordinate_mm = 10'000;

constexpr std::int64_t dot(GridPoint u, GridPoint v) {
  return u.x * v.x + u.y * v.y + u.z * v.z;
}

/// Largest whole number whose square is at most `n`. **Inputs** n >= 0.
std::int64_t whole_root(std::int64_t n);

/// Straight distance in millimetres, rounded to the nearest whole one.
///
/// **Method** floor(2 sqrt n) from whole numbers, plus one, halved: the square root of a whole number is never an odd
/// half, so there are no ties.
std::int64_t rounded_distance_mm(GridPoint a, GridPoint b);

/// How sharply a line turns from direction `u` to direction `v`; the number is the index of the class.
enum class Turn { to_30_degrees = 0, to_60_degrees = 1, to_90_degrees = 2, to_120_degrees = 3, sharper = 4 };

/// Class of the angle between two directions; a zero vector has no direction and turns nothing.
///
/// **Method** exact: dot(u, v)^2 against 3/4 or 1/4 of |u|^2 |v|^2.
Turn turn_between(GridPoint u, GridPoint v);

}  // namespace cotter::geometry
