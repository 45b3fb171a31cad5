#include "engine/fit/laws/all.hpp"

namespace cotter::engine::fit::laws {

/// Diametral clearance; negative is interference. Both diameters, never radii: the factor of two between the two is the
/// classic mistake in press fits.
LawSpec bore_on_shaft() {
  using enum quantity::Dimension;
  return {.law = Law::bore_on_shaft,
          .word = "bore_on_shaft",
          .formula = "bore - shaft",
          .roles = {{"bore", length}, {"shaft", length}},
          .number = {{{1, -1}}}};
}

}  // namespace cotter::engine::fit::laws
