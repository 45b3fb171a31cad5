#include "draw/plane.hpp"

#include <algorithm>
#include <utility>

namespace cotter::draw {
namespace {

std::pair<double, double> shadow(const Quad& quad, Spot direction) {
  double low = dot(quad[0], direction), high = low;
  for (const Spot corner : quad) {
    low = std::min(low, dot(corner, direction));
    high = std::max(high, dot(corner, direction));
  }
  return {low, high};
}

/// A rectangle's two directions are enough to look for a gap along.
bool apart_along(const Quad& a, const Quad& b, const Quad& directions) {
  for (std::size_t i = 0; i < 2; ++i) {
    const Spot direction = directions[i + 1] - directions[i];
    const auto [low_a, high_a] = shadow(a, direction);
    const auto [low_b, high_b] = shadow(b, direction);
    if (high_a < low_b || high_b < low_a) return true;
  }
  return false;
}

}  // namespace

Quad quad_around(Spot centre, Spot direction, double width, double height) {
  const Spot along = (width / 2) * unit(direction), across = (height / 2) * turned(unit(direction));
  return {centre - along - across, centre + along - across, centre + along + across, centre - along + across};
}

Quad quad_of(const Box& box) {
  return {Spot{box.left, box.top}, {box.right, box.top}, {box.right, box.bottom}, {box.left, box.bottom}};
}

bool overlap(const Quad& a, const Quad& b) {
  return !apart_along(a, b, a) && !apart_along(a, b, b);
}

bool segments_cross(Spot a, Spot b, Spot c, Spot d) {
  const double side_c = cross(b - a, c - a), side_d = cross(b - a, d - a);
  const double side_a = cross(d - c, a - c), side_b = cross(d - c, b - c);
  return ((side_c > 0) != (side_d > 0)) && ((side_a > 0) != (side_b > 0));
}

bool touches(const Quad& quad, Spot a, Spot b) {
  bool inside = true;
  for (std::size_t i = 0; i < 4; ++i) {
    const Spot from = quad[i], to = quad[(i + 1) % 4];
    if (segments_cross(a, b, from, to)) return true;
    inside = inside && cross(to - from, a - from) >= 0;
  }
  return inside;
}

double distance_to_segment(Spot p, Spot a, Spot b) {
  const Spot way = b - a;
  const double square = dot(way, way);
  const double share = square > 0 ? std::clamp(dot(p - a, way) / square, 0.0, 1.0) : 0.0;
  return length_of(p - (a + share * way));
}

}  // namespace cotter::draw
