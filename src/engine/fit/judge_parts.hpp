#pragma once
// What the parts of the solver share. Inside of this box.

#include "engine/fit/linear.hpp"
#include "engine/fit/problem.hpp"

namespace cotter::engine::fit {

/// The law's whole number, from the parameters or from an exact count among the operands.
std::optional<std::int64_t> parameter_of(const Check& check, const LawSpec& spec);

/// What must be at least 0 for the number of the check to hold, whatever its operands are; factors by the law's roles.
/// Words stand beside it. Nothing when the upper end of "the least of two" is asked, which no linear demand is.
std::optional<std::vector<Linear>> linear_demands(const Check& check);

}  // namespace cotter::engine::fit
