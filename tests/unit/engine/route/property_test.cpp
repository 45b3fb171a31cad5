#include <algorithm>
#include <gtest/gtest.h>
#include <numeric>
#include <rapidcheck/gtest.h>

#include "engine/route/solve.hpp"
#include "instances.hpp"

namespace cotter::engine::route {
namespace {

Problem any_problem() {
  const auto seed = *rc::gen::arbitrary<std::uint32_t>();
  Problem problem = *rc::gen::element(0, 1) == 0 ? instances::tiny(seed) : instances::frame(seed, 7, 6, 90);
  problem.rules.packing = *rc::gen::element(Packing::density, Packing::exact);
  return problem;
}

/// New places for 0..n-1.
std::vector<int> shuffled(std::size_t n) {
  std::vector<int> places(n);
  std::iota(places.begin(), places.end(), 0);
  instances::Dice dice(*rc::gen::arbitrary<std::uint32_t>());
  for (int i = static_cast<int>(n) - 1; i > 0; --i) std::swap(places[i], places[dice.roll(0, i)]);
  return places;
}

RC_GTEST_PROP(RouteProperty, NamesAndOrderOfTheListsDecideNothing, ()) {
  const Problem problem = any_problem();
  Problem other = problem;
  const auto apertures = shuffled(problem.apertures.size());
  const auto lines = shuffled(problem.lines.size());
  for (std::size_t a = 0; a < apertures.size(); ++a) {
    other.apertures[apertures[a]] = problem.apertures[a];
    other.apertures[apertures[a]].id = "x" + std::to_string(apertures[a]);
  }
  for (Device& device : other.devices)
    for (Seat& seat : device.seats)
      if (seat.aperture) seat.aperture = apertures[*seat.aperture];
  for (std::size_t k = 0; k < lines.size(); ++k) {
    other.lines[lines[k]] = problem.lines[k];
    other.lines[lines[k]].id = "y" + std::to_string(k);
    if (k % 2 == 0) std::swap(other.lines[lines[k]].ends[0], other.lines[lines[k]].ends[1]);
  }
  const Result result = solve(other);
  RC_ASSERT(result.objective == solve(problem).objective);
  if (result.objective) RC_ASSERT(violations(other, result).empty());
}

RC_GTEST_PROP(RouteProperty, LargerOpeningNeverMakesThePlanWorse, ()) {
  Problem problem = any_problem();
  const Result before = solve(problem);
  RC_PRE(before.objective.has_value());
  auto& opening = problem.apertures[*rc::gen::inRange<std::size_t>(0, problem.apertures.size())].opening;
  const auto more = instances::tenths(*rc::gen::inRange(1, 30));
  opening = {opening.width + more, opening.length + more};
  const Result after = solve(problem);
  RC_ASSERT(after.objective.has_value());
  RC_ASSERT(*after.objective <= *before.objective);
}

/// The problem without the lines that are not named.
Problem with_lines(const Problem& problem, const std::vector<int>& lines) {
  Problem part = problem;
  part.lines.clear();
  for (const int line : lines) part.lines.push_back(problem.lines[line]);
  return part;
}

RC_GTEST_PROP(RouteProperty, ConflictsAreConflictsAndNoneOfTheirLinesIsIdle, ()) {
  const Problem problem = any_problem();
  const Result result = solve(problem);
  RC_PRE(result.status == Status::infeasible);
  const std::vector<int>& lines = result.conflict->lines;
  RC_ASSERT(result.conflict->irreducible);
  RC_ASSERT(solve(with_lines(problem, lines)).status == Status::infeasible);
  for (const int idle : lines) {
    std::vector<int> rest = lines;
    rest.erase(std::find(rest.begin(), rest.end(), idle));
    RC_ASSERT(solve(with_lines(problem, rest)).status == Status::optimal);
  }
}

RC_GTEST_PROP(RouteProperty, FewerPermittedLengthsNeverMakeItCheaper, ()) {
  Problem problem = any_problem();
  const Result before = solve(problem);
  for (Line& line : problem.lines)
    if (line.lengths.size() > 1) line.lengths.pop_back();
  const Result after = solve(problem);
  if (after.objective) RC_ASSERT(before.objective && *before.objective <= *after.objective);
}

}  // namespace
}  // namespace cotter::engine::route
