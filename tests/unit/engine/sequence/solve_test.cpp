// The order of work on cases small enough to be done by hand.

#include "engine/sequence/solve.hpp"

#include <gtest/gtest.h>

#include "build.hpp"

namespace cotter::engine::sequence {
namespace {

TEST(SequenceSolve, NothingToDo) {
  const Result result = solve(Problem{});
  EXPECT_EQ(result.status, Status::ordered);
  EXPECT_TRUE(result.order.empty());
  EXPECT_EQ(result.least_position_changes, 0);
}

TEST(SequenceSolve, WhoeverClosesComesAfterWhoeverNeeds) {
  Problem problem;
  problem.accesses = {{"shell", true}};
  problem.operations = {{.id = "press_cups", .closes = {"shell"}},
                        {.id = "pull_hose", .after = {"cut_hose"}, .needs_open = {{"shell"}}},
                        {.id = "cut_hose"}};
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::ordered);
  EXPECT_EQ(written(problem, result.order), "cut_hose pull_hose press_cups");
  EXPECT_TRUE(result.precedence_complete);
}

TEST(SequenceSolve, AnOperationMayCloseWhatItNeeds) {
  Problem problem;
  problem.accesses = {{"tube", true}};
  problem.operations = {{.id = "seal", .needs_open = {{"tube"}}, .closes = {"tube"}}};
  EXPECT_EQ(solve(problem).status, Status::ordered);
}

TEST(SequenceSolve, CircleOfThreeWithItsReasons) {
  // The cups close the shell; the hose needs it, but waits for the crank, which waits for the cups.
  Problem problem;
  problem.accesses = {{"shell", true}};
  problem.operations = {{.id = "cups", .closes = {"shell"}},
                        {.id = "crank", .after = {"cups"}},
                        {.id = "hose", .after = {"crank"}, .needs_open = {{"shell"}}},
                        {.id = "tape"}};
  const Result result = solve(problem);
  EXPECT_EQ(result.status, Status::impossible);
  EXPECT_EQ(written(problem, result.circle),
            (Names{"cups before crank", "crank before hose", "hose before cups closes shell"}));
  EXPECT_TRUE(result.order.empty());
}

TEST(SequenceSolve, TheShortestOfTwoCircles) {
  Problem problem;
  problem.operations = {{.id = "a", .after = {"c"}},
                        {.id = "b", .after = {"a"}},
                        {.id = "c", .after = {"b"}},
                        {.id = "d", .after = {"e"}},
                        {.id = "e", .after = {"d"}}};
  EXPECT_EQ(written(problem, solve(problem).circle), (Names{"d before e", "e before d"}));
}

TEST(SequenceSolve, AfterItselfIsACircleOfOne) {
  Problem problem;
  problem.operations = {{.id = "a", .after = {"a"}}};
  EXPECT_EQ(written(problem, solve(problem).circle), (Names{"a before a"}));
}

TEST(SequenceSolve, TwoThatNeedAndCloseTheSame) {
  Problem problem;
  problem.accesses = {{"top", true}};
  problem.operations = {{.id = "post", .needs_open = {{"top"}}, .closes = {"top"}},
                        {.id = "plug", .needs_open = {{"top"}}, .closes = {"top"}}};
  EXPECT_EQ(written(problem, solve(problem).circle),
            (Names{"post before plug closes top", "plug before post closes top"}));
}

TEST(SequenceSolve, ReopenedAccessIsNotACircle) {
  Problem problem;
  problem.accesses = {{"top", true}};
  problem.operations = {{.id = "post", .needs_open = {{"top"}}, .closes = {"top"}},
                        {.id = "plug", .needs_open = {{"top"}}, .closes = {"top"}},
                        {.id = "pull_post", .after = {"post"}, .opens = {"top"}}};
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::ordered);
  EXPECT_EQ(written(problem, result.order), "post pull_post plug");
  EXPECT_FALSE(result.precedence_complete);
}

TEST(SequenceSolve, ClosedAtStartWaitsForItsOpener) {
  Problem problem;
  problem.accesses = {{"door", false}};
  problem.operations = {{.id = "battery", .needs_open = {{"door"}}},
                        {.id = "shut_door", .after = {"open_door"}, .closes = {"door"}},
                        {.id = "open_door", .opens = {"door"}}};
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::ordered);
  EXPECT_EQ(written(problem, result.order), "open_door battery shut_door");
  EXPECT_TRUE(result.precedence_complete);
}

TEST(SequenceSolve, NothingEverOpensIt) {
  Problem problem;
  problem.accesses = {{"door", false}, {"hatch", false}};
  problem.operations = {{.id = "battery", .needs_open = {{"door", "hatch"}}}};
  const Result result = solve(problem);
  EXPECT_EQ(result.status, Status::impossible);
  EXPECT_EQ(written(problem, result.conflict), (Names{"battery needs door|hatch"}));
  EXPECT_TRUE(result.conflict_is_least);
}

