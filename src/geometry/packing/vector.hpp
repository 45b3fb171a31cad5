#pragma once
// Plane vectors in doubles, for the search; what it finds is verified in whole numbers afterwards.

#include <cmath>

namespace cotter::geometry::packing {

struct Vector {
  double x = 0;
  double y = 0;

  friend Vector operator+(Vector a, Vector b) { return {a.x + b.x, a.y + b.y}; }
  friend Vector operator-(Vector a, Vector b) { return {a.x - b.x, a.y - b.y}; }
  friend Vector operator*(double k, Vector a) { return {k * a.x, k * a.y}; }
};

inline double dot(Vector a, Vector b) {
  return a.x * b.x + a.y * b.y;
}
inline double length(Vector a) {
  return std::sqrt(a.x * a.x + a.y * a.y);
}
/// A quarter turn to the left.
inline Vector left_of(Vector a) {
  return {-a.y, a.x};
}
inline Vector at_angle(double angle) {
  return {std::cos(angle), std::sin(angle)};
}
/// `a` turned by the angle whose direction is `turn`.
inline Vector turned(Vector a, Vector turn) {
  return {a.x * turn.x - a.y * turn.y, a.x * turn.y + a.y * turn.x};
}
/// `a` as seen in a frame turned by that angle.
inline Vector turned_back(Vector a, Vector turn) {
  return {a.x * turn.x + a.y * turn.y, a.y * turn.x - a.x * turn.y};
}

}  // namespace cotter::geometry::packing
