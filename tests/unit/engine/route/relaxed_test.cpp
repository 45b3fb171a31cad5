// What gives way: against trying every combination of relief on tiny problems.
#include <gtest/gtest.h>

#include "engine/route/solve.hpp"
#include "engine/route/solve_relaxed.hpp"
#include "enumeration.hpp"
#include "instances.hpp"

namespace cotter::engine::route {
namespace {

struct Least {
  std::int64_t relax = 0;
  std::int64_t objective = 0;
};

/// Relief for one aperture, and for all lines.
Relief some_relief(const Problem& problem, instances::Dice& dice) {
  Relief relief;
  relief.apertures.resize(problem.apertures.size());
  const auto a = static_cast<std::size_t>(dice.roll(0, static_cast<int>(problem.apertures.size()) - 1));
  relief.apertures[a] = {dice.roll(5, 20), dice.roll(1, 9), dice.roll(1, 60)};
  for (std::size_t k = 0; k < problem.lines.size(); ++k)
    relief.lines.push_back(
        {dice.roll(60, 200), dice.chance(50) ? std::optional<std::int64_t>(dice.roll(20, 90)) : std::nullopt});
  return relief;
}

/// Grants every combination in turn and solves what is left by plain enumeration.
class Combinations {
 public:
  Combinations(const Problem& problem, const Relief& relief) : problem_(problem), relief_(relief) {}

  std::optional<Least> least() {
    for (std::size_t a = 0; a < relief_.apertures.size(); ++a) {
      const ApertureRelief& one = relief_.apertures[a];
      if (one.extra_steps == 0) continue;
      for (int extra = 0; extra <= one.extra_steps; ++extra) {
        for (const bool shared : {false, true}) {
          Problem granted = problem_;
          Aperture& hole = granted.apertures[a];
          if (shared && hole.kind == ApertureKind::shared) continue;
          if (shared) hole.kind = ApertureKind::shared;
          const auto more = quantity::micrometres(100 * extra);
          hole.opening = {hole.opening.width + more, hole.opening.length + more};
          grant_lines(granted, 0, extra * one.extra_cost + (shared ? *one.share_cost : 0));
        }
      }
    }
    return best_;
  }

 private:
  void grant_lines(const Problem& granted, std::size_t k, std::int64_t relax) {
    if (best_ && relax > best_->relax) return;
    if (k == problem_.lines.size()) return judge(granted, relax);
    const std::size_t at = k - (problem_.lines.size() - granted.lines.size());
    grant_lines(granted, k + 1, relax);
    Problem without = granted;
    without.lines.erase(without.lines.begin() + static_cast<std::ptrdiff_t>(at));
    grant_lines(without, k + 1, relax + *relief_.lines[k].drop_cost);
    if (!relief_.lines[k].length_cost) return;
    Problem any_length = granted;
    any_length.lines[at].lengths.clear();
    any_length.lines[at].cut_max = 100'000;
    grant_lines(any_length, k + 1, relax + *relief_.lines[k].length_cost);
  }

  void judge(const Problem& granted, std::int64_t relax) {
    const auto cost = enumeration::Enumeration(granted).least_cost();
    if (!cost) return;
    if (!best_ || relax < best_->relax || (relax == best_->relax && *cost < best_->objective))
      best_ = Least{relax, *cost};
  }

  const Problem& problem_;
  const Relief& relief_;
  std::optional<Least> best_;
};

TEST(RouteRelaxed, TinyProblemsGiveWayAtTheLeastCost) {
  int gave_way = 0;
  for (std::uint64_t seed = 1; gave_way < 40; ++seed) {
    const Problem problem = instances::tiny(seed);
    if (problem.lines.size() > 2 || solve(problem).objective) continue;
    instances::Dice dice(seed);
    const Relief relief = some_relief(problem, dice);
    const auto expected = Combinations(problem, relief).least();
    const RelaxedResult result = solve_relaxed(problem, relief);
    ASSERT_EQ(result.status, expected ? Status::optimal : Status::infeasible) << "seed " << seed;
    if (!expected) continue;
    ++gave_way;
    EXPECT_EQ(result.relax_cost, expected->relax) << "seed " << seed;
    EXPECT_EQ(result.plan.objective, expected->objective) << "seed " << seed;
    EXPECT_EQ(violations(result.granted, result.plan), std::vector<std::string>{}) << "seed " << seed;
  }
}

TEST(RouteRelaxed, NothingGivesWayWhereThereIsAPlan) {
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    const Problem problem = instances::frame(seed, 7, 6, 110);
    const Result plain = solve(problem);
    if (!plain.objective) continue;
    instances::Dice dice(seed);
    const RelaxedResult result = solve_relaxed(problem, some_relief(problem, dice));
    ASSERT_EQ(result.status, Status::optimal) << "seed " << seed;
    EXPECT_EQ(result.relax_cost, 0) << "seed " << seed;
    EXPECT_EQ(result.plan.objective, plain.objective) << "seed " << seed;
  }
}

TEST(RouteRelaxed, CostsThatCannotBeWeighedAreRefused) {
  const Problem problem = instances::frame(1, 5, 3, 10);
  Relief relief;
  relief.lines.resize(3, {1'000'000'000'000'000, {}});
  EXPECT_EQ(solve_relaxed(problem, relief).faults, (std::vector<Fault>{{"costs_too_large", "relax"}}));
}

}  // namespace
}  // namespace cotter::engine::route
