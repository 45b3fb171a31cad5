#pragma once
// What a line asks of its way beyond room and length: bends, cells it must keep clear of, openings it must or must not
// pass. And which seats a device can reach.

#include <cstdint>
#include <vector>

#include "engine/route/problem.hpp"
#include "geometry/point.hpp"

namespace cotter::engine::route {

/// For each aperture, whether the line may pass it: nothing sits in it, the line does not avoid it, and it leads to no
/// cell in which the line would not lie clear.
std::vector<char> apertures_left_to(const Problem& problem, int line);

/// True when the line may lie in the cell, or outside.
bool may_lie_in(const Problem& problem, int line, int node);

/// True when a way with these apertures and marks (seat, apertures, seat) bends no sharper than the line allows and
/// passes every aperture it must.
bool suits(const Problem& problem, int line, const std::vector<int>& path,
           const std::vector<geometry::GridPoint>& marks);

/// True when the device can be put through every entry of the seat, at the largest permitted sizes and with nothing
/// else in them, and nothing that is no part of the problem sits in the aperture it would use up.
bool reaches(const Problem& problem, int device, int seat);

}  // namespace cotter::engine::route
