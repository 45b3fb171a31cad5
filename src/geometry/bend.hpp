#pragma once
// Whether a line that may not be bent sharply can follow a way from mark to mark.

#include <cstdint>
#include <vector>

#include "geometry/point.hpp"

namespace cotter::geometry {

/// Length in mm that an arc of radius `radius_mm` takes up before and after the corner from direction `u` to `v`.
///
/// **Method** r tan(a / 2) with a the angle of the turn, rounded up; infinite for a full reversal, 0 where a direction
/// is a zero vector. **Source** tangent length of a circle that touches both sides of a corner, plane geometry.
double tangent_length_mm(GridPoint u, GridPoint v, double radius_mm);

/// True when every corner of the polygon through `marks` can be rounded with the radius, no two arcs sharing a stretch.
///
/// **Accuracy** conservative: in doubt the corner counts as too sharp. **Not for** the width of a tube, in which a line
/// may swing out further than its marks say: the answer no may be too strict there, the answer yes holds.
bool corners_take_radius(const std::vector<GridPoint>& marks, std::int64_t radius_mm);

}  // namespace cotter::geometry
