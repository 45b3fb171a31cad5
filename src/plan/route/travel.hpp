#pragma once
// Lines across the pivot of a sprung frame: how much longer their way gets over the travel, as slack they must have and
// as a finding for each line that crosses.

#include <vector>

#include "engine/route/result.hpp"
#include "model/finding.hpp"
#include "plan/route/route_problem.hpp"

namespace cotter::plan {

/// Adds to the slack of every line whose ends lie on both sides of the pivot what the travel can ask of it: the most
/// that the distance of any two marks grows between which the line could cross. What can be stowed grows with it, since
/// that length lies in the loop at the pivot.
void add_travel(RouteProblem& route);

/// One finding for each run that crosses: its length as drawn, at both ends of the travel and at the worst point,
/// against the length that was chosen. `measure` while a number of the pivot is not attested, `stop` when the length
/// falls short.
std::vector<model::Finding> travel_findings(const RouteProblem& route, const engine::route::Result& result);

}  // namespace cotter::plan
