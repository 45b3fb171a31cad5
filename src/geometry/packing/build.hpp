#pragma once
// Finds places for all bodies, if it can.

#include <cstdint>
#include <optional>

#include "geometry/packing/scene.hpp"

namespace cotter::geometry::packing {

/// Pushes overlapping bodies apart, round after round, from a fixed start numbered `start`. Cheap; finds easy layouts.
Layout pushed_apart(const Scene& scene, int start, int rounds, std::int64_t& steps);

/// The layout reached from `from` by programs in which each pair keeps to its side of a line between them; each makes
/// the least gap larger. `steps` counts pivots.
Layout improved(const Scene& scene, Layout from, std::int64_t& steps);

}  // namespace cotter::geometry::packing
