#pragma once
// Depth-first search over seats and ways, with domains that shrink as apertures fill up.

#include <cstdint>
#include <optional>
#include <vector>

#include "engine/route/apertures.hpp"
#include "engine/route/line_set.hpp"
#include "engine/route/prices.hpp"
#include "engine/route/problem.hpp"
#include "engine/route/ways.hpp"

namespace cotter::engine::route {

/// A whole plan: one seat for each device, one way for each routed line, the enlargements, and an order of pulling.
struct Plan {
  std::vector<int> seats;
  std::vector<std::optional<std::size_t>> ways;  ///< for each line, index into the ways; none for lines left out
  std::vector<int> steps;
  std::vector<int> pull_order;
  std::int64_t cost = 0;
};

/// The lines in each aperture.
std::vector<LineSet> users_of(const Problem& problem, const std::vector<Way>& ways, const Plan& plan);

enum class Aim { best_plan, any_plan };

struct SearchOutcome {
  std::optional<Plan> plan;
  bool complete = false;   ///< the whole tree was searched (or, for any_plan, a plan was found)
  std::int64_t bound = 0;  ///< no plan costs less, when not complete
  std::int64_t nodes = 0;
};

/// Searches for a plan of `lines`. `ways` must hold all ways of those lines.
SearchOutcome search(const Problem& problem, Apertures& apertures, const std::vector<Way>& ways, LineSet lines, Aim aim,
                     std::int64_t node_limit);

}  // namespace cotter::engine::route
