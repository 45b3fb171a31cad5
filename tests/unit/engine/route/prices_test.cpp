// The priced bound where two lines just share an aperture: nothing may be charged for room that the rules allow.
#include "engine/route/prices.hpp"

#include <gtest/gtest.h>

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

std::int64_t priced_bound(const Problem& problem) {
  Apertures apertures(problem);
  const LineSet lines = all_lines(problem.lines.size());
  const Ways ways = list_ways(problem, apertures, lines, 10'000);
  Prices prices(problem, ways.list, lines);
  prices.tune(ways.list, std::vector<char>(ways.list.size(), 1), 200);
  std::int64_t bound = -prices.worth();
  for (int k = 0; k < static_cast<int>(problem.lines.size()); ++k) {
    std::optional<std::int64_t> least;
    for (std::size_t w = 0; w < ways.list.size(); ++w)
      if (ways.list[w].line == k) least = std::min(least.value_or(prices.priced(w)), prices.priced(w));
    bound += *least;
  }
  return bound;
}

void expect_both_through_the_top(const Problem& problem) {
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  ASSERT_EQ(result.objective, 2 * 580);
  EXPECT_LE(priced_bound(problem), 2 * 580 * k_price_unit);
}

TEST(RoutePrices, AreaJustShared) {
  Problem problem = with_detour({line("wide", 70, 70, 0, 1), line("thin", 10, 10, 0, 1)});
  problem.rules.pull_permille = 1000;
  expect_both_through_the_top(problem);  // 49 + 1 of 100 mm2, half
}

TEST(RoutePrices, EqualLinesBeyondTheShareOfTheArea) {
  Problem problem = with_detour({line("one", 50, 50, 0, 1), line("two", 50, 50, 0, 1)});
  problem.rules.pack_permille = 400;
  problem.rules.pull_permille = 1000;
  expect_both_through_the_top(problem);
}

TEST(RoutePrices, ConnectorOfTheLastJustPasses) {
  Problem problem = with_detour({line("first", 50, 60, 0, 1), line("last", 30, 50, 0, 1)});
  problem.rules.pack_permille = 1000;
  expect_both_through_the_top(problem);  // 25 beside 25 of 100 mm2
}

TEST(RoutePrices, RaiseTheBoundWhereLinesCompete) {
  Problem problem = with_detour({line("one", 60, 60, 0, 1), line("two", 60, 60, 0, 1)});
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  EXPECT_GT(*result.objective, 2 * 580);
  EXPECT_GT(priced_bound(problem), 2 * 580 * k_price_unit);
  EXPECT_LE(priced_bound(problem), *result.objective * k_price_unit);
}

}  // namespace
}  // namespace cotter::engine::route
