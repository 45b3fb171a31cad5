#include "engine/route/solve.hpp"

#include "engine/route/apertures.hpp"
#include "engine/route/conflict.hpp"
#include "engine/route/report.hpp"
#include "engine/route/search.hpp"
#include "engine/route/ways.hpp"

namespace cotter::engine::route {

namespace {

/// The bound when the ways could not all be listed: nothing costs less than nothing.
constexpr std::int64_t k_no_bound = 0;

Status status_of(const SearchOutcome& outcome) {
  if (!outcome.complete) return Status::limit;
  return outcome.plan ? Status::optimal : Status::infeasible;
}

/// Looks for a better plan that rests on packings for which there is no proof, and names them.
void name_undecided(const Problem& problem, Apertures& proven, const std::vector<Way>& ways, const Options& options,
                    Result& result) {
  Apertures hoped(problem, Doubt::fit);
  const LineSet lines = all_lines(problem.lines.size());
  const SearchOutcome outcome =
      search(problem, hoped, opening_costs(problem), ways, lines, Aim::best_plan, options.node_limit);
  result.nodes += outcome.nodes;
  if (!outcome.plan || (result.objective && outcome.plan->cost >= *result.objective)) return;
  result.objective_if_undecided_fit = outcome.plan->cost;
  const std::vector<LineSet> users = users_of(problem, ways, *outcome.plan);
  for (std::size_t a = 0; a < users.size(); ++a) {
    const auto aperture = static_cast<int>(a);
    if (!proven.takes(users[a], aperture, outcome.plan->steps[a]))
      result.undecided.push_back({aperture, listed(users[a])});
  }
}

}  // namespace

Result solve(const Problem& problem, const Options& options) {
  Result result;
  result.faults = faults_in(problem);
  if (!result.faults.empty()) return result;
  Apertures apertures(problem);
  const LineSet lines = all_lines(problem.lines.size());
  const Ways ways = list_ways(problem, apertures, lines, options.way_limit);
  const SearchOutcome outcome =
      search(problem, apertures, opening_costs(problem), ways.list, lines, Aim::best_plan, options.node_limit);
  result.nodes = outcome.nodes;
  result.status = ways.complete ? status_of(outcome) : Status::limit;
  if (outcome.plan) report_plan(problem, apertures, ways.list, *outcome.plan, result);
  if (result.status == Status::optimal) result.bound = result.objective;
  if (result.status == Status::limit) result.bound = ways.complete ? outcome.bound : k_no_bound;
  if (result.status == Status::infeasible && options.explain == Explain::conflict)
    result.conflict = find_conflict(problem, apertures, ways.list, options.node_limit, result.nodes);
  if (apertures.any_doubt()) name_undecided(problem, apertures, ways.list, options, result);
  return result;
}

std::string_view word_for(Status status) {
  switch (status) {
    case Status::optimal:
      return "optimal";
    case Status::infeasible:
      return "infeasible";
    case Status::limit:
      return "limit";
    case Status::bad:
      return "bad";
  }
  return "bad";
}

std::string_view word_for(Precedence::Because because) {
  return because == Precedence::Because::needed ? "needed" : "chosen";
}

std::string_view word_for(ConflictReason::Why why) {
  switch (why) {
    case ConflictReason::Why::connector_too_large:
      return "connector_too_large";
    case ConflictReason::Why::body_too_large:
      return "body_too_large";
    case ConflictReason::Why::no_length:
      return "no_length";
    case ConflictReason::Why::no_way:
      return "no_way";
    case ConflictReason::Why::bend:
      return "bend";
    case ConflictReason::Why::not_clear:
      return "not_clear";
    case ConflictReason::Why::pinned:
      return "pinned";
    case ConflictReason::Why::contested:
      return "contested";
  }
  return "contested";
}

}  // namespace cotter::engine::route
