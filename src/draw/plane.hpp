#pragma once
// Points and simple shapes on the sheet: pixels, x to the right, y down. For placing and drawing only; nothing here
// decides whether a bicycle works.

#include <array>
#include <cmath>

namespace cotter::draw {

struct Spot {
  double x = 0, y = 0;
  friend Spot operator+(Spot a, Spot b) { return {a.x + b.x, a.y + b.y}; }
  friend Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.y - b.y}; }
  friend Spot operator*(double k, Spot a) { return {k * a.x, k * a.y}; }
};

inline double dot(Spot a, Spot b) {
  return a.x * b.x + a.y * b.y;
}
inline double cross(Spot a, Spot b) {
  return a.x * b.y - a.y * b.x;
}
inline double length_of(Spot a) {
  return std::hypot(a.x, a.y);
}
/// Length 1; a point without direction counts as pointing right.
inline Spot unit(Spot a) {
  const double length = length_of(a);
  return length > 0 ? (1 / length) * a : Spot{1, 0};
}
/// A quarter turn, from pointing right to pointing down.
inline Spot turned(Spot a) {
  return {-a.y, a.x};
}
inline Spot middle(Spot a, Spot b) {
  return 0.5 * (a + b);
}

struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;
  double width() const { return right - left; }
  double height() const { return bottom - top; }
  bool contains(Spot p, double margin = 0) const {
    return p.x >= left + margin && p.x <= right - margin && p.y >= top + margin && p.y <= bottom - margin;
  }
};

/// A rectangle in any direction, as its corners in order.
using Quad = std::array<Spot, 4>;

/// Rectangle with its middle at `centre`, `width` measured along `direction`.
Quad quad_around(Spot centre, Spot direction, double width, double height);
Quad quad_of(const Box& box);

bool overlap(const Quad& a, const Quad& b);
bool segments_cross(Spot a, Spot b, Spot c, Spot d);
bool touches(const Quad& quad, Spot a, Spot b);
double distance_to_segment(Spot p, Spot a, Spot b);

}  // namespace cotter::draw
