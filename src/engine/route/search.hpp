#pragma once
// The whole search for the cheapest plan of some lines, or for any plan.

#include <cstdint>
#include <optional>
#include <vector>

#include "engine/route/apertures.hpp"
#include "engine/route/line_set.hpp"
#include "engine/route/opening_costs.hpp"
#include "engine/route/plan.hpp"
#include "engine/route/problem.hpp"
#include "engine/route/ways.hpp"

namespace cotter::engine::route {

enum class Aim { best_plan, any_plan };

struct SearchOutcome {
  std::optional<Plan> plan;
  bool complete = false;   ///< the whole tree was searched (or, for any_plan, a plan was found)
  std::int64_t bound = 0;  ///< no plan costs less, when not complete
  std::int64_t nodes = 0;
};

/// Searches for a plan of `lines`. `ways` must hold all ways of those lines, grouped by line and cheapest first.
SearchOutcome search(const Problem& problem, Apertures& apertures, const OpeningCosts& costs,
                     const std::vector<Way>& ways, LineSet lines, Aim aim, std::int64_t node_limit);

}  // namespace cotter::engine::route
