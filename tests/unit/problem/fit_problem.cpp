#include "problem/fit_problem.hpp"

#include <gtest/gtest.h>

#include "document/parse.hpp"

namespace cotter::problem {
namespace {

using document::Node;

document::Read<Node> solve_text(const std::string& text) {
  const auto node = document::parse(text, "problem.json", document::Format::json);
  if (!node) return tl::unexpected(node.error());
  return solve_fit(*node, "problem.json");
}

std::string one_check(const std::string& rest) {
  return R"({"cotter": "fit_problem 1", "checks": [{"id": "one", )" + rest + "}]}";
}

std::string one_limit(const std::string& rest) {
  return R"({"cotter": "fit_problem 1", "limits": [{"id": "one", )" + rest + "}]}";
}

Node solved_file(const std::string& name) {
  const std::string path = COTTER_SOURCE_DIR "/tests/oracle/problems/" + name;
  const auto node = document::parse_file(path);
  EXPECT_TRUE(node) << path;
  const auto solved = solve_fit(*node, name);
  EXPECT_TRUE(solved) << (solved ? "" : document::one_line(solved.error().list().front()));
  return solved ? *solved : Node::map();
}

/// The scalar at a path such as `result.low` of the entry with this id.
std::string scalar(const Node& solved, const std::string& id, const std::string& path) {
  for (const char* list : {"checks", "limits"}) {
    const Node* entries = solved.find(list);
    if (!entries) continue;
    for (const Node& entry : entries->items()) {
      if (entry.find("id")->scalar() != id) continue;
      const Node* at = &entry;
      std::size_t begin = 0;
      while (begin < path.size() && at) {
        const std::size_t end = std::min(path.find('.', begin), path.size());
        at = at->find(path.substr(begin, end - begin));
        begin = end + 1;
      }
      return at ? at->scalar() : "absent";
    }
  }
  return "no such entry";
}

std::string complaint(const document::Read<Node>& solved) {
  return solved ? "solved" : document::one_line(solved.error().list().front());
}

TEST(FitProblem, WholeResultOfOneCheck) {
  const auto solved = solve_text(one_check(
      R"("law": "bore_on_shaft", "operands": {"bore": "30.00 +0.02/-0.00 mm measured", "shaft": "30 ±0.01 mm"},)"
      R"( "must": {"from": "0 mm"}, "source": "common practice")"));
  ASSERT_TRUE(solved) << complaint(solved);
  const Node expected = *document::parse(R"({"engine": "fit", "checks": [{
    "id": "one", "law": "bore_on_shaft", "certainty": "open", "should": "holds", "formula": "bore - shaft",
    "result": {"low": "-0.01 mm", "low_nm": -10000, "high": "0.03 mm", "high_nm": 30000},
    "margin": "-0.01 mm", "margin_nm": -10000, "governs": "from", "too_low": false, "too_high": false,
    "mismatches": [], "unknown_words": [],
    "operands": {"bore": {"low": "30 mm", "low_nm": 30000000, "high": "30.02 mm", "high_nm": 30020000},
                 "shaft": {"low": "29.99 mm", "low_nm": 29990000, "high": "30.01 mm", "high_nm": 30010000}},
    "probability": 0.875,
    "influences": [
      {"role": "bore", "holds": {"low": "30.01 mm", "low_nm": 30010000},
       "may_hold": {"low": "29.99 mm", "low_nm": 29990000}, "share": 0.5},
      {"role": "shaft", "holds": {"high": "30 mm", "high_nm": 30000000},
       "may_hold": {"high": "30.02 mm", "high_nm": 30020000}, "share": 0.5}],
    "rests_on": ["shaft"], "source": "common practice"}]})",
                                         "expected.json", document::Format::json);
  EXPECT_EQ(*solved, expected) << document::write_json(*solved);
}

