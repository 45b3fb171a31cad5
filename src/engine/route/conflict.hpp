#pragma once
// Why there is no way: the smallest set of lines that stand in each other's way, and what is in the way of each.

#include <cstdint>

#include "engine/route/apertures.hpp"
#include "engine/route/problem.hpp"
#include "engine/route/result.hpp"
#include "engine/route/ways.hpp"

namespace cotter::engine::route {

/// A set of lines that cannot all be routed, for a problem that is proven to have no plan.
///
/// **Method** deletion: one line after the other is left out, and stays out when the rest still has no plan. The set is
/// marked irreducible when no trial was cut short by the limit, which counts the nodes of all trials together.
/// Adds those nodes to `nodes`.
Conflict find_conflict(const Problem& problem, Apertures& apertures, const std::vector<Way>& ways,
                       std::int64_t node_limit, std::int64_t& nodes);

}  // namespace cotter::engine::route
