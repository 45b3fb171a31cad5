// A thousand small stacks, half of them full of ties, against plain enumeration: the same sets, in the same order, and
// the same number left out, gone through one by one and counted by sums.

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

/// Sizes in regular steps, so that very many sets have the same number of pieces and the same sum.
Problem tied_problem(Random& random) {
  Problem problem = any_problem(random);
  const std::int64_t first = any(random, 1, 4) * 50, step = any(random, 0, 3) * 50;
  for (std::size_t i = 0; i < problem.kit.size(); ++i) {
    problem.kit[i].thickness = um(first + step * static_cast<std::int64_t>(i));
    problem.kit[i].count = static_cast<int>(any(random, 1, 3));
  }
  problem.slots[0].most_pieces = problem.slots[1].most_pieces = 3;
  if (any(random, 0, 1) == 0) problem.slots[1].allowed.clear();
  problem.forms[0].window = um(0, any(random, 300, 1500));
  if (any(random, 0, 2) == 0) problem.forms[1].target.reset();
  if (any(random, 0, 2) == 0) problem.forms[2].target.reset();
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
  std::vector<int> thin_first;
};

/// Counts from the thinnest kind up, the last of equally thick kinds first, the right slot before the left.
std::vector<int> thin_first(const Problem& problem, const std::vector<int>& counts) {
  const std::size_t kinds = problem.kit.size();
  std::vector<std::size_t> order(kinds);
  for (std::size_t k = 0; k < kinds; ++k) order[k] = kinds - 1 - k;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return problem.kit[a].thickness < problem.kit[b].thickness; });
  std::vector<int> list;
  for (const std::size_t k : order) {
    list.push_back(counts[kinds + k]);
    list.push_back(counts[k]);
  }
  return list;
}

bool before(const Plain& a, const Plain& b) {
  return std::tie(a.outside_wish, a.off_target, a.thin_first) < std::tie(b.outside_wish, b.off_target, b.thin_first);
}