TEST(FitProblem, TradeCasesSolveAsTheTradeJudgesThem) {
  const Node room = solved_file("fit_spindle_room.json");
  EXPECT_EQ(scalar(room, "wire_beside_30_spindle", "certainty"), "fails");
  EXPECT_EQ(scalar(room, "wire_beside_30_spindle", "result.low"), "0.5 mm");
  EXPECT_EQ(scalar(room, "wire_beside_24_spindle", "certainty"), "holds");
  const Node axle = solved_file("fit_axle_spacing.json");
  EXPECT_EQ(scalar(axle, "hub_142_in_frame_148", "too_high"), "true");
  EXPECT_EQ(scalar(axle, "hub_148_in_frame_142", "too_low"), "true");
  const Node post = solved_file("fit_seatpost.json");
  EXPECT_EQ(scalar(post, "post_marked_27_0", "certainty"), "fails");
  EXPECT_EQ(scalar(post, "post_marked_27_0", "margin"), "-0.3 mm");
  EXPECT_EQ(scalar(post, "post_of_26_8", "certainty"), "holds");
  const Node bolt = solved_file("fit_caliper_bolt.json");
  EXPECT_EQ(scalar(bolt, "bolt_25", "too_low"), "true");
  EXPECT_EQ(scalar(bolt, "bolt_38", "too_high"), "true");
  EXPECT_EQ(scalar(bolt, "bolt_33", "certainty"), "holds");
  const Node pressure = solved_file("fit_tyre_pressure.json");
  EXPECT_EQ(scalar(pressure, "hookless_5_5_bar", "certainty"), "fails");
  EXPECT_EQ(scalar(pressure, "hookless_5_5_bar", "margin_base"), "-50000") << "half a bar, in pascals";
  EXPECT_EQ(scalar(pressure, "hookless_5_0_bar", "certainty"), "holds");
  const Node tyre = solved_file("fit_tyre_in_stays.json");
  EXPECT_EQ(scalar(tyre, "tyre_41_5_in_48", "result.low"), "3.25 mm");
  EXPECT_EQ(scalar(tyre, "tyre_41_5_in_48", "certainty"), "fails");
  EXPECT_EQ(scalar(tyre, "tyre_40_in_48", "certainty"), "holds");
}

// Expected numbers stand in the `source` of each check of these files.
TEST(FitProblem, FitsAndBearingSeatsOfTheStandards) {
  const Node fits = solved_file("fit_iso286_fits.json");
  const auto range = [](const Node& solved, const std::string& id) {
    return scalar(solved, id, "result.low_nm") + " " + scalar(solved, id, "result.high_nm");
  };
  EXPECT_EQ(range(fits, "h6_e7_20"), "40000 74000");
  EXPECT_EQ(range(fits, "h7_s6_20"), "-48000 -14000");
  EXPECT_EQ(range(fits, "h11_d11_12"), "50000 270000");
  EXPECT_EQ(range(fits, "h7_h8_29"), "0 54000");
  EXPECT_EQ(range(fits, "h7_p6_40"), "-42000 -1000");
  EXPECT_EQ(scalar(fits, "h7_k6_25", "probability").substr(0, 12), "0.4047619047");
  const Node seats = solved_file("fit_bearing_seats.json");
  EXPECT_EQ(range(seats, "n7_28"), "-28000 2000");
  EXPECT_EQ(range(seats, "p7_42"), "-42000 -6000");
  EXPECT_EQ(range(seats, "k7_42"), "-18000 18000");
  EXPECT_EQ(range(seats, "m7_62"), "-30000 13000");
  EXPECT_EQ(range(seats, "g6_25"), "-3000 20000");
}

