#pragma once
// The lines of the job through the route engine and back: runs, openings, the order of pulling, findings.

#include <string>
#include <vector>

#include "model/finding.hpp"
#include "model/plan.hpp"
#include "plan/assembly.hpp"
#include "plan/skeleton.hpp"

namespace cotter::plan {

struct RouteFindings {
  std::vector<model::Finding> findings;
  bool complete = true;  ///< false: what follows leaves out the lines that have no way together
  std::vector<model::Run> runs;
  std::vector<model::OpeningUse> openings;
  std::vector<model::PullOrder> pull_order;
  std::vector<std::string> cells_used;  ///< `place.cell` in the template's names that some line passes
  std::vector<std::string> pulls;       ///< line ids in one order that works
};

RouteFindings route_findings(const Assembly& assembly, const geometry::Skeleton& skeleton);

}  // namespace cotter::plan
