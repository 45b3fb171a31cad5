#pragma once
// The order in which lines are pulled: one for the whole frame, and the pairs that really need it.

#include <optional>
#include <vector>

#include "engine/route/apertures.hpp"
#include "engine/route/line_set.hpp"
#include "engine/route/opening_costs.hpp"
#include "engine/route/result.hpp"

namespace cotter::engine::route {

/// One order for all lines that passes every aperture at these enlargements.
struct Order {
  std::vector<int> steps;
  std::vector<int> pull_order;
};

/// The cheapest further enlargement with which one order passes all apertures, starting from the least steps at which
/// each has an order of its own; none when there is none. Where the rules leave the order free, the thickest go first.
/// Devices that are put in through an entry take part: after the lines captive to them, as early as they can.
///
/// **Method** taken apart from the back: any line that can go in last may as well. When none can, in any plan some line
/// does, so each is tried with the steps it needs.
std::optional<Order> cheapest_order(const Problem& problem, Apertures& apertures, const OpeningCosts& costs,
                                    const std::vector<LineSet>& users, const std::vector<int>& seats,
                                    const std::vector<int>& steps, LineSet lines);

/// The pairs without which some aperture is not passed; see Precedence.
std::vector<Precedence> precedences(Apertures& apertures, const std::vector<LineSet>& users,
                                    const std::vector<int>& steps, const std::vector<int>& pull_order);

}  // namespace cotter::engine::route
