#pragma once
// What rules of interface kinds and forms of a stack have in common: windows, outcomes, guards, sources.

#include <vector>

#include "document/read_spot.hpp"
#include "model/kind.hpp"

namespace cotter::document {

/// A window with values of any dimension. **Fails with** `out_of_range` when its ends are swapped, `bad_value` when
/// they are of two dimensions.
model::Window read_window(const Spot& spot, Diagnostics& diagnostics);
/// **Fails with** `bad_value` at each end of the window that is of none of the dimensions.
void require_dimension(const Spot& spot, const model::Window& window, const std::vector<quantity::Dimension>& accepted,
                       Diagnostics& diagnostics);

/// **Inputs** `operations` are the ids that `do` may name.
/// **Fails with** `missing_field` for `rework` without `do` and `add` without `part`, `unknown_name` for an operation.
model::Outcome read_outcome(const Spot& spot, const std::vector<std::string>& operations, Diagnostics& diagnostics);
/// **Fails with** `missing_field` or `too_many` unless exactly one kind of source is named.
model::Source read_source(const Spot& spot, Diagnostics& diagnostics);

/// `guards` and `may_pass` of a rule.
struct Protection {
  model::Guards guards = model::Guards::nothing;
  model::MayPass may_pass = model::MayPass::mechanic;
};
/// A guarded limit is passed by nobody unless the rule says `maker`. **Fails with** `bad_value` when it says
/// `mechanic`.
Protection read_protection(const Spot& rule, Diagnostics& diagnostics);

}  // namespace cotter::document
