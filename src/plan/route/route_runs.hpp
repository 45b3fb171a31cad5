#pragma once
// A solved route as the plan carries it: runs with their depth marks, openings with what lies in them.

#include <vector>

#include "engine/route/result.hpp"
#include "model/plan.hpp"
#include "plan/route/route_problem.hpp"

namespace cotter::plan {

std::vector<model::Run> runs_of(const RouteProblem& route, const engine::route::Result& result);

/// All openings, used or not; passages only where a line passes. Without a result: nothing lies in any.
std::vector<model::OpeningUse> openings_of(const RouteProblem& route, const engine::route::Result& result);

std::vector<model::PullOrder> pull_order_of(const RouteProblem& route, const engine::route::Result& result);

}  // namespace cotter::plan
