#pragma once
// How two bodies lie to each other, narrowed down to convex parts: each part is a few rows of a linear program, and all
// parts together leave nothing out.

#include <array>
#include <vector>

#include "geometry/packing/scene.hpp"

namespace cotter::geometry::packing {

/// The turns of the plug that are looked at: `middle` within `half` either way.
struct Turns {
  double middle = 0;
  double half = 0;
};

/// Where body `second` lies as seen from body `first`. The plug is body `circles()`.
struct Relation {
  enum class Kind {
    open,    ///< not narrowed yet, see `first_parts`
    sector,  ///< circles: direction between `low` and `high`
    face,    ///< plug: beyond face `part`, between `low` and `high` along it
    corner,  ///< plug: beyond corner `part`, direction from it between `low` and `high` in the plug's frame
  };
  Kind kind = Kind::open;
  int first = 0;
  int second = 0;
  int part = 0;
  double low = 0;
  double high = 0;
  std::array<Row, 3> rows{};
  int size = 0;
};

/// Writes the rows of a relation that is not open. They hold for every place and turn that the relation allows, and for
/// no more than what is convex around those.
void write_rows(const Scene& scene, const Turns& turns, Relation& relation);

/// The parts an open relation falls into: `sectors` from `low` to `high`, or all faces and corners of the plug.
std::vector<Relation> first_parts(const Scene& scene, const Relation& open);

/// Row `corner k of the plug is inside the tangent with outward direction u`, for all turns.
Row corner_row(const Scene& scene, const Turns& turns, int k, Vector u);
/// Row `circle i is inside the tangent with outward direction u`.
Row wall_row(const Scene& scene, std::size_t i, Vector u);

/// Unknowns of the program: two for each circle, two for the plug, and the sine of its turn from the middle.
inline int unknown_of(std::size_t body) {
  return static_cast<int>(2 * body);
}

}  // namespace cotter::geometry::packing
