#pragma once
// Places with a part of which nothing was judged: an empty list of findings must not look like a good one.

#include <vector>

#include "model/finding.hpp"
#include "model/plan.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// Places, in the template's order, whose part no joint and no stack has a finding on, with the template's reason.
/// Findings on the place alone (that it is open, or used) judge no joint and do not count.
std::vector<model::UncheckedPlace> unchecked_places(const Assembly& assembly,
                                                    const std::vector<model::Finding>& findings);

}  // namespace cotter::plan
