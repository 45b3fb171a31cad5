#include "engine/route/plan.hpp"

#include <bit>
#include <utility>

#include "engine/route/order.hpp"

namespace cotter::engine::route {

namespace {

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

}  // namespace

std::vector<LineSet> users_of(const Problem& problem, const std::vector<Way>& ways, const Plan& plan) {
  std::vector<LineSet> users(problem.apertures.size());
  for (const auto& chosen : plan.ways) {
    if (!chosen) continue;
    for (const int a : ways[*chosen].path) users[index(a)] |= only(ways[*chosen].line);
  }
  return users;
}

std::optional<Plan> finish_plan(const Columns& columns, Apertures& apertures, const OpeningCosts& costs, Plan plan) {
  const Problem& problem = columns.problem();
  const std::vector<LineSet> users = users_of(problem, columns.ways(), plan);
  std::vector<int> steps;
  for (std::size_t a = 0; a < users.size(); ++a) {
    const auto least = apertures.least_steps(users[a], static_cast<int>(a));
    if (!least) return std::nullopt;
    steps.push_back(*least);
  }
  const auto order = cheapest_order(problem, apertures, costs, users, plan.seats, steps, columns.lines());
  if (!order) return std::nullopt;
  plan.steps = order->steps;
  plan.pull_order = order->pull_order;
  plan.cost = 0;
  for (const auto& way : plan.ways)
    if (way) plan.cost += columns.at(*way).cost;
  for (std::size_t d = 0; d < plan.seats.size(); ++d) plan.cost += problem.devices[d].seats[index(plan.seats[d])].cost;
  for (std::size_t a = 0; a < users.size(); ++a)
    plan.cost += costs.of(static_cast<int>(a), plan.steps[a], count(users[a]));
  return plan;
}

std::optional<Plan> plan_of(const Columns& columns, Apertures& apertures, const OpeningCosts& costs,
                            const Domains& domains) {
  const Problem& problem = columns.problem();
  Plan plan;
  plan.ways.resize(problem.lines.size());
  for (const int line : listed(columns.lines()))
    each_way(columns, domains.alive, line, [&](std::size_t way) { plan.ways[index(line)] = way; });
  for (const SeatSet seats : domains.seats) plan.seats.push_back(std::countr_zero(seats));
  return finish_plan(columns, apertures, costs, std::move(plan));
}

}  // namespace cotter::engine::route
