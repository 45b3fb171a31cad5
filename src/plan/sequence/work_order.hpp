#pragma once
// The steps of the build through the sequence engine and back: the order of work, and by when a choice must be made.

#include <vector>

#include "model/finding.hpp"
#include "plan/sequence/work_operations.hpp"

namespace cotter::plan {

struct WorkOrder {
  std::vector<model::Finding> findings;
  std::vector<model::WorkStep> steps;
  std::vector<model::OpenChoice> choices;
  std::int64_t minutes = 0;
};

WorkOrder work_order(const Assembly& assembly, const PullPlan& pulls);

}  // namespace cotter::plan
