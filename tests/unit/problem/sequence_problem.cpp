#include "problem/sequence_problem.hpp"

#include <gtest/gtest.h>

#include "document/parse.hpp"

namespace cotter::problem {
namespace {

using document::Node;

document::Read<Node> solve_text(const std::string& text) {
  const auto node = document::parse(text, "problem.json", document::Format::json);
  if (!node) return tl::unexpected(node.error());
  return solve_sequence(*node, "problem.json");
}

std::string solved_file(const std::string& name) {
  const auto node = document::parse_file(COTTER_SOURCE_DIR "/tests/oracle/problems/" + name + ".json");
  EXPECT_TRUE(node) << name;
  const auto solved = solve_sequence(*node, name);
  EXPECT_TRUE(solved) << (solved ? "" : document::one_line(solved.error().list().front()));
  return solved ? document::write_json_line(*solved) : "";
}

TEST(SequenceProblem, CircleWithItsReasons) {
  EXPECT_EQ(solved_file("sequence_shell_circle"),
            R"({"engine":"sequence","status":"impossible","circle":[)"
            R"({"why":"after","earlier":"press_cups","later":"fit_crank"},)"
            R"({"why":"after","earlier":"fit_crank","later":"pull_hose"},)"
            R"({"why":"needs_before_close","earlier":"pull_hose","later":"press_cups","accesses":["shell"]}],)"
            R"("conflict":[],"conflict_is_least":false,"precedence_complete":true,"nodes":0})");
}

// By hand: the check first, as it only looks; then what the stand allows, by tool and by place in the list, the costly
// press fit after the rest; the saw only when nothing else is left.
TEST(SequenceProblem, OrderWithEverything) {
  EXPECT_EQ(solved_file("sequence_shell_first"),
            R"({"engine":"sequence","status":"ordered","order":["check_height","pull_hose","open_door",)"
            R"("seat_battery","press_cups","fit_crank","cut_post","fit_post"],"position_changes":3,)"
            R"("least_position_changes":2,"side_changes":0,"tool_changes":6,"hundredths_of_minute":6000,)"
            R"("decide_by":[{"choice":"which_saddle","before":"check_height","step":1}],)"
            R"("precedence_complete":false,"nodes":8})");
}

TEST(SequenceProblem, NothingOpensIt) {
  const auto solved = solve_text(R"({"cotter": "sequence_problem 1",
    "accesses": [{"id": "door", "open_at_start": false}],
    "operations": [{"id": "battery", "needs_open": [["door"]]}]})");
  ASSERT_TRUE(solved);
  EXPECT_EQ(document::write_json_line(*solved),
            R"({"engine":"sequence","status":"impossible","circle":[],)"
            R"("conflict":[{"why":"needs_one_of","later":"battery","accesses":["door"]}],"conflict_is_least":true,)"
            R"("precedence_complete":false,"nodes":0})");
}

TEST(SequenceProblem, EveryBadNameInOneGo) {
  const auto solved = solve_text(R"({"cotter": "sequence_problem 1",
    "accesses": [{"id": "shell"}, {"id": "shell"}],
    "operations": [{"id": "press_cups", "closes": ["shel"], "opens": ["attic"]},
                   {"id": "fit_crank", "after": ["pres_cups"], "needs_open": [["shell"], ["shell", "sell"]]}],
    "choices": [{"id": "saddle", "used_by": ["fit_saddle"]}]})");
  ASSERT_FALSE(solved);
  std::vector<std::string> lines;
  for (const document::Diagnostic& diagnostic : solved.error().list()) {
    lines.push_back(diagnostic.field + ": " + diagnostic.code + ": " + diagnostic.message + " found `" +
                    diagnostic.found + "` nearest: " + diagnostic.suggestion);
  }
  EXPECT_EQ(
      lines,
      (std::vector<std::string>{
          "accesses[1].id: double_id: This id stands in the list already. found `shell` nearest: ",
          "operations[0].closes[0]: unknown_name: There is no access of this name. found `shel` nearest: shell",
          "operations[0].opens[0]: unknown_name: There is no access of this name. found `attic` nearest: ",
          "operations[1].after[0]: unknown_name: There is no operation of this name. found `pres_cups` nearest: "
          "press_cups",
          "operations[1].needs_open[1][1]: unknown_name: There is no access of this name. found `sell` nearest: shell",
          "choices[0].used_by[0]: unknown_name: There is no operation of this name. found `fit_saddle` nearest: "}));
}

TEST(SequenceProblem, AnEmptyGroupIsRefusedByTheSchema) {
  const auto solved =
      solve_text(R"({"cotter": "sequence_problem 1", "operations": [{"id": "a", "needs_open": [[]]}]})");
  ASSERT_FALSE(solved);
  EXPECT_EQ(solved.error().list().front().field, "operations[0].needs_open[0]");
  EXPECT_EQ(solved.error().list().front().code, "too_few");
}

}  // namespace
}  // namespace cotter::problem
