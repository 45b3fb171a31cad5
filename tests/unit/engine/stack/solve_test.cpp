// Corners of the stack solver: certainty, halves, influence, ranking, faults, limits.

#include "engine/stack/solve.hpp"

#include <gtest/gtest.h>

#include "build.hpp"

namespace cotter::engine::stack {
namespace {

Problem one_gap(Term term, Interval<Length> window, std::vector<Piece> kit = {}, int most_pieces = 8) {
  Problem problem;
  problem.terms = {std::move(term)};
  problem.kit = std::move(kit);
  problem.slots = {{"slot", most_pieces, {}}};
  problem.forms = {
      {.id = "gap", .coefficients = {{problem.terms[0].id, 1}}, .slot_coefficients = {{"slot", -1}}, .window = window}};
  return problem;
}

TEST(StackSolve, NothingToDecideFits) {
  EXPECT_EQ(solve(Problem{}).status, Status::fits_without);
}

TEST(StackSolve, GapEqualToItsLimitHolds) {
  const Result result = solve(one_gap(exact("gap", 500), um(500, 1000)));
  EXPECT_EQ(result.status, Status::fits_without);
  EXPECT_EQ(result.forms[0].without.margin->room, um(0));
  EXPECT_EQ(result.forms[0].without.probability->inside, 1.0);
}

TEST(StackSolve, OpenSetWithFewerPiecesFollowsTheCertainOne) {
  // 0.40 ±0.15 in 0 to 0.3: open as it is; 0.2 less is 0.05 to 0.35, still open; 0.25 less is 0 to 0.3, certain.
  const Problem problem = one_gap(plus_minus("gap", 400, 150), um(0, 300), {{"a", um(200), 1}, {"b", um(250), 1}});
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::fits_with_spacers);
  ASSERT_EQ(result.sets.size(), 2u);
  EXPECT_EQ(written(result.sets[0].uses, problem), "slot:b*1");
  EXPECT_EQ(result.sets[0].status, Certainty::holds);
  EXPECT_EQ(written(result.sets[1].uses, problem), "");
  EXPECT_EQ(result.sets[1].status, Certainty::open);
  EXPECT_EQ(result.sets[1].open_forms, (std::vector<std::size_t>{0}));
}

TEST(StackSolve, WiderThanItsWindowIsNeverCertain) {
  const Result result = solve(one_gap(plus_minus("gap", 150, 200), um(0, 300), {{"a", um(10), 8}}));
  EXPECT_EQ(result.status, Status::open);
  EXPECT_EQ(result.sets[0].pieces, 0);
  // Evenly spread over 0.40, of which the window covers 0.30.
  EXPECT_NEAR(result.forms[0].without.probability->inside, 0.75, 1e-5);
}

TEST(StackSolve, MeasuringTheOnlyWideTermAlwaysSettles) {
  const Result result = solve(one_gap(plus_minus("gap", 150, 200), um(0, 300)));
  ASSERT_EQ(result.measure_first.size(), 1u);
  EXPECT_EQ(result.measure_first[0].settles, (std::vector<std::size_t>{0}));
  EXPECT_EQ(result.measure_first[0].settled_share, 1.0);
  EXPECT_EQ(result.measure_first[0].share, 1.0);
}

TEST(StackSolve, TheTermThatSettlesComesFirstEvenWhenItComesLast) {
  // small: ±0.01, wide: ±0.50, window 0 to 1 around 0.6: with wide known, only 0.02 at each end stays open.
  Problem problem = one_gap(plus_minus("small", 0, 10), um(0, 1000));
  problem.terms.push_back(plus_minus("wide", 600, 500));
  problem.forms[0].coefficients["wide"] = 1;
  const Result result = solve(problem);
  ASSERT_EQ(result.measure_first.size(), 2u);
  EXPECT_EQ(problem.terms[result.measure_first[0].term].id, "wide");
  // By hand: of the range 0.1 to 1.1 the stretch 0.99 to 1.01 stays open.
  EXPECT_NEAR(result.measure_first[0].settled_share, 0.98, 1e-5);
  EXPECT_EQ(result.measure_first[0].may_settle, (std::vector<std::size_t>{0}));
  EXPECT_EQ(result.measure_first[1].settled_share, 0.0);
  const std::vector<Influence>& influences = result.forms[0].without.influences;
  EXPECT_EQ(influences[1].settles, Settles::never);
  EXPECT_NEAR(influences[0].share, 1000.0 / 1020.0, 1e-12);
}

TEST(StackSolve, UnknownTermHasNoProbabilityAndNoRootSumSquare) {
  Problem problem = one_gap(plus_minus("gap", 150, 200), um(0, 300));
  problem.terms[0].known = false;
  problem.terms[0].attested = false;
  const FormResult form = solve(problem).forms[0];
  EXPECT_FALSE(form.without.probability);
  EXPECT_FALSE(form.without.root_sum_square);
  EXPECT_EQ(form.without.status, Certainty::open);
  EXPECT_EQ(form.unattested, (std::vector<std::size_t>{0}));
}

TEST(StackSolve, HalvesAreDecidedBeforeRounding) {
  Problem problem;
  problem.terms = {{"width", Interval<Length>(quantity::nanometres(3)), quantity::nanometres(3)}};
  problem.forms = {{.id = "middle",
                    .coefficients = {{"width", 1}},
                    .half = true,
                    .window = Interval<Length>(quantity::nanometres(1), quantity::nanometres(2))}};
  const FormState inside = solve(problem).forms[0].without;
  EXPECT_EQ(inside.status, Certainty::holds);
  EXPECT_EQ(inside.worst_case.range, Interval<Length>(quantity::nanometres(1), quantity::nanometres(2)));
  EXPECT_EQ(inside.margin->room, Length{});

  problem.forms[0].window = Interval<Length>(quantity::nanometres(2));
  const FormState below = solve(problem).forms[0].without;
  EXPECT_EQ(below.status, Certainty::fails);
  EXPECT_EQ(below.margin->room, quantity::nanometres(-1));
}

TEST(StackSolve, SlotsShareTheKitAndKeepToWhatTheyMayTake) {
  Problem problem = one_gap(exact("gap", 1000), Interval<Length>(um(0)), {{"a", um(500), 1}, {"b", um(250), 4}});
  problem.slots = {{"one", 1, {"a"}}, {"two", 1, {}}};
  problem.forms[0].slot_coefficients = {{"one", -1}, {"two", -1}};
  const Result none = solve(problem);
  ASSERT_EQ(none.status, Status::no_set);
  EXPECT_EQ(none.nearest_miss->off, um(250));  // one a and one b leave 0.25
  EXPECT_EQ(written(none.nearest_miss->uses, problem), "one:a*1 two:b*1");
  problem.kit[0].count = 2;
  EXPECT_EQ(written(solve(problem).sets.at(0).uses, problem), "one:a*1 two:a*1");
}

TEST(StackSolve, RanksByTargetThenByOrderInTheProblem) {
  Problem problem = one_gap(exact("gap", 1000), um(0, 900), {{"c", um(200), 1}, {"a", um(500), 1}, {"b", um(500), 1}});
  problem.forms[0].target = um(500);
  const Result result = solve(problem);
  ASSERT_EQ(result.sets.size(), 3u);
  EXPECT_EQ(written(result.sets[0].uses, problem), "slot:a*1");
  EXPECT_EQ(written(result.sets[1].uses, problem), "slot:b*1");
  EXPECT_EQ(written(result.sets[2].uses, problem), "slot:c*1");
}

TEST(StackSolve, WishComesBeforeTarget) {
  Problem problem = one_gap(exact("gap", 1000), um(0, 900), {{"a", um(500), 1}, {"b", um(200), 1}});
  problem.forms[0].target = um(500);
  problem.forms[0].wish = um(700, 900);
  EXPECT_EQ(written(solve(problem).sets[0].uses, problem), "slot:b*1");
}

TEST(StackSolve, KeepsTheBestSetsAndCountsTheRest) {
  Problem problem = one_gap(exact("gap", 1000), um(0, 999));
  for (int i = 0; i < 40; ++i) problem.kit.push_back({"p" + std::to_string(i), um(900 - i), 1});
  problem.forms[0].target = um(100);
  const Result result = solve(problem, {.most_sets = 3});
  EXPECT_EQ(result.sets.size(), 3u);
  EXPECT_EQ(result.sets_left_out, 37u);
  EXPECT_EQ(written(result.sets[1].uses, problem), "slot:p1*1");
}

TEST(StackSolve, NodeLimitIsSaid) {
  Problem problem = one_gap(exact("gap", 10000), Interval<Length>(um(100)), {{"a", um(700), 9}, {"b", um(300), 9}}, 18);
  const Result result = solve(problem, {.node_limit = 5});
  EXPECT_EQ(result.status, Status::unfinished);
  EXPECT_FALSE(result.complete);
  EXPECT_TRUE(result.sets.empty());
  EXPECT_EQ(solve(problem).status, Status::no_set);
}

TEST(StackSolve, WindowBetweenAllSumsIsRefusedBeforeTheSearch) {
  // Every sum is a whole number of 0.05 mm; the window wants 0.333 to 0.334.
  Problem problem = one_gap(exact("gap", 20000), um(333, 334), {{"a", um(250), 40}, {"b", um(200), 40}}, 60);
  const Result result = solve(problem, {.node_limit = 1000});
  EXPECT_EQ(result.status, Status::no_set);
  problem.forms[0].window = um(350, 350);
  problem.terms[0] = exact("gap", 1000);
  EXPECT_EQ(solve(problem).status, Status::fits_with_spacers);
}

TEST(StackSolve, EveryFaultIsNamed) {
  Problem problem = one_gap(exact("gap", 1), um(0, 1), {{"a", um(0), 1}, {"a", um(1), -1}});
  problem.slots[0].allowed = {"z"};
  problem.slots[0].most_pieces = 65;
  problem.forms[0].coefficients["nobody"] = 1;
  problem.forms[0].coefficients["gap"] = 9;
  problem.forms[0].slot_coefficients["nowhere"] = 1;
  const Result result = solve(problem);
  EXPECT_EQ(result.status, Status::bad);
  using Kind = Fault::Kind;
  const std::vector<Fault> expected = {{Kind::double_id, "a", "a"},
                                       {Kind::out_of_bounds, "a", "thickness"},
                                       {Kind::out_of_bounds, "a", "count"},
                                       {Kind::out_of_bounds, "slot", "most_pieces"},
                                       {Kind::out_of_bounds, "gap", "gap"},
                                       {Kind::unknown_term, "gap", "nobody"},
                                       {Kind::unknown_slot, "gap", "nowhere"},
                                       {Kind::unknown_piece, "slot", "z"}};
  EXPECT_EQ(result.faults, expected);
  EXPECT_TRUE(result.forms.empty());
}

TEST(StackSolve, WindowWithoutAnUpperEnd) {
  const Result result = solve(one_gap(exact("gap", 5000), at_least(3000)));
  EXPECT_EQ(result.status, Status::fits_without);
  EXPECT_EQ(result.forms[0].without.margin->room, um(2000));
  EXPECT_EQ(result.forms[0].without.margin->edge, Edge::low);
}

}  // namespace
}  // namespace cotter::engine::stack
