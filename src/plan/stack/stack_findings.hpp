#pragma once
// The stacks of the bicycle template to the stack engine and back: gaps, spacers to add, cuts.

#include <vector>

#include "model/finding.hpp"
#include "model/plan.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

struct StackFindings {
  std::vector<model::Finding> findings;
  std::vector<model::Cut> cuts;
};

StackFindings stack_findings(const Assembly& assembly);

}  // namespace cotter::plan
