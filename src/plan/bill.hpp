#pragma once
// The bill of parts: what fills each place, what it weighs and costs, what is still to be ordered or chosen.

#include <vector>

#include "model/plan.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// One row a place in the template's order, then one a line; items are numbered from 1. Optional places that are empty
/// are left out.
std::vector<model::BillRow> bill_of(const Assembly& assembly);

/// One finding a place that must be filled and is not.
std::vector<model::Finding> open_place_findings(const Assembly& assembly);

}  // namespace cotter::plan
