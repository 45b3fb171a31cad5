#include "engine/fit/laws/all.hpp"

namespace cotter::engine::fit::laws {

/// Length of a bolt in its thread: at least `factor_permille` thousandths of the diameter, and never to the bottom of
/// the hole.
LawSpec engagement() {
  using enum quantity::Dimension;
  return {.law = Law::engagement,
          .word = "engagement",
          .formula = "bolt - through",
          .roles = {{"bolt", length}, {"through", length}, {"depth", length}, {"diameter", length}},
          .number = {{{1, -1, 0, 0}}},
          .demands = {{{{1000, -1000, 0, -1}, 0, 1000}, Edge::from, 3}, {{{-1, 1, 1, 0}}, Edge::to, {}}},
          .parameter = "factor_permille"};
}

}  // namespace cotter::engine::fit::laws