// Sources: ISO h table for round bars of a bar maker (h7, h9), hole table of a linear-motion catalogue (JS7, N7),
// ISO 492 Normal class through a bearing maker's tables.
TEST(FitProblem, LimitsOfClassesAlone) {
  const Node limits = solved_file("fit_iso286_limits.json");
  const auto um = [&](const std::string& id) {
    return scalar(limits, id, "lower_um") + " " + scalar(limits, id, "upper_um");
  };
  EXPECT_EQ(um("h7_6"), "-12 0");
  EXPECT_EQ(um("h7_10"), "-15 0");
  EXPECT_EQ(um("h7_18"), "-18 0");
  EXPECT_EQ(um("h7_30"), "-21 0");
  EXPECT_EQ(um("h7_50"), "-25 0");
  EXPECT_EQ(um("js7_40"), "-12.5 12.5");
  EXPECT_EQ(um("n7_25"), "-28 -7");
  EXPECT_EQ(um("h9_5"), "-30 0");
  EXPECT_EQ(um("bearing_42"), "-11 0");
  EXPECT_EQ(um("bearing_bore_30"), "-10 0");
  EXPECT_EQ(scalar(limits, "n7_25", "low"), "24.972 mm");
  EXPECT_EQ(scalar(limits, "n7_25", "high"), "24.993 mm");
}

// Sources: limits 6g after ISO 965 in a distributor's catalogue, page 711; M4 minor diameter from memory of ISO 965-2;
// ISO 68 profile applied to 1.37 in x 24 per inch.
TEST(FitProblem, Threads) {
  const Node threads = solved_file("fit_threads.json");
  EXPECT_EQ(scalar(threads, "m5_6g", "major.max"), "4.976 mm");
  EXPECT_EQ(scalar(threads, "m5_6g", "major.min"), "4.826 mm");
  EXPECT_EQ(scalar(threads, "m5_6g", "pitch_diameter.max"), "4.456 mm");
  EXPECT_EQ(scalar(threads, "m5_6g", "minor.max"), "absent");
  EXPECT_EQ(scalar(threads, "m6_6g", "pitch_diameter.min"), "5.212 mm");
  EXPECT_EQ(scalar(threads, "m4_6h", "minor.max"), "3.422 mm");
  EXPECT_EQ(scalar(threads, "shell_1_37_by_24", "nominal"), "34.798 mm");
  EXPECT_EQ(scalar(threads, "shell_1_37_by_24", "minor.max").substr(0, 7), "33.6523");
  EXPECT_EQ(scalar(threads, "cup_of_another_pitch", "certainty"), "fails");
}

TEST(FitProblem, ARoleOfAnyDimensionTakesTheUnitItIsWrittenIn) {
  const auto solved = solve_text(
      one_check(R"("law": "at_least", "operands": {"value": "5 N·m", "limit": "4 N·m"}, "must": {"from": "0.5 N·m"})"));
  ASSERT_TRUE(solved) << complaint(solved);
  EXPECT_EQ(scalar(*solved, "one", "margin"), "0.5 N·m");
  EXPECT_EQ(complaint(solve_text(one_check(R"("law": "at_least", "operands": {"value": "5 N·m", "limit": "4 mm"})")))
                .find("problem.json:1:"),
            0u);
}

TEST(FitProblem, AnUnknownOperandIsARange) {
  const auto solved = solve_text(
      one_check(R"("law": "at_least", "operands": {"value": {"from": "5 mm", "to": "9 mm"}, "limit": "4 mm"})"));
  ASSERT_TRUE(solved) << complaint(solved);
  EXPECT_EQ(scalar(*solved, "one", "result.high"), "5 mm");
  EXPECT_EQ(scalar(*solved, "one", "probability"), "absent");
  EXPECT_EQ(complaint(solve_text(one_check(R"("law": "at_least", "operands": {"value": "?", "limit": "4 mm"})"))),
            "problem.json:1:95: checks[0].operands.value: An unknown operand needs the range of what is possible; "
            "found \"?\"; accepted: a value, or a map {from, to}");
}

