#include "engine/route/report.hpp"

#include "engine/route/entrants.hpp"
#include "engine/route/order.hpp"
#include "geometry/wide.hpp"

namespace cotter::engine::route {

namespace {

using geometry::Wide;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

Run run_on(const Problem& problem, const Way& way) {
  const Line& line = problem.lines[index(way.line)];
  return {way.path, segments_of(problem, way), way.length, length_for(line, way.length).value(), leading_end(line)};
}

int area_permille(const Problem& problem, LineSet lines, quantity::Length width) {
  Wide squares = 0;
  for (const int line : listed(lines)) {
    const Wide diameter = problem.lines[index(line)].diameter.base();
    squares += diameter * diameter;
  }
  const Wide whole = static_cast<Wide>(width.base()) * width.base();
  return static_cast<int>((1000 * squares + whole - 1) / whole);
}

void add_cost(const Problem& problem, const Way& way, Cost& cost) {
  cost.ways += way.length;
  cost.apertures += problem.rules.per_aperture * static_cast<std::int64_t>(way.path.size());
  cost.turns += turn_cost(problem, way);
}

}  // namespace

void report_plan(const Problem& problem, Apertures& apertures, const std::vector<Way>& ways, const Plan& plan,
                 Result& result) {
  const std::vector<LineSet> users = users_of(problem, ways, plan);
  for (const auto& chosen : plan.ways) {
    const Way& way = ways[chosen.value()];
    result.runs.push_back(run_on(problem, way));
    add_cost(problem, way, result.cost);
  }
  for (std::size_t d = 0; d < plan.seats.size(); ++d)
    result.cost.seats += problem.devices[d].seats[index(plan.seats[d])].cost;
  for (std::size_t a = 0; a < users.size(); ++a) {
    result.cost.enlargement += problem.apertures[a].enlarge_cost * plan.steps[a];
    if (users[a] == 0) continue;
    const auto aperture = static_cast<int>(a);
    result.fills.push_back(
        {aperture, listed(users[a]),
         area_permille(problem, users[a], geometry::equal_round(apertures.opening(aperture, plan.steps[a]))),
         apertures.room_beside(users[a], aperture, plan.steps[a])});
  }
  result.objective = result.cost.total();
  result.seats = plan.seats;
  result.enlarge = plan.steps;
  result.pull_order = plan.pull_order;
  result.precedences = precedences(apertures, users, plan.steps, plan.pull_order);
  result.device_entries = device_entries(problem, apertures, users, plan.seats, plan.steps, plan.pull_order);
}

}  // namespace cotter::engine::route
