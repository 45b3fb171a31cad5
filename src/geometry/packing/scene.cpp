#include "geometry/packing/scene.hpp"

#include <algorithm>
#include <cmath>

namespace cotter::geometry::packing {

Vector corner(const Vector& half, int k) {
  return {k == 0 || k == 3 ? half.x : -half.x, k < 2 ? half.y : -half.y};
}

Approach approach(const Vector& half, Vector point) {
  const Vector past{std::abs(point.x) - half.x, std::abs(point.y) - half.y};
  const auto signed_like = [&](Vector v) { return Vector{std::copysign(v.x, point.x), std::copysign(v.y, point.y)}; };
  if (past.x > 0 && past.y > 0) {
    const double distance = length(past);
    return {(1 / distance) * signed_like(past), distance};
  }
  if (past.x > past.y) return {signed_like({1, 0}), past.x};
  return {signed_like({0, 1}), past.y};
}

double worst_overlap(const Scene& scene, const Layout& layout) {
  double worst = -1;
  const Vector turn = at_angle(layout.angle);
  for (std::size_t i = 0; i < scene.circles(); ++i) {
    const Vector at = layout.circles[i];
    worst = std::max(worst, beyond(scene.hole, at, wall_direction(scene.hole, at)) + scene.radii[i]);
    for (std::size_t j = 0; j < i; ++j)
      worst = std::max(worst, scene.radii[i] + scene.radii[j] - length(at - layout.circles[j]));
    if (scene.plug)
      worst = std::max(worst, scene.radii[i] - approach(*scene.plug, turned_back(at - layout.plug, turn)).distance);
  }
  for (int k = 0; scene.plug && k < 4; ++k) {
    const Vector at = layout.plug + turned(corner(*scene.plug, k), turn);
    worst = std::max(worst, beyond(scene.hole, at, wall_direction(scene.hole, at)));
  }
  return worst;
}

}  // namespace cotter::geometry::packing
