#pragma once
// What pressing the two sides of a rule together does to them, beside the rule's own verdict.

#include "model/finding.hpp"
#include "plan/assembly.hpp"
#include "plan/fit/fit_check.hpp"

namespace cotter::plan {

/// Adds the working of a rule that has a `press`, and what the maker's limit on the stress says about the verdict:
/// above it `stop`; perhaps above it, or below it on values that nobody vouches for where something is guarded, never
/// better than `measure`. Without a stated limit the numbers are shown and decide nothing.
/// **Requires** the finding of `fit` on the same rule and sides, its verdict in.
void add_press(const Assembly& assembly, const model::Rule& rule, const Sides& sides, const FitCheck& fit,
               model::Finding& finding);

}  // namespace cotter::plan
