#pragma once
// First plans: one line after the other on its cheapest priced way, and single lines taken out and put in again.

#include <optional>

#include "engine/route/aperture_choice.hpp"
#include "engine/route/multipliers.hpp"
#include "engine/route/plan.hpp"
#include "engine/route/propagation.hpp"

namespace cotter::engine::route {

/// Domains with one way for each line and one seat for each device, or none when it got stuck. The line that would lose
/// most by waiting, when its cheapest way went, goes first.
std::optional<Domains> insert_lines(const Columns& columns, Propagation& propagation, const Multipliers& multipliers,
                                    Domains domains);

/// Gives single lines a cheaper way between the same seats, beside all others as they are, until none has one.
void reinsert_lines(const Columns& columns, ApertureChoice& choice, Plan& plan);

}  // namespace cotter::engine::route
