#include "engine/sequence/conflict.hpp"

#include <algorithm>

#include "engine/sequence/search.hpp"

namespace cotter::engine::sequence {
namespace {

/// Operations, edges and states that may be looked at for each node of the limit: many short searches are made.
constexpr std::int64_t k_effort_per_node = 10;

std::vector<Reason> demands_of(const Steps& steps) {
  std::vector<Reason> demands;
  for (std::size_t i = 0; i < steps.steps.size(); ++i) {
    for (const std::size_t earlier : steps.steps[i].after) demands.push_back({Reason::Kind::after, earlier, i});
    for (const auto& group : steps.steps[i].needs) demands.push_back({Reason::Kind::needs_one_of, i, i, group});
  }
  return demands;
}

Outcome outcome_with(const std::vector<Reason>& demands, Steps steps, const Problem& problem,
                     std::int64_t& effort_left) {
  for (Step& step : steps.steps) {
    step.after.clear();
    step.needs.clear();
  }
  for (const Reason& demand : demands) {
    Step& step = steps.steps[demand.later];
    if (demand.kind == Reason::Kind::after) {
      step.after.push_back(demand.earlier);
    } else {
      step.needs.push_back(demand.accesses);
    }
  }
  if (effort_left <= 0) return Outcome::cut;
  const Precedences edges = precedences(steps);
  effort_left -= static_cast<std::int64_t>(steps.steps.size() + edges.edges.size());
  if (!edges.hopeless.empty() || !shortest_circle(steps.steps.size(), edges.edges).empty()) return Outcome::none;
  const Found found = find_order(steps, edges, problem.operations, std::max<std::int64_t>(effort_left, 1));
  effort_left -= found.nodes;
  return found.outcome;
}

}  // namespace

Conflict find_conflict(const Steps& steps, const Problem& problem, std::int64_t node_limit) {
  Conflict conflict{demands_of(steps), true};
  std::int64_t effort_left = k_effort_per_node * node_limit;
  for (std::size_t block = std::max<std::size_t>(conflict.demands.size() / 2, 1); block > 0; block /= 2) {
    for (std::size_t first = 0; first < conflict.demands.size();) {
      const auto begin = conflict.demands.begin() + static_cast<std::ptrdiff_t>(first);
      const auto end =
          begin + std::min<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(block), conflict.demands.end() - begin);
      std::vector<Reason> rest(conflict.demands.begin(), begin);
      rest.insert(rest.end(), end, conflict.demands.end());
      const Outcome outcome = outcome_with(rest, steps, problem, effort_left);
      if (outcome == Outcome::cut && block == 1) conflict.is_least = false;
      if (outcome == Outcome::none) {
        conflict.demands = std::move(rest);
      } else {
        first += block;
      }
    }
  }
  return conflict;
}

}  // namespace cotter::engine::sequence
