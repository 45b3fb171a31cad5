#pragma once
// The steps of this very build: operations of the catalog that apply, and one pull for each line.

#include <string>
#include <string_view>
#include <vector>

#include "model/operation.hpp"
#include "model/plan.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// The operations of the catalog that are the patterns of the pulls, and how the pulls made from them are named.
/// Housing and bare cables go on late, when bar and brakes stand; a catalog without a pattern of their own treats them
/// as lines.
inline constexpr std::string_view k_pull_pattern = "pull_lines";
inline constexpr std::string_view k_housing_pattern = "pull_housing";
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
/// to its followers. The patterns `pull_lines` and `pull_housing` become one operation a line, named `pull:<line>`.
std::vector<model::Operation> work_operations(const Assembly& assembly, const PullPlan& pulls);

}  // namespace cotter::plan
