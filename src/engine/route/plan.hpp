#pragma once
// A whole plan while it is searched for, and its cost.

#include <cstdint>
#include <optional>
#include <vector>

#include "engine/route/apertures.hpp"
#include "engine/route/columns.hpp"
#include "engine/route/domains.hpp"
#include "engine/route/line_set.hpp"
#include "engine/route/opening_costs.hpp"
#include "engine/route/problem.hpp"
#include "engine/route/ways.hpp"

namespace cotter::engine::route {

/// One seat for each device, one way for each routed line, the enlargements, and an order of pulling.
struct Plan {
  std::vector<int> seats;
  std::vector<std::optional<std::size_t>> ways;  ///< for each line, index into the ways; none for lines left out
  std::vector<int> steps;
  std::vector<int> pull_order;
  std::int64_t cost = 0;
};

/// The lines in each aperture.
std::vector<LineSet> users_of(const Problem& problem, const std::vector<Way>& ways, const Plan& plan);

/// Least enlargements, one order of pulling and the cost for the ways and seats of `plan`; none when there is no order.
std::optional<Plan> finish_plan(const Columns& columns, Apertures& apertures, const OpeningCosts& costs, Plan plan);

/// The plan of domains in which every line has one way left. None when no order
/// of pulling suits.
std::optional<Plan> plan_of(const Columns& columns, Apertures& apertures, const OpeningCosts& costs,
                            const Domains& domains);

}  // namespace cotter::engine::route
