// A thousand small stacks against plain enumeration: the same sets, in the same order, and the same number left out.

#include <algorithm>
#include <cstdlib>
#include <gtest/gtest.h>
#include <random>
#include <tuple>

#include "build.hpp"

namespace cotter::engine::stack {
namespace {

using Random = std::mt19937_64;

std::int64_t any(Random& random, std::int64_t low, std::int64_t high) {
  return low + static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(high - low + 1));
}

/// Two or three pieces with few of each, two slots, a gap over both, a halved line over one, a length that only ranks.
Problem any_problem(Random& random) {
  Problem problem;
  problem.terms = {plus_minus("gap", any(random, 0, 3000), any(random, 0, 80)),
                   plus_minus("line", any(random, -800, 800), any(random, 0, 80))};
  for (const char* id : {"thin", "middle", "thick"})
    problem.kit.push_back({id, um(any(random, 1, 16) * 50), static_cast<int>(any(random, 0, 3))});
  problem.slots = {{"left", static_cast<int>(any(random, 0, 3)), {}},
                   {"right", static_cast<int>(any(random, 0, 3)), {"middle", "thin"}}};
  const std::int64_t from = any(random, -100, 500);
  problem.forms = {
      {.id = "gap",
       .coefficients = {{"gap", 1}},
       .slot_coefficients = {{"left", -1}, {"right", -1}},
       .window = um(from, from + any(random, 100, 1200))},
      {.id = "line",
       .coefficients = {{"line", 1}},
       .slot_coefficients = {{"left", -1}, {"right", 1}},
       .half = true,
       .window = um(-900, 900),
       .wish = um(-200, 200),
       .target = um(any(random, -300, 300))},
      {.id = "reported", .coefficients = {{"line", 2}}, .slot_coefficients = {{"right", 3}}, .target = um(500)}};
  return problem;
}

/// Undivided worst case and nominal of a form with `lengths` in the slots.
struct Sum {
  std::int64_t low = 0, high = 0, nominal = 0;
};

Sum sum_of(const Problem& problem, const Form& form, const std::vector<std::int64_t>& lengths) {
  Sum sum;
  for (const Term& term : problem.terms) {
    const auto found = form.coefficients.find(term.id);
    if (found == form.coefficients.end()) continue;
    sum.low += found->second * in_nanometres(term.interval.low());  // factors of terms are positive here
    sum.high += found->second * in_nanometres(term.interval.high());
    sum.nominal += found->second * in_nanometres(term.nominal);
  }
  for (std::size_t s = 0; s < problem.slots.size(); ++s) {
    const auto found = form.slot_coefficients.find(problem.slots[s].id);
    const std::int64_t added = found == form.slot_coefficients.end() ? 0 : found->second * lengths[s];
    sum.low += added;
    sum.high += added;
    sum.nominal += added;
  }
  return sum;
}

/// A set as plain enumeration ranks it.
struct Plain {
  int pieces = 0;
  Certainty status = Certainty::holds;
  int outside_wish = 0;
  std::int64_t off_target = 0;  // half nanometres
  std::vector<int> counts;      // slot by slot, piece by piece
};

bool before(const Plain& a, const Plain& b) {
  return std::tuple(a.outside_wish, a.off_target, b.counts) < std::tuple(b.outside_wish, b.off_target, a.counts);
}

Plain judged(const Problem& problem, const std::vector<int>& counts) {
  Plain set{.counts = counts};
  const std::size_t kinds = problem.kit.size();
  std::vector<std::int64_t> lengths(problem.slots.size(), 0);
  for (std::size_t i = 0; i < counts.size(); ++i) {
    set.pieces += counts[i];
    lengths[i / kinds] += counts[i] * in_nanometres(problem.kit[i % kinds].thickness);
  }
  for (const Form& form : problem.forms) {
    const Sum sum = sum_of(problem, form, lengths);
    const std::int64_t times = form.half ? 2 : 1;
    const Interval<Length> range{quantity::nanometres(sum.low), quantity::nanometres(sum.high)};
    const auto scaled = [&](const Interval<Length>& one) {
      return Interval<Length>(one.low() * times, one.high() * times);
    };
    if (form.window) set.status = both(set.status, within(range, scaled(*form.window)));
    if (form.wish && within(range, scaled(*form.wish)) != Certainty::holds) ++set.outside_wish;
    if (form.target) set.off_target += std::abs(sum.nominal - in_nanometres(*form.target) * times) * (2 / times);
  }
  return set;
}

bool legal(const Problem& problem, const std::vector<int>& counts) {
  const std::size_t kinds = problem.kit.size();
  std::vector<int> in_slot(problem.slots.size(), 0), of_kind(kinds, 0);
  for (std::size_t i = 0; i < counts.size(); ++i) {
    in_slot[i / kinds] += counts[i];
    of_kind[i % kinds] += counts[i];
    const auto& allowed = problem.slots[i / kinds].allowed;
    const bool may =
        allowed.empty() || std::find(allowed.begin(), allowed.end(), problem.kit[i % kinds].id) != allowed.end();
    if (counts[i] > 0 && !may) return false;
  }
  for (std::size_t s = 0; s < in_slot.size(); ++s)
    if (in_slot[s] > problem.slots[s].most_pieces) return false;
  for (std::size_t k = 0; k < kinds; ++k)
    if (of_kind[k] > problem.kit[k].count) return false;
  return true;
}

/// The smallest sets of one certainty, best first.
std::vector<Plain> smallest(const std::vector<Plain>& all, Certainty status) {
  std::vector<Plain> list;
  for (const Plain& set : all) {
    if (set.status != status) continue;
    if (!list.empty() && set.pieces < list.front().pieces) list.clear();
    if (list.empty() || set.pieces == list.front().pieces) list.push_back(set);
  }
  std::sort(list.begin(), list.end(), before);
  return list;
}

/// Certain sets, then the open ones when they need no more pieces.
std::vector<Plain> enumerated(const Problem& problem) {
  std::vector<Plain> all;
  std::vector<int> counts(problem.slots.size() * problem.kit.size(), 0);
  for (std::size_t digit = 0; digit < counts.size();) {
    if (legal(problem, counts)) all.push_back(judged(problem, counts));
    for (digit = 0; digit < counts.size() && ++counts[digit] > 3; ++digit) counts[digit] = 0;
  }
  std::vector<Plain> list = smallest(all, Certainty::holds);
  const std::vector<Plain> open = smallest(all, Certainty::open);
  if (list.empty() || (!open.empty() && open.front().pieces <= list.front().pieces))
    list.insert(list.end(), open.begin(), open.end());
  return list;
}

std::vector<int> counts_of(const SpacerSet& set, const Problem& problem) {
  std::vector<int> counts(problem.slots.size() * problem.kit.size(), 0);
  for (const Use& use : set.uses) counts[use.slot * problem.kit.size() + use.piece] = use.count;
  return counts;
}

TEST(StackEnumeration, AThousandSmallStacksHaveTheSameSetsInTheSameOrder) {
  Random random(1902);
  int with_sets = 0, with_many = 0;
  for (int round = 0; round < 1'000; ++round) {
    SCOPED_TRACE(round);
    const Problem problem = any_problem(random);
    const std::vector<Plain> wanted = enumerated(problem);
    const std::size_t most = 1 + static_cast<std::size_t>(any(random, 0, 4));
    const Result result = solve(problem, {.most_sets = most});
    ASSERT_TRUE(result.complete);
    ASSERT_EQ(result.sets.size() + result.sets_left_out, wanted.size());
    // Certain sets come before open ones, each group cut at `most`.
    ASSERT_EQ(result.sets.size(), std::min(most, wanted.size()));
    for (std::size_t i = 0; i < result.sets.size(); ++i) {
      ASSERT_EQ(counts_of(result.sets[i], problem), wanted[i].counts);
      ASSERT_EQ(result.sets[i].status, wanted[i].status);
      ASSERT_EQ(result.sets[i].pieces, wanted[i].pieces);
      ASSERT_EQ(result.sets[i].outlooks.size(), problem.forms.size());
    }
    with_sets += wanted.empty() ? 0 : 1;
    with_many += wanted.size() > most ? 1 : 0;
  }
  EXPECT_GT(with_sets, 500);
  EXPECT_GT(with_many, 100);
}

/// Gap 1.0 ±0.1 less one ring of 0.5: 0.4 to 0.6, in 0.45 to 1 with chance (0.6 - 0.45) / 0.2 = 0.75, by hand.
TEST(StackEnumeration, TheBestSetsComeWithWorstCaseAndProbability) {
  Problem problem;
  problem.terms = {plus_minus("gap", 1000, 100)};
  problem.kit = {{"half", um(500), 1}};
  problem.slots = {{"left", 1, {}}};
  problem.forms = {
      {.id = "gap", .coefficients = {{"gap", 1}}, .slot_coefficients = {{"left", -1}}, .window = um(450, 800)}};
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::open);
  ASSERT_EQ(result.sets.size(), 1u);
  ASSERT_EQ(result.sets[0].outlooks.size(), 1u);
  EXPECT_EQ(result.sets[0].outlooks[0].worst_case.range, um(400, 600));
  EXPECT_NEAR(result.sets[0].outlooks[0].probability->inside, 0.75, 1e-12);
}

}  // namespace
}  // namespace cotter::engine::stack
