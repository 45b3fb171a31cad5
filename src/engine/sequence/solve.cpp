#include "engine/sequence/solve.hpp"

#include <algorithm>
#include <set>

#include "engine/sequence/conflict.hpp"
#include "engine/sequence/search.hpp"

namespace cotter::engine::sequence {
namespace {

void count_changes(const Problem& problem, Result& result) {
  Bench bench;
  std::set<std::string> positions;
  for (const std::size_t index : result.order) {
    const Operation& operation = problem.operations[index];
    if (!operation.position.empty()) positions.insert(operation.position);
    if (bench.changes_position(operation)) ++result.position_changes;
    if (bench.changes_side(operation)) ++result.side_changes;
    if (bench.tools_to_fetch(operation) > 0) ++result.tool_changes;
    result.hundredths_of_minute += operation.hundredths_of_minute;
    bench.take_up(operation);
  }
  result.least_position_changes = std::max(0, static_cast<int>(positions.size()) - 1);
}

std::vector<DecideBy> decide_by(const Problem& problem, const std::vector<std::size_t>& order) {
  std::vector<DecideBy> list;
  for (std::size_t choice = 0; choice < problem.choices.size(); ++choice) {
    const std::vector<std::string>& used_by = problem.choices[choice].used_by;
    const auto uses = [&](std::size_t index) {
      return std::find(used_by.begin(), used_by.end(), problem.operations[index].id) != used_by.end();
    };
    const auto first = std::find_if(order.begin(), order.end(), uses);
    if (first == order.end()) continue;
    list.push_back({choice, *first, static_cast<std::size_t>(first - order.begin())});
  }
  return list;
}

void explain_hopeless(const Precedences& edges, Result& result) {
  result.status = Status::impossible;
  if (edges.hopeless.empty()) return;
  result.conflict = {edges.hopeless.front()};
  result.conflict_is_least = true;
}

void explain_dead_end(const Steps& steps, const Problem& problem, const Options& options, Result& result) {
  result.status = Status::impossible;
  Conflict conflict = find_conflict(steps, problem, options.node_limit);
  result.conflict = std::move(conflict.demands);
  result.conflict_is_least = conflict.is_least;
}

}  // namespace

Result solve(const Problem& problem, const Options& options) {
  Result result;
  const auto steps = resolve(problem);
  if (!steps) {
    result.faults = steps.error();
    return result;
  }
  const Precedences edges = precedences(*steps);
  result.precedence_complete = edges.by_state.empty() && edges.hopeless.empty();
  result.circle = shortest_circle(steps->steps.size(), edges.edges);
  if (!result.circle.empty() || !edges.hopeless.empty()) {
    explain_hopeless(edges, result);
    return result;
  }
  Found found = find_order(*steps, edges, problem.operations, options.node_limit);
  result.nodes = found.nodes;
  if (found.outcome == Outcome::found) {
    result.status = Status::ordered;
    result.order = std::move(found.order);
    count_changes(problem, result);
    result.decide_by = decide_by(problem, result.order);
  } else if (found.outcome == Outcome::none) {
    explain_dead_end(*steps, problem, options, result);
  } else {
    result.status = Status::unfinished;
  }
  return result;
}

}  // namespace cotter::engine::sequence
