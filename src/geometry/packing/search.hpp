#pragma once
// Proves that bodies cannot lie side by side, or comes upon places where they do.

#include <cstdint>
#include <functional>

#include "geometry/packing/scene.hpp"

namespace cotter::geometry::packing {

enum class Outcome { refuted, found, open };

/// Is told of layouts that look right; says whether one is.
using Accept = std::function<bool(const Layout&)>;

struct SearchResult {
  Outcome outcome = Outcome::open;
  std::int64_t nodes = 0;
};

/// **Method** branch and bound. The direction from one circle to another is narrowed to sectors; the part of a sector
/// beyond the touching distance lies beyond a chord, which is one linear row and misses the circle by the square of the
/// sector's width only. All rows and the walls' tangents make a linear program; a node is cut off when its dual proves
/// that the slack is above zero, rounding included (`Program::certain_slack`). The pair that overlaps most in the
/// program's answer is narrowed next. Turns and mirror images of a solution are left out.
/// `steps` is the effort left, in pivots; it goes down, and below zero the outcome is `open`.
SearchResult search_layout(const Scene& scene, const Accept& accept, std::int64_t& steps);

}  // namespace cotter::geometry::packing
