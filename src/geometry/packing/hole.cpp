#include "geometry/packing/hole.hpp"

#include <algorithm>
#include <cmath>

namespace cotter::geometry::packing {

namespace {

constexpr int k_newton_steps = 30;

Vector unit_or_up(Vector v) {
  const double size = length(v);
  return size > 1e-300 ? (1 / size) * v : Vector{0, 1};
}

/// Nearest point of the ellipse's first quadrant to a point of the first quadrant: the root t of
/// (a x / (a^2 + t))^2 + (b y / (b^2 + t))^2 = 1, approached from the side where Newton's steps do not overshoot.
Vector nearest_on_quadrant(double a, double b, Vector p) {
  const double a2 = a * a;
  const double b2 = b * b;
  if (p.y <= 1e-14 && p.x * a < a2 - b2) {
    const double x = a2 * p.x / (a2 - b2);
    return {x, b * std::sqrt(std::max(0.0, 1 - x * x / a2))};
  }
  double t = std::max(a * p.x - a2, b * p.y - b2);
  for (int i = 0; i < k_newton_steps; ++i) {
    const double u = a * p.x / (a2 + t);
    const double v = b * p.y / (b2 + t);
    const double value = u * u + v * v - 1;
    const double step = value / (2 * (u * u / (a2 + t) + v * v / (b2 + t)));
    if (!(step > 1e-16 * a2)) break;
    t += step;
  }
  return {a2 * p.x / (a2 + t), b2 * p.y / (b2 + t)};
}

}  // namespace

Hole hole_of(const Opening& opening) {
  const double unit = static_cast<double>(opening.length.base());
  const double half = static_cast<double>(opening.width.base()) / unit / 2;
  return {0.5 - half, half, 0.5, half, opening.shape == Shape::oval && opening.width != opening.length};
}

double support(const Hole& hole, Vector u) {
  if (!hole.oval) return hole.straight * std::abs(u.x) + hole.cap;
  const double x = hole.long_half * u.x;
  const double y = hole.short_half * u.y;
  return std::sqrt(x * x + y * y);
}

Vector wall_direction(const Hole& hole, Vector p) {
  if (!hole.oval) return unit_or_up({p.x - std::clamp(p.x, -hole.straight, hole.straight), p.y});
  const Vector near = nearest_on_quadrant(hole.long_half, hole.short_half, {std::abs(p.x), std::abs(p.y)});
  const Vector normal = unit_or_up({near.x / (hole.long_half * hole.long_half),  //
                                    near.y / (hole.short_half * hole.short_half)});
  return {std::copysign(normal.x, p.x), std::copysign(normal.y, p.y)};
}

}  // namespace cotter::geometry::packing
