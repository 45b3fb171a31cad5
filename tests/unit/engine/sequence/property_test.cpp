// Properties over random work, and agreement with trying every permutation.

#include <gtest/gtest.h>
// rapidcheck needs gtest above it.
#include <algorithm>
#include <numeric>
#include <rapidcheck/gtest.h>

#include "build.hpp"

namespace cotter::engine::sequence {
namespace {

/// Evenly from low to high - 1, whatever the size rapidcheck is at.
std::size_t any(std::size_t low, std::size_t high) {
  return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange<std::size_t>(low, high));
}
bool one_in(std::size_t n) {
  return any(0, n) == 0;
}
std::string id(std::size_t index) {
  return "o" + std::to_string(index);
}

/// Up to `most` operations over three accesses, with everything the rules know; often without any order.
Problem any_work(std::size_t most) {
  Problem problem;
  const std::size_t accesses = 3;
  for (std::size_t i = 0; i < accesses; ++i) problem.accesses.push_back({"x" + std::to_string(i), !one_in(3)});
  const auto access = [&] { return problem.accesses[any(0, accesses)].id; };
  const std::size_t count = any(1, most + 1);
  for (std::size_t i = 0; i < count; ++i) {
    Operation operation{.id = id(i)};
    if (one_in(3)) operation.after.push_back(id(any(0, count)));
    if (!operation.after.empty() && operation.after[0] == id(i) && !one_in(8)) operation.after.clear();
    if (one_in(2)) operation.needs_open.push_back({access()});
    if (one_in(3)) operation.needs_open.push_back({access(), access()});
    if (one_in(3)) operation.closes.push_back(access());
    if (one_in(4)) operation.opens.push_back(access());
    operation.position = "p" + std::to_string(any(0, 3));
    operation.reversible = one_in(4) ? Reversible::no : Reversible::yes;
    problem.operations.push_back(std::move(operation));
  }
  return problem;
}

bool some_permutation_is_legal(const Problem& problem) {
  std::vector<std::size_t> order(problem.operations.size());
  std::iota(order.begin(), order.end(), 0u);
  do {
    if (violations(problem, order).empty()) return true;
  } while (std::next_permutation(order.begin(), order.end()));
  return false;
}

/// The edge is among the demands of the problem, read from its text alone.
bool edge_holds(const Problem& problem, const Reason& edge) {
  const Operation& earlier = problem.operations[edge.earlier];
  const Operation& later = problem.operations[edge.later];
  const auto names = [](const Names& list, const std::string& name) {
    return std::find(list.begin(), list.end(), name) != list.end();
  };
  const auto needs = [&](const Operation& operation, const std::string& access) {
    return std::any_of(operation.needs_open.begin(), operation.needs_open.end(),
                       [&](const Names& group) { return names(group, access); });
  };
  if (edge.kind == Reason::Kind::after) return names(later.after, earlier.id);
  const std::string& access = problem.accesses[edge.accesses.at(0)].id;
  if (edge.kind == Reason::Kind::needs_before_close) return needs(earlier, access) && names(later.closes, access);
  return names(earlier.opens, access) && needs(later, access);
}

void assert_is_circle(const Problem& problem, const std::vector<Reason>& circle) {
  RC_ASSERT(!circle.empty());
  for (std::size_t i = 0; i < circle.size(); ++i) {
    RC_ASSERT(circle[i].later == circle[(i + 1) % circle.size()].earlier);
    RC_ASSERT(edge_holds(problem, circle[i]));
  }
}

RC_GTEST_PROP(SequenceProperty, AgreesWithTryingEveryPermutation, ()) {
  const Problem problem = any_work(6);
  const Result result = solve(problem);
  const bool possible = some_permutation_is_legal(problem);
  RC_ASSERT(result.status == (possible ? Status::ordered : Status::impossible));
  if (possible) {
    RC_ASSERT(violations(problem, result.order).empty());
  } else if (result.circle.empty()) {
    RC_ASSERT(!result.conflict.empty());
  } else {
    assert_is_circle(problem, result.circle);
  }
}

/// The problem with nothing demanded but `demands`.
Problem only(const Problem& problem, const std::vector<Reason>& demands, std::size_t leave_out) {
  Problem reduced = problem;
  for (Operation& operation : reduced.operations) {
    operation.after.clear();
    operation.needs_open.clear();
  }
  for (std::size_t i = 0; i < demands.size(); ++i) {
    if (i == leave_out) continue;
    Operation& operation = reduced.operations[demands[i].later];
    if (demands[i].kind == Reason::Kind::after) {
      operation.after.push_back(problem.operations[demands[i].earlier].id);
      continue;
    }
    Names& group = operation.needs_open.emplace_back();
    for (const std::size_t access : demands[i].accesses) group.push_back(problem.accesses[access].id);
  }
  return reduced;
}

RC_GTEST_PROP(SequenceProperty, AConflictForbidsAndNothingInItIsIdle, ()) {
  const Problem problem = any_work(6);
  const Result result = solve(problem);
  if (result.conflict.empty()) return;
  RC_ASSERT(result.conflict_is_least);
  RC_ASSERT(!some_permutation_is_legal(only(problem, result.conflict, result.conflict.size())));
  for (std::size_t i = 0; i < result.conflict.size(); ++i) {
    RC_ASSERT(some_permutation_is_legal(only(problem, result.conflict, i)));
  }
}

/// Work whose `after` and closings follow a hidden order, so that it can be done.
Problem doable_work(std::size_t count) {
  Problem problem;
  for (std::size_t i = 0; i < 6; ++i) problem.accesses.push_back({"x" + std::to_string(i), true});
  for (std::size_t i = 0; i < count; ++i) {
    Operation operation{.id = id(i)};
    for (std::size_t k = 0; k < 2 && i > 0; ++k) operation.after.push_back(id(any(0, i)));
    const std::size_t access = any(0, 6);
    const bool last_third = i >= count - count / 3;
    if (!last_third) operation.needs_open.push_back({problem.accesses[access].id});
    if (last_third && one_in(2)) operation.closes.push_back(problem.accesses[access].id);
    operation.position = "p" + std::to_string(any(0, 4));
    operation.tools = {"t" + std::to_string(any(0, 5))};
    operation.reversible = one_in(5) ? Reversible::no : Reversible::yes;
    problem.operations.push_back(std::move(operation));
  }
  return problem;
}

RC_GTEST_PROP(SequenceProperty, WorkThatCanBeDoneIsOrdered, ()) {
  const Problem problem = doable_work(any(1, 60));
  const Result result = solve(problem);
  RC_ASSERT(result.status == Status::ordered);
  RC_ASSERT(violations(problem, result.order).empty());
  RC_ASSERT(result.precedence_complete);
  RC_ASSERT(result.position_changes >= result.least_position_changes);
}

RC_GTEST_PROP(SequenceProperty, APlantedCircleIsFound, ()) {
  Problem problem = doable_work(any(4, 40));
  const std::size_t first = any(0, problem.operations.size() - 1);
  const std::size_t last = any(first + 1, problem.operations.size());
  problem.operations[last].after.push_back(id(first));
  problem.operations[first].after.push_back(id(last));
  const Result result = solve(problem);
  RC_ASSERT(result.status == Status::impossible);
  RC_ASSERT(result.circle.size() <= 2u);
  assert_is_circle(problem, result.circle);
}

RC_GTEST_PROP(SequenceProperty, ShufflingTheListKeepsTheVerdict, ()) {
  const Problem problem = any_work(8);
  Problem shuffled = problem;
  for (std::size_t i = shuffled.operations.size(); i > 1; --i) {
    std::swap(shuffled.operations[i - 1], shuffled.operations[any(0, i)]);
  }
  std::reverse(shuffled.accesses.begin(), shuffled.accesses.end());
  const Result before = solve(problem), after = solve(shuffled);
  RC_ASSERT(before.status == after.status);
  RC_ASSERT(before.circle.size() == after.circle.size());
}

RC_GTEST_PROP(SequenceProperty, RenamingChangesNothing, ()) {
  const Problem problem = any_work(8);
  Problem renamed = problem;
  const auto rename = [](std::string& name) { name = (name[0] == 'o' ? "z" : "a") + name; };
  for (Access& access : renamed.accesses) rename(access.id);
  for (Operation& operation : renamed.operations) {
    rename(operation.id);
    for (std::string& name : operation.after) rename(name);
    for (Names& group : operation.needs_open) {
      for (std::string& name : group) rename(name);
    }
    for (std::string& name : operation.opens) rename(name);
    for (std::string& name : operation.closes) rename(name);
  }
  RC_ASSERT(solve(problem).order == solve(renamed).order);
}

}  // namespace
}  // namespace cotter::engine::sequence
