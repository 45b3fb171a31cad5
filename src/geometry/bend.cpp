#include "geometry/bend.hpp"

#include <cmath>
#include <limits>

namespace cotter::geometry {

namespace {

/// Covers the rounding of the few operations below, so that a length that decides is never too short.
constexpr double k_up = 1.0 + 1e-12;

double norm(GridPoint u) {
  return std::sqrt(static_cast<double>(dot(u, u)));
}

}  // namespace

double tangent_length_mm(GridPoint u, GridPoint v, double radius_mm) {
  const double along = static_cast<double>(dot(u, v));
  const double product = norm(u) * norm(v);
  if (product == 0) return 0;
  if (product + along <= 0) return std::numeric_limits<double>::infinity();
  // tan(a / 2) = sin a / (1 + cos a), with the sine from the cross product: exactly straight gives exactly 0.
  const GridPoint cross{u.y * v.z - u.z * v.y, u.z * v.x - u.x * v.z, u.x * v.y - u.y * v.x};
  return radius_mm * norm(cross) / (product + along) * k_up;
}

bool corners_take_radius(const std::vector<GridPoint>& marks, std::int64_t radius_mm) {
  if (radius_mm <= 0) return true;
  double taken = 0;  // of the stretch before the next corner
  for (std::size_t i = 1; i < marks.size(); ++i) {
    const GridPoint here = marks[i] - marks[i - 1];
    double next = 0;
    if (i + 1 < marks.size()) next = tangent_length_mm(here, marks[i + 1] - marks[i], static_cast<double>(radius_mm));
    if (taken + next > norm(here)) return false;
    taken = next;
  }
  return true;
}

}  // namespace cotter::geometry
