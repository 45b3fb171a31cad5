#include "engine/fit/laws/all.hpp"

namespace cotter::engine::fit::laws {

/// What a bolt's tip keeps from the bottom of its hole, so that it clamps the part and not the hole.
/// **Source** common practice, no source.
constexpr std::int64_t k_tip_free = 500'000;

/// Length of a bolt in its thread: at least `factor_permille` thousandths of the diameter, and its tip stays free of
/// the bottom of the hole.
LawSpec engagement() {
  using enum quantity::Dimension;
  return {.law = Law::engagement,
          .word = "engagement",
          .formula = "bolt - through",
          .roles = {{"bolt", length}, {"through", length}, {"depth", length}, {"diameter", length}},
          .number = {{{1, -1, 0, 0}}},
          .demands = {{{{1000, -1000, 0, -1}, 0, 1000}, Edge::from, 3}, {{{-1, 1, 1, 0}, -k_tip_free}, Edge::to, {}}},
          .parameter = "factor_permille"};
}

}  // namespace cotter::engine::fit::laws
