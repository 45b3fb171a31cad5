// The priced bound where two lines just share an aperture: nothing may be charged for room that the rules allow.
#include "engine/route/multipliers.hpp"

#include <gtest/gtest.h>

#include "engine/route/propagation.hpp"
#include "engine/route/solve.hpp"
#include "small.hpp"

namespace cotter::engine::route {
namespace {

using small::down_tube;
using small::line;
using small::tenths;

/// A second, dearer way in beside `top`, so that prices have something to push lines to.
Problem with_detour(std::vector<Line> lines) {
  Problem problem = down_tube(std::move(lines), Packing::density);
  problem.apertures[1].opening = {tenths(400), tenths(400)};
  problem.apertures.push_back(small::hole("far", 0, k_outside, 400, {0, 200, 0}));
  return problem;
}

/// In thousandths.
std::int64_t priced_bound(const Problem& problem) {
  Apertures apertures(problem);
  const LineSet lines = all_lines(problem.lines.size());
  const Ways ways = list_ways(problem, apertures, lines, 10'000);
  const Columns columns(problem, ways.list, lines);
  const OpeningCosts costs = opening_costs(problem);
  ApertureChoice choice(problem, apertures, costs, k_price_unit);
  Propagation propagation(columns, choice);
  Domains domains = propagation.everything();
  EXPECT_TRUE(propagation.settle(domains));
  return Multipliers(columns, choice, k_price_unit).tune(domains, 200, 1'000'000'000);
}

void expect_both_through_the_top(const Problem& problem) {
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  ASSERT_EQ(result.objective, 2 * 580);
  EXPECT_LE(priced_bound(problem), 2 * 580 * k_price_unit);
}

TEST(RouteMultipliers, AreaJustShared) {
  Problem problem = with_detour({line("wide", 70, 70, 0, 1), line("thin", 10, 10, 0, 1)});
  problem.rules.pull_permille = 1000;
  expect_both_through_the_top(problem);  // 49 + 1 of 100 mm2, half
}

TEST(RouteMultipliers, EqualLinesBeyondTheShareOfTheArea) {
  Problem problem = with_detour({line("one", 50, 50, 0, 1), line("two", 50, 50, 0, 1)});
  problem.rules.pack_permille = 400;
  problem.rules.pull_permille = 1000;
  expect_both_through_the_top(problem);
}

TEST(RouteMultipliers, ConnectorOfTheLastJustPasses) {
  Problem problem = with_detour({line("first", 50, 60, 0, 1), line("last", 30, 50, 0, 1)});
  problem.rules.pack_permille = 1000;
  expect_both_through_the_top(problem);  // 25 beside 25 of 100 mm2
}

TEST(RouteMultipliers, RaiseTheBoundWhereLinesCompete) {
  Problem problem = with_detour({line("one", 60, 60, 0, 1), line("two", 60, 60, 0, 1)});
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  EXPECT_GT(*result.objective, 2 * 580);
  EXPECT_GT(priced_bound(problem), 2 * 580 * k_price_unit);
  EXPECT_LE(priced_bound(problem), *result.objective * k_price_unit);
}

}  // namespace
}  // namespace cotter::engine::route
