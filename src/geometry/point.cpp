#include "geometry/point.hpp"

#include "quantity/ensure.hpp"

namespace cotter::geometry {

std::int64_t whole_root(std::int64_t n) {
  quantity::ensure(n >= 0, "root of a negative number");
  std::int64_t root = 0;
  std::int64_t bit = std::int64_t{1} << 62;
  while (bit > n) bit >>= 2;
  for (; bit != 0; bit >>= 2) {
    const bool set = n >= root + bit;
    if (set) n -= root + bit;
    root = (root >> 1) + (set ? bit : 0);
  }
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
