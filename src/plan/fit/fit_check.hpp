#pragma once
// One rule on one pair of interfaces as a check of the fit engine.

#include <optional>
#include <string>
#include <vector>

#include "engine/fit/solve.hpp"
#include "model/finding.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// The two sides of a rule: `own` is the side whose kind declares it.
struct Sides {
  model::InterfaceRef own;
  model::InterfaceRef other;
};

struct FitCheck {
  engine::fit::Check check;
  std::vector<model::NamedValue> values;         ///< in the order of check.operands
  std::vector<std::optional<FoundValue>> found;  ///< likewise; empty for values fixed by the rule
  std::optional<FoundValue> missing;             ///< set: a part does not state it, so the check cannot be judged
};

/// A window of the catalog as one of the engine; its ends carry no deviations.
engine::fit::Window window_of(const model::Window& window);

/// Requires a rule without faults (see rule_faults).
FitCheck fit_check(const Assembly& assembly, const model::Rule& rule, const Sides& sides);

}  // namespace cotter::plan
