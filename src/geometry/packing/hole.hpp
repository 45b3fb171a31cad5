#pragma once
// The outline of an opening as a convex curve: how far it reaches in a direction, and where its wall is nearest.

#include "geometry/opening.hpp"
#include "geometry/packing/vector.hpp"

namespace cotter::geometry::packing {

/// An opening around the origin, its length along x. Unit: the caller's.
struct Hole {
  double straight = 0;  ///< half length of the straight sides of a slot; 0 when round
  double cap = 0;       ///< radius of its half circles
  double long_half = 0;
  double short_half = 0;
  bool oval = false;
};

/// The opening in units of its own length.
Hole hole_of(const Opening& opening);

/// Largest dot(point, direction) over the opening; direction of length 1.
double support(const Hole& hole, Vector direction);

/// Outward direction of length 1 at the place of the wall nearest to `point`.
Vector wall_direction(const Hole& hole, Vector point);

/// How far `point` is beyond the wall along `direction`; negative inside.
inline double beyond(const Hole& hole, Vector point, Vector direction) {
  return dot(point, direction) - support(hole, direction);
}

}  // namespace cotter::geometry::packing
