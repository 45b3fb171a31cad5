#pragma once
// A found plan, written out in full.

#include "engine/route/apertures.hpp"
#include "engine/route/plan.hpp"
#include "engine/route/problem.hpp"
#include "engine/route/result.hpp"

namespace cotter::engine::route {

/// Fills seats, runs, enlargements, order, precedences, fills and cost of `result`.
void report_plan(const Problem& problem, Apertures& apertures, const std::vector<Way>& ways, const Plan& plan,
                 Result& result);

}  // namespace cotter::engine::route
