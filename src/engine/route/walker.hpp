#pragma once
// All walks of one line between two of its seats, depth first, cut off where the rest of the way is too long.

#include <cstdint>
#include <vector>

#include "engine/route/frame_map.hpp"
#include "engine/route/problem.hpp"
#include "engine/route/ways.hpp"

namespace cotter::engine::route {

struct WalkLimits {
  std::int64_t longest = 0;       ///< mm
  bool any_length = false;        ///< no length needs to suit
  bool demanding = true;          ///< bends and pins count
  const std::vector<char>& open;  ///< by aperture
};

/// Lists the walks from `blank`'s first seat to its second, in the order in which they are found. Takes the partial
/// ways it looks at from `effort`, and stops when none is left.
std::vector<Way> walks(const Problem& problem, FrameMap& map, const Way& blank, const WalkLimits& limits,
                       const std::vector<FrameMap::Rest>& rest, std::int64_t& effort);

/// Keeps the ways that no other makes pointless, cheapest first: no dearer, and through no other apertures.
///
/// **Method** no cell is met twice, so apertures can be left out only by leaving out whole excursions between two
/// visits to the outside: those few sets are looked up among the cheaper ways.
std::vector<Way> without_pointless(const Problem& problem, std::vector<Way> ways);

}  // namespace cotter::engine::route