Plain judged(const Problem& problem, const std::vector<int>& counts) {
  Plain set{.counts = counts, .thin_first = thin_first(problem, counts)};
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

void expect_sets(const Result& result, const Problem& problem, const std::vector<Plain>& wanted, std::size_t most) {
  ASSERT_TRUE(result.complete);
  ASSERT_EQ(result.sets.size() + result.sets_left_out, wanted.size());
  // Certain sets come before open ones, each group cut at `most`.
  ASSERT_EQ(result.sets.size(), std::min(most, wanted.size()));
  for (std::size_t i = 0; i < result.sets.size(); ++i) {
    ASSERT_EQ(counts_of(result.sets[i], problem), wanted[i].counts);
    ASSERT_EQ(result.sets[i].status, wanted[i].status);
    ASSERT_EQ(result.sets[i].pieces, wanted[i].pieces);
    ASSERT_EQ(result.sets[i].outlooks.size(), i < k_sets_with_outlook ? problem.forms.size() : 0u);
  }
}

TEST(StackEnumeration, AThousandSmallStacksHaveTheSameSetsInTheSameOrder) {
  Random random(1902);
  int with_sets = 0, with_many = 0, with_very_many = 0;
  for (int round = 0; round < 1'000; ++round) {
    SCOPED_TRACE(round);
    const Problem problem = round % 2 == 0 ? any_problem(random) : tied_problem(random);
    const std::vector<Plain> wanted = enumerated(problem);
    const std::size_t most = round % 5 == 0 ? 1'000 : 1 + static_cast<std::size_t>(any(random, 0, 9));
    ASSERT_NO_FATAL_FAILURE(expect_sets(solve(problem, {.most_sets = most}), problem, wanted, most));
    const Options counted{.most_sets = most, .few_nodes = 0};
    ASSERT_NO_FATAL_FAILURE(expect_sets(solve(problem, counted), problem, wanted, most)) << "counted by sums";
    with_sets += wanted.empty() ? 0 : 1;
    with_many += wanted.size() > most ? 1 : 0;
    with_very_many += wanted.size() > 20 ? 1 : 0;
  }
  EXPECT_GT(with_sets, 500);
  EXPECT_GT(with_many, 100);
  EXPECT_GT(with_very_many, 20);
}

/// Too many sets for plain enumeration: one by one and by sums find the same, with two slots and, not counted, three.
TEST(StackEnumeration, LargerKitsAreCountedAsTheyAreGoneThrough) {
  Random random(1903);
  std::size_t most_found = 0;
  for (int round = 0; round < 40; ++round) {
    SCOPED_TRACE(round);
    Problem problem = any_problem(random);
    problem.kit.clear();
    const std::int64_t first = any(random, 1, 4) * 50, step = any(random, 0, 3) * 50;
    for (int i = 0; i < 10; ++i)
      problem.kit.push_back({"k" + std::to_string(i), um(first + step * i), static_cast<int>(any(random, 1, 3))});
    problem.slots = {{"left", 4, {}}, {"right", 4, {"k0", "k3", "k4", "k7", "k8", "k9"}}};
    if (round % 4 == 0) problem.slots.push_back({"middle", 2, {}});
    problem.terms[0] = plus_minus("gap", any(random, 2000, 7000), 80);
    const Result one_by_one = solve(problem, {.most_sets = 30, .few_nodes = 4'000'000});
    const Result counted = solve(problem, {.most_sets = 30, .few_nodes = 0});
    ASSERT_TRUE(one_by_one.complete && counted.complete);
    ASSERT_EQ(one_by_one.status, counted.status);
    ASSERT_EQ(one_by_one.sets_left_out, counted.sets_left_out);
    ASSERT_EQ(one_by_one.sets.size(), counted.sets.size());
    for (std::size_t i = 0; i < counted.sets.size(); ++i) ASSERT_EQ(one_by_one.sets[i].uses, counted.sets[i].uses);
    most_found = std::max(most_found, counted.sets_left_out);
  }
  EXPECT_GT(most_found, 400u);
}

/// Kilometres in nanometre steps: no grid holds that, and nothing overflows on the way to saying so.
TEST(StackEnumeration, TheLongestLengthsAreNotCounted) {
  const Length twentieth = quantity::nanometres(in_nanometres(k_most_length) / 20);
  Problem problem;
  problem.terms = {exact("gap", 0)};
  problem.kit = {{"one", quantity::nanometres(1), 30}, {"long", twentieth, 30}};
  problem.slots = {{"left", 30, {}}, {"right", 30, {}}};
  problem.forms = {{.id = "length",
                    .coefficients = {{"gap", 1}},
                    .slot_coefficients = {{"left", 1}, {"right", 2}},
                    .window = Interval<Length>(k_most_length, k_no_high)}};
  // All in the right slot, where a piece counts twice: ten of the long ones.
  for (const std::int64_t few : {0, 4'000}) {
    const Result result = solve(problem, {.few_nodes = few});
    ASSERT_FALSE(result.sets.empty());
    EXPECT_EQ(written(result.sets[0].uses, problem), "right:long*10");
    EXPECT_EQ(result.sets_left_out, 0u);
  }
}

/// Any six of ten kinds with one piece each and any gap that takes them: 10 over 6 = 210 sets in one slot, by hand.
TEST(StackEnumeration, AsManySetsAsCombinations) {
  Problem problem;
  problem.terms = {exact("gap", 100'000)};
  for (int i = 0; i < 10; ++i) problem.kit.push_back({"kind_" + std::to_string(i), um(1000 + i), 1});
  problem.slots = {{"left", 6, {}}};
  problem.forms = {
      {.id = "gap", .coefficients = {{"gap", 1}}, .slot_coefficients = {{"left", -1}}, .window = um(0, 94'900)}};
  for (const std::int64_t few : {0, 4'000}) {
    const Result result = solve(problem, {.most_sets = 3, .few_nodes = few});
    ASSERT_EQ(result.sets.size(), 3u);
    EXPECT_EQ(result.sets[0].pieces, 6);
    EXPECT_EQ(result.sets.size() + result.sets_left_out, 210u);
    // No thin ones: the six thickest come first.
    EXPECT_EQ(written(result.sets[0].uses, problem),
              "left:kind_4*1 left:kind_5*1 left:kind_6*1 left:kind_7*1 left:kind_8*1 left:kind_9*1");
  }
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
