#include "engine/fit/laws/all.hpp"

namespace cotter::engine::fit::laws {

/// Two values of one dimension against each other, in their own order.
LawSpec difference() {
  return {.law = Law::difference,
          .word = "difference",
          .formula = "a - b",
          .roles = {{"a", {}}, {"b", {}}},
          .number = {{{1, -1}}}};
}

LawSpec equal_angle() {
  using enum quantity::Dimension;
  return {.law = Law::equal_angle,
          .word = "equal_angle",
          .formula = "a - b",
          .roles = {{"a", angle}, {"b", angle}},
          .number = {{{1, -1}}},
          .unwindowed = Unwindowed::zero};
}

}  // namespace cotter::engine::fit::laws
