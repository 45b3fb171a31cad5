#include "engine/fit/laws/all.hpp"

namespace cotter::engine::fit::laws {

/// Bolt circles: as many holes, on circles of one diameter within the check's window.
LawSpec equal_pattern() {
  using enum quantity::Dimension;
  return {.law = Law::equal_pattern,
          .word = "equal_pattern",
          .formula = "circle_a - circle_b",
          .roles = {{"count_a", count}, {"count_b", count}, {"circle_a", length}, {"circle_b", length}},
          .number = {{{0, 0, 1, -1}}},
          .unwindowed = Unwindowed::zero,
          .equalities = {{"count", 0, 1, 0}}};
}

/// The same word on both sides: spline, fluid, plug, number of speeds.
LawSpec equal_family() {
  return {.law = Law::equal_family, .word = "equal_family", .formula = "family = family", .words = {{"family", true}}};
}

}  // namespace cotter::engine::fit::laws
