// Properties over random stacks, and agreement with a naive enumeration.

#include <gtest/gtest.h>
// rapidcheck needs gtest above it.
#include <rapidcheck/gtest.h>
#include <set>

#include "build.hpp"

namespace cotter::engine::stack {
namespace {

/// Evenly from low to high - 1, whatever the size rapidcheck is at.
std::int64_t any(std::int64_t low, std::int64_t high) {
  return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange<std::int64_t>(low, high));
}
int any_int(int low, int high) {
  return static_cast<int>(any(low, high));
}

/// A window that mostly lets a value of `centre` ±`deviation` in, in micrometres.
Interval<Length> window_around(std::int64_t centre, std::int64_t deviation) {
  const std::int64_t room = any(-60, 200);
  const std::int64_t off = any(-80, 80);
  const std::int64_t half = std::max<std::int64_t>(0, deviation + room);
  return um(centre + off - half, centre + off + half);
}

/// Two slots, left and right; a total gap and a midplane measure, with windows about a planted set.
Problem any_problem() {
  Problem problem;
  const std::int64_t gap = any(-200, 2000), gap_deviation = any(0, 120);
  const std::int64_t line = any(-500, 500), line_deviation = any(0, 60);
  problem.terms = {plus_minus("gap", gap, gap_deviation), plus_minus("line", line, line_deviation)};
  std::int64_t left = 0, right = 0;
  int in_left = 0, in_right = 0;
  const int kinds = any_int(1, 4);
  for (int i = 0; i < kinds; ++i) {
    const std::int64_t thickness = any(1, 9) * 100;
    const int use_left = any_int(0, 2), use_right = any_int(0, 2);
    const int count = std::max(0, use_left + use_right + any_int(-1, 3));
    problem.kit.push_back({"p" + std::to_string(i), um(thickness), std::min(count, 3)});
    left += thickness * use_left;
    right += thickness * use_right;
    in_left += use_left;
    in_right += use_right;
  }
  problem.slots = {{"left", std::max(0, in_left + any_int(-1, 2)), {}},
                   {"right", std::max(0, in_right + any_int(-1, 2)), {}}};
  problem.forms = {{.id = "play",
                    .coefficients = {{"gap", 1}},
                    .slot_coefficients = {{"left", -1}, {"right", -1}},
                    .window = window_around(gap - left - right, gap_deviation)},
                   {.id = "middle",
                    .coefficients = {{"line", 1}},
                    .slot_coefficients = {{"left", -1}, {"right", 1}},
                    .half = true,
                    .window = window_around((line - left + right) / 2, line_deviation),
                    .target = um(0)}};
  return problem;
}

Certainty status_with(const Problem& problem, const std::vector<int>& counts) {
  Certainty status = Certainty::holds;
  for (const Form& form : problem.forms) {
    Interval<Length> sum;
    for (const Term& term : problem.terms) {
      const auto factor = form.coefficients.find(term.id);
      if (factor != form.coefficients.end()) sum = sum + term.interval;  // every factor here is 1
    }
    std::size_t i = 0;
    for (const Slot& slot : problem.slots) {
      for (const Piece& piece : problem.kit) {
        sum = sum + Interval<Length>(piece.thickness * (counts[i++] * form.slot_coefficients.at(slot.id)));
      }
    }
    const int times = form.half ? 2 : 1;
    status = both(status, within(sum, {form.window->low() * times, form.window->high() * times}));
  }
  return status;
}

/// By trying everything: number of pieces -> sets, for one certainty.
std::map<int, std::set<std::vector<int>>> every_set(const Problem& problem, Certainty wanted) {
  std::map<int, std::set<std::vector<int>>> sets;
  std::vector<int> counts(problem.slots.size() * problem.kit.size(), 0);
  const std::size_t kinds = problem.kit.size();
  while (true) {
    bool legal = true;
    int pieces = 0;
    for (std::size_t s = 0; s < problem.slots.size(); ++s) {
      int in_slot = 0;
      for (std::size_t k = 0; k < kinds; ++k) in_slot += counts[s * kinds + k];
      pieces += in_slot;
      legal = legal && in_slot <= problem.slots[s].most_pieces;
    }
    for (std::size_t k = 0; k < kinds; ++k) legal = legal && counts[k] + counts[kinds + k] <= problem.kit[k].count;
    if (legal && status_with(problem, counts) == wanted) sets[pieces].insert(counts);
    std::size_t digit = 0;
    while (digit < counts.size() && ++counts[digit] > 3) counts[digit++] = 0;
    if (digit == counts.size()) return sets;
  }
}

std::vector<int> counts_of(const std::vector<Use>& uses, const Problem& problem) {
  std::vector<int> counts(problem.slots.size() * problem.kit.size(), 0);
  for (const Use& use : uses) counts[use.slot * problem.kit.size() + use.piece] = use.count;
  return counts;
}

std::set<std::vector<int>> found_sets(const Result& result, const Problem& problem, Certainty wanted) {
  std::set<std::vector<int>> sets;
  for (const SpacerSet& set : result.sets) {
    if (set.status == wanted) sets.insert(counts_of(set.uses, problem));
  }
  return sets;
}

RC_GTEST_PROP(StackProperty, AgreesWithTryingEverything, ()) {
  const Problem problem = any_problem();
  const Result result = solve(problem, {.most_sets = 100'000});
  const auto certain = every_set(problem, Certainty::holds);
  const auto open = every_set(problem, Certainty::open);
  const std::set<std::vector<int>> none;
  RC_ASSERT(found_sets(result, problem, Certainty::holds) == (certain.empty() ? none : certain.begin()->second));
  const bool open_shown = !open.empty() && (certain.empty() || open.begin()->first <= certain.begin()->first);
  RC_ASSERT(found_sets(result, problem, Certainty::open) == (open_shown ? open.begin()->second : none));
  RC_ASSERT((result.status == Status::no_set) == (certain.empty() && open.empty()));
  RC_ASSERT((result.status == Status::fits_without) == (!certain.empty() && certain.begin()->first == 0));
}

RC_GTEST_PROP(StackProperty, AWiderWindowLosesNoSet, ()) {
  const Problem problem = any_problem();
  Problem wider = problem;
  for (Form& form : wider.forms) {
    form.window = Interval<Length>(form.window->low() - um(any(0, 100)), form.window->high() + um(any(0, 100)));
  }
  const Result before = solve(problem), after = solve(wider);
  for (const SpacerSet& set : before.sets) {
    const Certainty status = status_with(wider, counts_of(set.uses, problem));
    const bool kept = set.status == Certainty::holds ? status == Certainty::holds : status != Certainty::fails;
    RC_ASSERT(kept);
  }
  if (!before.sets.empty() && before.sets[0].status == Certainty::holds) {
    RC_ASSERT(after.sets.at(0).status == Certainty::holds);
    RC_ASSERT(after.sets[0].pieces <= before.sets[0].pieces);
  }
}

RC_GTEST_PROP(StackProperty, MorePiecesInTheKitNeverNeedMorePieces, ()) {
  const Problem problem = any_problem();
  Problem richer = problem;
  richer.kit[0].count += any_int(0, 3);
  richer.kit.push_back({"extra", um(any(1, 8) * 100), 2});
  const Result before = solve(problem), after = solve(richer);
  const bool fits = !before.sets.empty() && before.sets[0].status == Certainty::holds;
  RC_PRE(fits);
  RC_ASSERT(after.sets.at(0).status == Certainty::holds);
  RC_ASSERT(after.sets[0].pieces <= before.sets[0].pieces);
}

RC_GTEST_PROP(StackProperty, MirrorSwapsLeftAndRight, ()) {
  const Problem problem = any_problem();
  Problem mirror = problem;
  std::swap(mirror.slots[0].most_pieces, mirror.slots[1].most_pieces);
  mirror.terms[1].interval = -problem.terms[1].interval;
  mirror.terms[1].nominal = -problem.terms[1].nominal;
  mirror.forms[1].window = -*problem.forms[1].window;
  const Result straight = solve(problem, {.most_sets = 100'000}), mirrored = solve(mirror, {.most_sets = 100'000});
  RC_ASSERT(straight.status == mirrored.status);
  std::set<std::vector<int>> turned;
  const std::size_t kinds = problem.kit.size();
  for (std::vector<int> counts : found_sets(straight, problem, Certainty::holds)) {
    std::rotate(counts.begin(), counts.begin() + static_cast<std::ptrdiff_t>(kinds), counts.end());
    turned.insert(counts);
  }
  RC_ASSERT(turned == found_sets(mirrored, mirror, Certainty::holds));
}

RC_GTEST_PROP(StackProperty, NearestMissIsTheLeastOfTheGreatestMisses, ()) {
  const Problem problem = any_problem();
  const Result result = solve(problem);
  RC_PRE(result.status == Status::no_set);
  // Widening every window by the miss makes a set possible; by one nanometre less it does not.
  const Length off = result.nearest_miss->off < Length{} ? -result.nearest_miss->off : result.nearest_miss->off;
  const auto widened = [&](Length by) {
    Problem wider = problem;
    for (Form& form : wider.forms) form.window = Interval<Length>(form.window->low() - by, form.window->high() + by);
    return solve(wider).status;
  };
  RC_ASSERT(widened(off) != Status::no_set);
  RC_ASSERT(widened(off - quantity::nanometres(1)) == Status::no_set);
}

}  // namespace
}  // namespace cotter::engine::stack
