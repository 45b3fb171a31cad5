#pragma once
// Which lengths of one term of a stack would have another set of pieces chosen.

#include <vector>

#include "engine/stack/solve.hpp"
#include "quantity/value.hpp"

namespace cotter::plan {

/// Stretches of the term's interval in which the engine, told that very length and all else as it is, would choose
/// another set than `today`'s.
///
/// **Method** the choice is asked for at the ends of 16 equal stretches; between two ends that answer differently the
/// place of the change is halved down to a micrometre.
/// **Accuracy** a change at such a place is right to a micrometre; a choice that comes and goes within one sixteenth of
/// the interval is not seen. Where the engine's search does not finish, the choice counts as today's.
std::vector<quantity::Range> other_choices(const engine::stack::Problem& problem, const engine::stack::Result& today,
                                           std::size_t term);

}  // namespace cotter::plan