TEST(FitProblem, RolesThatALawLacksAreNamed) {
  EXPECT_EQ(complaint(solve_text(one_check(R"("law": "bore_on_shaft", "operands": {"bore": "1 mm", "shat": "1 mm"})"))),
            "problem.json:1:107: checks[0].operands.shat: The law `bore_on_shaft` has no operand `shat`; found "
            "\"shat\"; accepted: "
            "bore, shaft; did you mean \"shaft\"?");
  const auto missing = solve_text(one_check(R"("law": "bore_on_shaft", "operands": {"bore": "1 mm"})"));
  ASSERT_FALSE(missing);
  EXPECT_EQ(missing.error().list().front().code, "missing_role");
  EXPECT_EQ(missing.error().list().front().message, "The law `bore_on_shaft` needs an operand `shaft`.");
}

TEST(FitProblem, ASizeWithoutASourcedRowIsSaidNotGuessed) {
  EXPECT_EQ(complaint(solve_text(one_limit(R"("nominal": "70 mm", "class": "r6")"))),
            "problem.json:1:40: limits[0]: The table ISO 286 fundamental deviations has no sourced row for r at 70 "
            "mm; found \"r at 70 mm\"; accepted: a size and class with a sourced row, or the deviations written out");
  const auto thread = solve_text(one_limit(R"("thread": "M12x1.5", "class": "6g")"));
  ASSERT_FALSE(thread);
  EXPECT_EQ(thread.error().list().front().code, "no_row");
  const auto bad = solve_text(one_limit(R"("nominal": "70 mm", "class": "q6")"));
  ASSERT_FALSE(bad);
  EXPECT_EQ(bad.error().list().front().code, "bad_class");
  EXPECT_EQ(bad.error().list().front().message, "This is not a class or name that ISO 286 knows.");
}

TEST(FitProblem, EveryTroubleIsFoundInOneGo) {
  const auto solved = solve_text(
      R"({"cotter": "fit_problem 1", "checks": [
        {"id": "a", "law": "at_most", "operands": {"value": "1 mm", "limit": "2 mm"}, "must": {"from": "1 mm", "to": "0 mm"}},
        {"id": "a", "law": "engagement", "operands": {"bolt": "1 mm", "through": "1 mm", "depth": "1 mm", "diameter": "1 mm"}},
        {"id": "b", "law": "at_most", "operands": {"value": {"nominal": "5 mm"}, "limit": "2 mm"}},
        {"id": "c", "law": "at_most", "operands": {"value": "1 mm", "limit": "2 mm"}, "must": {"from": "1 ±0.1 mm"}},
        {"id": "d", "law": "difference", "operands": {"a": {"thread": "M4", "class": "6H", "take": "major"}, "b": "4 mm"}},
        {"id": "e", "law": "equal_family", "words": {"family": ["x", "x"]}, "must": {"from": "1 mm"}}
      ]})");
  ASSERT_FALSE(solved);
  std::vector<std::string> codes;
  for (const auto& diagnostic : solved.error().list()) codes.push_back(diagnostic.code);
  EXPECT_EQ(codes, (std::vector<std::string>{"double_id", "wrong_window", "wrong_parameter", "mixed_operand",
                                             "wrong_window", "open_limit", "wrong_window"}));
}

TEST(FitProblem, TheSchemaRefusesWhatItDoesNotKnow) {
  EXPECT_NE(complaint(solve_text(R"({"cotter": "fit_problem 2"})")), "solved");
  EXPECT_NE(complaint(solve_text(one_check(R"("law": "bore_on_shat", "operands": {})"))).find("bore_on_shaft"),
            std::string::npos);
  EXPECT_NE(complaint(solve_text(one_check(R"("law": "thread", "words": {"hand": ["left"]})"))), "solved");
  EXPECT_EQ(complaint(solve_text(R"({"cotter": "fit_problem 1"})")), "solved") << "an empty problem has no checks";
}

}  // namespace
}  // namespace cotter::problem