TEST(SequenceSolve, OneOfTwoAccessesIsEnough) {
  Problem problem;
  problem.accesses = {{"left", true}, {"right", true}};
  problem.operations = {{.id = "close_left", .closes = {"left"}},
                        {.id = "wire", .after = {"close_left"}, .needs_open = {{"left", "right"}}},
                        {.id = "close_right", .closes = {"right"}}};
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::ordered);
  EXPECT_TRUE(violations(problem, result.order).empty());
  problem.operations[1].after.push_back("close_right");
  const Result none = solve(problem);
  EXPECT_EQ(none.status, Status::impossible);
  EXPECT_EQ(written(problem, none.conflict),
            (Names{"close_left before wire", "close_right before wire", "wire needs left|right"}));
  EXPECT_TRUE(none.conflict_is_least);
}

TEST(SequenceSolve, IrreversibleWaitsForEverythingThatDoesNotNeedIt) {
  Problem problem;
  problem.operations = {{.id = "saw", .reversible = Reversible::no},
                        {.id = "after_saw", .after = {"saw"}},
                        {.id = "measure", .checks = true},
                        {.id = "fit"}};
  EXPECT_EQ(written(problem, solve(problem).order), "measure fit saw after_saw");
}

TEST(SequenceSolve, StaysAtOnePositionWithOneToolAsLongAsItCan) {
  Problem problem;
  problem.operations = {
      {.id = "a", .position = "stand", .side = "left", .tools = {"key_5"}, .hundredths_of_minute = 150},
      {.id = "b", .position = "floor", .hundredths_of_minute = 50},
      {.id = "c", .position = "stand", .side = "left", .tools = {"key_4"}},
      {.id = "d", .position = "stand", .side = "left", .tools = {"key_5"}},
      {.id = "e", .position = "stand", .side = "right", .tools = {"key_5"}}};
  const Result result = solve(problem);
  EXPECT_EQ(written(problem, result.order), "a d c e b");
  EXPECT_EQ(result.position_changes, 1);
  EXPECT_EQ(result.least_position_changes, 1);
  EXPECT_EQ(result.side_changes, 1);
  EXPECT_EQ(result.tool_changes, 2);
  EXPECT_EQ(result.hundredths_of_minute, 200);
}

TEST(SequenceSolve, DecideByTheFirstOperationThatUsesTheChoice) {
  Problem problem;
  problem.operations = {{.id = "saddle", .after = {"post"}}, {.id = "post", .after = {"clamp"}}, {.id = "clamp"}};
  problem.choices = {{"which_saddle", {"saddle", "post"}}, {"unused", {}}};
  const Result result = solve(problem);
  ASSERT_EQ(result.decide_by.size(), 1u);
  EXPECT_EQ(result.decide_by[0].choice, 0u);
  EXPECT_EQ(problem.operations[result.decide_by[0].operation].id, "post");
  EXPECT_EQ(result.decide_by[0].place, 1u);
}

TEST(SequenceSolve, EveryFaultIsNamed) {
  Problem problem;
  problem.accesses = {{"top", true}, {"top", true}};
  problem.operations = {{.id = "a",
                         .after = {"ghost"},
                         .needs_open = {{}, {"cellar"}},
                         .closes = {"roof"},
                         .opens = {"wall"},
                         .hundredths_of_minute = -1},
                        {.id = "a"}};
  problem.choices = {{"c", {"nobody"}}};
  const Result result = solve(problem);
  EXPECT_EQ(result.status, Status::bad);
  using Kind = Fault::Kind;
  const std::vector<Fault> expected = {{Kind::double_id, "a", "a"},
                                       {Kind::double_id, "top", "top"},
                                       {Kind::unknown_operation, "a", "ghost"},
                                       {Kind::empty_group, "a", "a"},
                                       {Kind::unknown_access, "a", "cellar"},
                                       {Kind::unknown_access, "a", "wall"},
                                       {Kind::unknown_access, "a", "roof"},
                                       {Kind::negative_minutes, "a", "a"},
                                       {Kind::unknown_operation, "c", "nobody"}};
  EXPECT_EQ(result.faults, expected);
}

TEST(SequenceSolve, NodeLimitIsSaid) {
  Problem problem;
  problem.operations = {{.id = "a"}, {.id = "b"}, {.id = "c"}};
  EXPECT_EQ(solve(problem, {.node_limit = 2}).status, Status::unfinished);
  EXPECT_EQ(solve(problem, {.node_limit = 3}).status, Status::ordered);
}

TEST(SequenceSolve, DeadEndIsLeftAgain) {
  // By rank `early_close` comes first; then the alternative is closed when `wire` is due.
  Problem problem;
  problem.accesses = {{"left", true}, {"right", true}};
  problem.operations = {{.id = "early_close", .closes = {"left"}},
                        {.id = "close_right", .closes = {"right"}},
                        {.id = "wire", .after = {"close_right"}, .needs_open = {{"left", "right"}}}};
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::ordered);
  EXPECT_EQ(written(problem, result.order), "close_right wire early_close");
}

}  // namespace
}  // namespace cotter::engine::sequence
