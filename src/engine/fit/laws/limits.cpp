#include "engine/fit/laws/all.hpp"

namespace cotter::engine::fit::laws {

/// Room left below a limit.
LawSpec at_most() {
  return {.law = Law::at_most,
          .word = "at_most",
          .formula = "limit - value",
          .roles = {{"value", {}}, {"limit", {}}},
          .number = {{{-1, 1}}},
          .unwindowed = Unwindowed::at_least_zero};
}

/// Excess over a lower limit.
LawSpec at_least() {
  return {.law = Law::at_least,
          .word = "at_least",
          .formula = "value - limit",
          .roles = {{"value", {}}, {"limit", {}}},
          .number = {{{1, -1}}},
          .unwindowed = Unwindowed::at_least_zero};
}

/// Distance of a value from the nearer end of a range.
LawSpec range_contains() {
  return {.law = Law::range_contains,
          .word = "range_contains",
          .formula = "min(value - low, high - value)",
          .roles = {{"value", {}}, {"low", {}}, {"high", {}}},
          .number = {{{1, -1, 0}}, {{-1, 0, 1}}},
          .unwindowed = Unwindowed::at_least_zero};
}

/// How far stretch a reaches beyond stretch b, at the end where it reaches less: a covers b when it is not negative.
LawSpec overlap() {
  return {.law = Law::overlap,
          .word = "overlap",
          .formula = "min(start_b - start_a, end_a - end_b)",
          .roles = {{"start_a", {}}, {"end_a", {}}, {"start_b", {}}, {"end_b", {}}},
          .number = {{{-1, 0, 1, 0}}, {{0, 1, 0, -1}}},
          .unwindowed = Unwindowed::at_least_zero};
}

}  // namespace cotter::engine::fit::laws
