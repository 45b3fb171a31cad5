#pragma once
// Whether the lines of the job join what the template says must be joined; knows no engine.

#include <vector>

#include "model/finding.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// One finding for each connection whose two places are filled: ok, or what is missing. A guarded connection that no
/// line makes is `stop`, an unguarded one asks for the line to be added.
std::vector<model::Finding> connection_findings(const Assembly& assembly);

}  // namespace cotter::plan
