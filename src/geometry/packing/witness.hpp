#pragma once
// From a layout in doubles to places in half nanometres.

#include <vector>

#include "geometry/packing.hpp"
#include "geometry/packing/scene.hpp"

namespace cotter::geometry::packing {

/// The layout rounded, nothing checked. `order[i]` is the place in `Bodies::diameters` of the layout's circle `i`.
PackingWitness rounded_witness(const Layout& layout, const std::vector<std::size_t>& order, const Opening& opening);

}  // namespace cotter::geometry::packing
