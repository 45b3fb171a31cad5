#include "geometry/point.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/ensure.hpp"

namespace cotter::geometry {

std::int64_t whole_root(std::int64_t n) {
  quantity::ensure(n >= 0, "root of a negative number");
  // The root in doubles is off by one at most; whole numbers decide.
  constexpr std::int64_t k_largest_root = 3'037'000'499;
  auto root = std::min(static_cast<std::int64_t>(std::sqrt(static_cast<double>(n))), k_largest_root);
  while (root * root > n) --root;
  while (root < k_largest_root && (root + 1) * (root + 1) <= n) ++root;
  return root;
}

std::int64_t rounded_distance_mm(GridPoint a, GridPoint b) {
  const GridPoint difference = b - a;
  return (whole_root(4 * dot(difference, difference)) + 1) / 2;
}

Turn turn_between(GridPoint u, GridPoint v) {
  const std::int64_t product = dot(u, u) * dot(v, v);
  const std::int64_t along = dot(u, v);
  const std::int64_t square = along * along;
  if (product == 0) return Turn::to_30_degrees;
  // Within k_most_coordinate_mm both sides stay below 6e18.
  if (along < 0) return 4 * square <= product ? Turn::to_120_degrees : Turn::sharper;
  if (4 * square >= 3 * product) return Turn::to_30_degrees;
  return 4 * square >= product ? Turn::to_60_degrees : Turn::to_90_degrees;
}

}  // namespace cotter::geometry
