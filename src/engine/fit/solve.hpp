#pragma once
// The fit solver: judges checks one by one. Pure; whole numbers throughout.

#include <vector>

#include "engine/fit/problem.hpp"

namespace cotter::engine::fit {

/// Everything that keeps a check from being judged; empty when it can be.
std::vector<Fault> faults(const Check& check);

/// **Method** every law is a linear form over a box of intervals, or the least of two; a demand holds for certain when
/// it is met at its worst corner. It fails for certain when it, or the sum of it and another one, is missed at its best
/// corner: with shared operands of opposite sign and equal weight, as in all laws of the table, that is exact.
/// **Accuracy** verdicts are exact; result and margin are rounded outward by less than one base unit, and only where a
/// law divides; probability to 1e-15.
/// **Requires** a check without faults.
CheckResult judge(const Check& check);

/// All checks, in their order.
Result solve(const Problem& problem);

}  // namespace cotter::engine::fit
