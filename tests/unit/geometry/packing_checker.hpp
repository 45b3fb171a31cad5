#pragma once
// Checks places by distances alone. Shares no code with the packer: long doubles, outlines as parameter curves.

#include <algorithm>
#include <cmath>
#include <vector>

#include "geometry/packing.hpp"

namespace cotter::geometry::checker {

using Real = long double;

struct Point {
  Real x = 0;
  Real y = 0;
};

inline Real nm(quantity::Length length) {
  return static_cast<Real>(length.base());
}

/// Distance from a point to a stretch from a to b.
inline Real to_stretch(Point p, Point a, Point b) {
  const Real dx = b.x - a.x;
  const Real dy = b.y - a.y;
  const Real along = dx * dx + dy * dy;
  const Real t = along == 0 ? 0 : std::clamp<Real>(((p.x - a.x) * dx + (p.y - a.y) * dy) / along, 0, 1);
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/// How far a point inside is from the wall; negative outside. Ovals by golden section around the best of many samples.
inline Real to_wall(const Opening& opening, Point p) {
  const Real a = nm(opening.length) / 2;
  const Real b = nm(opening.width) / 2;
  if (opening.shape != Shape::oval) return b - to_stretch(p, {-(a - b), 0}, {a - b, 0});
  const auto far = [&](Real t) { return std::hypot(a * std::cos(t) - p.x, b * std::sin(t) - p.y); };
  const Real turn = 2 * std::acos(Real{-1});
  int best = 0;
  constexpr int k_samples = 180;
  for (int i = 1; i < k_samples; ++i)
    if (far(turn * i / k_samples) < far(turn * best / k_samples)) best = i;
  Real low = turn * (best - 1) / k_samples;
  Real high = turn * (best + 1) / k_samples;
  for (int i = 0; i < 50; ++i) {
    const Real third = (high - low) / 3;
    if (far(low + third) < far(high - third)) {
      high -= third;
    } else {
      low += third;
    }
  }
  const bool inside = p.x * p.x / (a * a) + p.y * p.y / (b * b) <= 1;
  return inside ? far(low) : -far(low);
}

inline std::vector<Point> corners(const Rectangle& plug, const PackingWitness& w) {
  const Real angle = static_cast<Real>(w.turn.base()) * std::acos(Real{-1}) / 180e6L;
  std::vector<Point> list;
  for (const auto& [sx, sy] : {std::pair{1, 1}, {-1, 1}, {-1, -1}, {1, -1}}) {
    const Real x = sx * nm(plug.width) / 2;
    const Real y = sy * nm(plug.height) / 2;
    list.push_back({static_cast<Real>(w.plug.x) / 2 + x * std::cos(angle) - y * std::sin(angle),
                    static_cast<Real>(w.plug.y) / 2 + x * std::sin(angle) + y * std::cos(angle)});
  }
  return list;
}

/// Smallest gap of the layout, in nanometres; negative = an overlap or an overhang.
inline Real least_gap(const Opening& opening, const Bodies& bodies, const PackingWitness& w) {
  if (w.circles.size() != bodies.diameters.size()) return -1e9L;
  Real least = 1e9L;
  std::vector<Point> c;
  for (const Place p : w.circles) c.push_back({static_cast<Real>(p.x) / 2, static_cast<Real>(p.y) / 2});
  for (std::size_t i = 0; i < c.size(); ++i) {
    const Real r = nm(bodies.diameters[i]) / 2;
    least = std::min(least, to_wall(opening, c[i]) - r);
    for (std::size_t j = 0; j < i; ++j)
      least = std::min(least, std::hypot(c[i].x - c[j].x, c[i].y - c[j].y) - r - nm(bodies.diameters[j]) / 2);
  }
  if (!bodies.plug) return least;
  const auto plug = corners(*bodies.plug, w);
  for (const Point& corner : plug) least = std::min(least, to_wall(opening, corner));
  for (std::size_t i = 0; i < c.size(); ++i) {
    bool inside = true;
    Real far = 1e9L;
    for (std::size_t k = 0; k < 4; ++k) {
      const Point a = plug[k];
      const Point b = plug[(k + 1) % 4];
      far = std::min(far, to_stretch(c[i], a, b));
      inside = inside && (b.x - a.x) * (c[i].y - a.y) - (b.y - a.y) * (c[i].x - a.x) > 0;
    }
    least = std::min(least, (inside ? -far : far) - nm(bodies.diameters[i]) / 2);
  }
  return least;
}

}  // namespace cotter::geometry::checker
