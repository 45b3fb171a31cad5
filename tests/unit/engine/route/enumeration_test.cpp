// The engine against plain enumeration on tiny problems, and the order of pulling against all permutations.
#include "enumeration.hpp"

#include <gtest/gtest.h>
#include <map>

#include "engine/route/solve.hpp"
#include "instances.hpp"

namespace cotter::engine::route {
namespace {

TEST(RouteEnumeration, TinyProblemsHaveTheSameOptimum) {
  int with_plan = 0;
  int without = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    const Problem problem = instances::tiny(seed);
    const auto expected = enumeration::Enumeration(problem).least_cost();
    const Result result = solve(problem);
    ASSERT_EQ(result.status, expected ? Status::optimal : Status::infeasible) << "seed " << seed;
    EXPECT_EQ(result.objective, expected) << "seed " << seed;
    if (expected) {
      EXPECT_EQ(violations(problem, result), std::vector<std::string>{}) << "seed " << seed;
    }
    ++(expected ? with_plan : without);
  }
  EXPECT_GT(with_plan, 60);
  EXPECT_GT(without, 60);
}

TEST(RouteEnumeration, DemandsChangeTheOptimumAsPlainEnumerationSays) {
  int with_plan = 0;
  int dearer = 0;
  int ordered = 0;
  for (std::uint64_t seed = 1; seed <= 800; ++seed) {
    const Problem problem = instances::demanding(seed);
    ASSERT_TRUE(faults_in(problem).empty()) << "seed " << seed;
    const auto expected = enumeration::Enumeration(problem).least_cost();
    const Result result = solve(problem);
    ASSERT_EQ(result.status, expected ? Status::optimal : Status::infeasible) << "seed " << seed;
    EXPECT_EQ(result.objective, expected) << "seed " << seed;
    if (!expected) continue;
    EXPECT_EQ(violations(problem, result), std::vector<std::string>{}) << "seed " << seed;
    ++with_plan;
    dearer += solve(instances::tiny(seed)).objective < expected ? 1 : 0;
    for (const DeviceEntry& entry : result.device_entries) ordered += entry.before.empty() ? 0 : 1;
  }
  EXPECT_GT(with_plan, 80);
  EXPECT_GT(dearer, 20);
  EXPECT_GT(ordered, 5);
}

TEST(RouteBound, PricedBoundAtTheRootNeverExceedsTheOptimum) {
  int cut_short = 0;
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    for (const int tight : {75, 85, 100}) {
      Problem problem = instances::frame(seed, 7, 8, tight);
      problem.rules.packing = seed % 3 == 0 ? Packing::exact : Packing::density;
      const Result root = solve(problem, {.node_limit = 1});
      if (root.status != Status::limit) continue;
      const Result whole = solve(problem);
      if (whole.status != Status::optimal) continue;
      EXPECT_LE(*root.bound, *whole.objective) << "seed " << seed << " tight " << tight;
      ++cut_short;
    }
  }
  EXPECT_GT(cut_short, 50);
}

using Pair = std::array<int, 3>;  // before, after, aperture

/// Pairs of an aperture whose other order fails in every permutation of its lines.
void add_needed(const Problem& problem, const Fill& fill, int steps, std::vector<Pair>& needed) {
  std::map<std::pair<int, int>, bool> possible;
  std::vector<int> order = fill.lines;
  do {
    if (!enumeration::pulls(problem, order, fill.aperture, steps)) continue;
    for (std::size_t i = 0; i < order.size(); ++i)
      for (std::size_t j = i + 1; j < order.size(); ++j) possible[{order[i], order[j]}] = true;
  } while (std::next_permutation(order.begin(), order.end()));
  for (const int before : fill.lines)
    for (const int after : fill.lines)
      if (before != after && !possible[{after, before}]) needed.push_back({before, after, fill.aperture});
}

TEST(RouteEnumeration, PrecedencesAreTheOnesThatNoPermutationEscapes) {
  int pairs = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Problem problem = instances::frame(seed, 6, 7, 80);
    problem.rules.packing = seed % 2 == 0 ? Packing::exact : Packing::density;
    const Result result = solve(problem);
    if (!result.objective) continue;
    std::vector<Pair> expected;
    for (const Fill& fill : result.fills) add_needed(problem, fill, result.enlarge[fill.aperture], expected);
    std::vector<Pair> found;
    for (const Precedence& p : result.precedences)
      if (p.because == Precedence::Because::needed) found.push_back({p.before, p.after, p.aperture});
    EXPECT_EQ(found, expected) << "seed " << seed;
    pairs += static_cast<int>(found.size());
    EXPECT_EQ(violations(problem, result), std::vector<std::string>{}) << "seed " << seed;
  }
  EXPECT_GT(pairs, 20);
}

}  // namespace
}  // namespace cotter::engine::route
