#include "geometry/pivot.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "quantity/ensure.hpp"

namespace cotter::geometry {
namespace {

using quantity::Angle;
using quantity::Length;

constexpr double k_half_turn = std::numbers::pi;

double radians(Angle angle) {
  return quantity::in_degrees(angle) * k_half_turn / 180;
}

Angle angle_of(double radians) {
  return quantity::microdegrees(std::llround(radians / k_half_turn * 180e6));
}

/// Rounded up to whole micrometres; a billionth is taken off first, so that a whole number stays what it is.
Length up(double millimetres) {
  return Length::from_base(static_cast<std::int64_t>(std::ceil(millimetres * 1000 - 1e-6)) * 1000);
}

/// Both marks as seen along the axis.
struct Marks {
  double r, s, h;  ///< distances from the axis, and between the marks along it, mm
  double t0;       ///< angle at which both lie on one side of the axis

  double distance(double t) const {
    // The square never gets below zero but by rounding.
    const double across = r * r + s * s - 2 * r * s * std::cos(t - t0);
    return std::sqrt(std::max(across, 0.0) + h * h);
  }
};

Marks marks_of(const Pivot& pivot, const Point3& standing, const Point3& turning) {
  const double ax = quantity::in_millimetres(standing.x - pivot.x), ay = quantity::in_millimetres(standing.y - pivot.y);
  const double bx = quantity::in_millimetres(turning.x - pivot.x), by = quantity::in_millimetres(turning.y - pivot.y);
  // Turning by a positive angle takes away from the direction's own angle, which counts from forward to up.
  return {std::hypot(ax, ay), std::hypot(bx, by), quantity::in_millimetres(standing.z - turning.z),
          std::atan2(by, bx) - std::atan2(ay, ax)};
}

}  // namespace

Reach reach_over_travel(const Pivot& pivot, const Point3& standing, const Point3& turning) {
  quantity::ensure(pivot.from <= pivot.to, "a travel whose ends are the wrong way round");
  const Marks marks = marks_of(pivot, standing, turning);
  const double from = radians(pivot.from), to = radians(pivot.to);
  const double at_from = marks.distance(from), at_to = marks.distance(to);
  Reach reach{up(marks.distance(0)), up(at_from), up(at_to), up(at_from), pivot.from};
  if (at_to > at_from) {
    reach.longest = reach.at_to;
    reach.longest_at = pivot.to;
  }
  // The first angle in the travel at which the marks lie on opposite sides.
  const double turn = 2 * k_half_turn;
  const double opposite = marks.t0 + k_half_turn;
  const double inside = opposite + turn * std::ceil((from - opposite) / turn);
  if (inside > from && inside < to) {
    reach.longest = up(marks.distance(inside));
    reach.longest_at = angle_of(inside);
  }
  return reach;
}

}  // namespace cotter::geometry
