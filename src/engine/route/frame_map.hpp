#pragma once
// The apertures at each node and the distances between them, measured once for all lines.

#include <array>
#include <cstdint>
#include <vector>

#include "engine/route/problem.hpp"

namespace cotter::engine::route {

class FrameMap {
 public:
  explicit FrameMap(const Problem& problem);

  const std::vector<int>& doors(int node) const { return doors_[static_cast<std::size_t>(node + 1)]; }
  int beyond(int aperture, int node) const {
    const Aperture& door = problem_.apertures[static_cast<std::size_t>(aperture)];
    return door.a == node ? door.b : door.a;
  }
  /// 0 when `node` is the aperture's first node, else 1.
  std::size_t side(int aperture, int node) const {
    return problem_.apertures[static_cast<std::size_t>(aperture)].a == node ? 0 : 1;
  }
  geometry::GridPoint position(int aperture) const {
    return problem_.apertures[static_cast<std::size_t>(aperture)].position;
  }
  /// Straight distance between two apertures, in mm.
  std::int64_t distance(int from, int to);

  /// Least length from an aperture to a seat once a side of it is reached, by aperture and side.
  using Rest = std::array<std::int64_t, 2>;
  static constexpr std::int64_t k_far = std::int64_t{1} << 60;
  std::vector<Rest> rest_to(const Seat& seat, const std::vector<char>& open);

 private:
  const Problem& problem_;
  std::array<std::vector<int>, k_most_cells + 1> doors_;  ///< the outside first
  std::vector<std::int64_t> distances_;                   ///< -1 = not yet measured
};

}  // namespace cotter::engine::route
