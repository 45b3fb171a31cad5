#pragma once
// What the parts of the solver share. Inside of this box.

#include "engine/fit/problem.hpp"

namespace cotter::engine::fit {

/// The law's whole number, from the parameters or from an exact count among the operands.
std::optional<std::int64_t> parameter_of(const Check& check, const LawSpec& spec);

}  // namespace cotter::engine::fit
