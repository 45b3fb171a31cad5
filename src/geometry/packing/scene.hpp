#pragma once
// Circles and at most one rectangular plug in a hole, in units of the hole's length, and where they may lie.

#include <optional>
#include <vector>

#include "geometry/packing/hole.hpp"
#include "geometry/packing/program.hpp"

namespace cotter::geometry::packing {

struct Scene {
  Hole hole;
  std::vector<double> radii;   ///< largest first
  std::optional<Vector> plug;  ///< half width and half height

  std::size_t circles() const { return radii.size(); }
  bool round() const { return hole.straight == 0 && !hole.oval; }
};

/// Places of all bodies. `turn` is the direction of the plug's width.
struct Layout {
  std::vector<Vector> circles;
  Vector plug;
  double angle = 0;
};

/// Corner `k` of 0..3 of the plug in its own frame, counted to the left from the upper right one.
Vector corner(const Vector& half, int k);

/// The vector from the nearest point of the plug (in its frame) to `point` (in its frame), and the distance; negative
/// inside, with the direction of the nearest face.
struct Approach {
  Vector direction;
  double distance = 0;
};
Approach approach(const Vector& half, Vector point);

/// Largest overlap or overhang of the layout; not positive when all fits.
double worst_overlap(const Scene& scene, const Layout& layout);

}  // namespace cotter::geometry::packing
