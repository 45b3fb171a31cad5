#pragma once
// Used parts: what their inspection says, and what each of them is without one. Which families and materials nobody
// trusts uninspected is data of the catalog (`cotter: conditions`).

#include <vector>

#include "model/finding.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// One finding for each used part, and one for each wear in its record. Without a record `stop` where the first rule
/// for its family and material says so, else `measure`: never silence.
std::vector<model::Finding> condition_findings(const Assembly& assembly);

}  // namespace cotter::plan
