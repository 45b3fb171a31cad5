#pragma once
// The steps of this very build: operations of the catalog that apply, and one pull for each line.

#include <string>
#include <string_view>
#include <vector>

#include "model/operation.hpp"
#include "model/plan.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// The operation of the catalog that is the pattern of all pulls, and how the pulls made from it are named.
inline constexpr std::string_view k_pull_pattern = "pull_lines";
inline constexpr std::string_view k_pull_prefix = "pull:";

/// What the routing says about the work.
struct PullPlan {
  std::vector<std::string> pulls;        ///< line ids in an order that works
  std::vector<model::PullOrder> needed;  ///< by line number
  std::vector<model::Run> runs;
  bool lines_cross_shell = false;
  std::vector<std::string> rework;  ///< operations that findings ask for
};

/// Operations whose conditions hold, in the catalog's order. An operation that does not apply hands its own `after` on
/// to its followers. The pattern `pull_lines` becomes one operation a line, named `pull:<line>`.
std::vector<model::Operation> work_operations(const Assembly& assembly, const PullPlan& pulls);

}  // namespace cotter::plan
