#pragma once
// Answers about a packing that need no search: closed forms and theorems.

#include <cstdint>
#include <vector>

#include "geometry/packing.hpp"

namespace cotter::geometry::packing {

/// Diameters in nanometres, largest first.
using Diameters = std::vector<std::int64_t>;

Diameters largest_first(const std::vector<quantity::Length>& diameters);

/// The answer of the first bound that gives one; `undecided` when none does.
PackingJudgement judge_by_bounds(const Opening& opening, const Diameters& d, const std::optional<Rectangle>& plug);

/// Diameter of the circle that three circles need, a >= b >= c: at least `below`, at most `above`.
struct Enclosure {
  double below = 0;
  double above = 0;
};
Enclosure enclosing_three(std::int64_t a, std::int64_t b, std::int64_t c);

/// True when the third circle lies beside the first two in the circle that just holds those.
bool third_lies_beside(std::int64_t a, std::int64_t b, std::int64_t c);

}  // namespace cotter::geometry::packing
