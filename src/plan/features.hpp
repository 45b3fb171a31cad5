#pragma once
// Whether each part says the features that decide which joints and stacks there are; knows no engine.

#include <vector>

#include "model/finding.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// One finding for each such feature that a part in its place does not state (`measure`: everything that hangs on it
/// would stay unjudged), or that is of a kind the template has nothing for (`stop`). None for what is in order.
std::vector<model::Finding> feature_findings(const Assembly& assembly);

}  // namespace cotter::plan
