#include "problem/stack_problem.hpp"

#include <charconv>
#include <gtest/gtest.h>

#include "document/parse.hpp"

namespace cotter::problem {
namespace {

using document::Node;

document::Read<Node> solve_text(const std::string& text) {
  const auto node = document::parse(text, "problem.json", document::Format::json);
  if (!node) return tl::unexpected(node.error());
  return solve_stack(*node, "problem.json");
}

Node solved_file(const std::string& name) {
  const auto node = document::parse_file(COTTER_SOURCE_DIR "/tests/oracle/problems/" + name + ".json");
  EXPECT_TRUE(node) << name;
  const auto solved = solve_stack(*node, name);
  EXPECT_TRUE(solved) << (solved ? "" : document::one_line(solved.error().list().front()));
  return solved ? *solved : Node::map();
}

/// The scalar at a path of keys and indices, such as `forms.0.value_nm`.
std::string scalar(const Node& node, const std::string& path) {
  const Node* at = &node;
  for (std::size_t begin = 0; begin < path.size() && at != nullptr;) {
    const std::size_t end = std::min(path.find('.', begin), path.size());
    const std::string step = path.substr(begin, end - begin);
    if (at->is_list()) {
      std::size_t index = 0;
      std::from_chars(step.data(), step.data() + step.size(), index);
      at = index < at->items().size() ? &at->items()[index] : nullptr;
    } else {
      at = at->find(step);
    }
    begin = end + 1;
  }
  return at == nullptr ? "absent" : at->scalar();
}

std::vector<std::string> complaints(const std::string& text) {
  const auto solved = solve_text(text);
  std::vector<std::string> lines;
  if (solved) return lines;
  for (const document::Diagnostic& diagnostic : solved.error().list()) {
    lines.push_back(diagnostic.field + ": " + diagnostic.code + ": " + diagnostic.message + " found `" +
                    diagnostic.found + "` accepted: " + diagnostic.accepted + " nearest: " + diagnostic.suggestion);
  }
  return lines;
}

TEST(StackProblem, WholeResultOfOneForm) {
  const auto solved = solve_text(R"({
    "cotter": "stack_problem 1",
    "terms": [{"id": "gap", "value": "0.6 ±0.1 mm"}],
    "kit": [{"id": "shim", "thickness": "0.25 mm", "count": 2}],
    "slots": [{"id": "cover", "most_pieces": 2}],
    "forms": [{"id": "play", "coefficients": {"gap": 1}, "slot_coefficients": {"cover": -1},
               "window": {"from": "0 mm", "to": "0.5 mm"}, "target": "0.3 mm", "source": "a paper"}]})");
  ASSERT_TRUE(solved);
  EXPECT_EQ(document::write_json_line(*solved),
            R"({"engine":"stack","status":"fits_with_spacers","complete":true,"nodes":3,"forms":[{"id":"play",)"
            R"("value":"0.35 mm","value_nm":350000,)"
            R"("worst_case":{"low":"0.25 mm","low_nm":250000,"high":"0.45 mm","high_nm":450000},)"
            R"("rss":{"nominal":"0.35 mm","nominal_nm":350000,"plus_minus":"0.1 mm","plus_minus_nm":100000,)"
            R"("plus_minus_mm":0.1},"probability":1,"status":"holds",)"
            R"("margin":{"room":"0.05 mm","room_nm":50000,"edge":"to"},)"
            R"("window":{"from":"0 mm","from_nm":0,"to":"0.5 mm","to_nm":500000},)"
            R"("influences":[{"term":"gap","share":1,"settles":"always","settled_share":1}],"unattested":["gap"],)"
            R"("source":"a paper","without":{"value":"0.6 mm","value_nm":600000,)"
            R"("worst_case":{"low":"0.5 mm","low_nm":500000,"high":"0.7 mm","high_nm":700000},)"
            R"("rss":{"nominal":"0.6 mm","nominal_nm":600000,"plus_minus":"0.1 mm","plus_minus_nm":100000,)"
            R"("plus_minus_mm":0.1},"probability":0,"status":"open",)"
            R"("margin":{"room":"-0.2 mm","room_nm":-200000,"edge":"to"}}}],)"
            R"("sets":[{"status":"holds","pieces":1,"uses":[{"slot":"cover","piece":"shim","count":1}],)"
            R"("slots":[{"slot":"cover","length":"0.25 mm","length_nm":250000}],"open_forms":[],"outside_wish":[],)"
            R"("off_target":"0.05 mm","off_target_nm":50000,"forms":[{"id":"play",)"
            R"("worst_case":{"low":"0.25 mm","low_nm":250000,"high":"0.45 mm","high_nm":450000},"probability":1}]},)"
            R"({"status":"open","pieces":0,"uses":[],"slots":[{"slot":"cover","length":"0 mm","length_nm":0}],)"
            R"("open_forms":["play"],"outside_wish":[],"off_target":"0.3 mm","off_target_nm":300000,)"
            R"("forms":[{"id":"play","worst_case":{"low":"0.5 mm","low_nm":500000,"high":"0.7 mm","high_nm":700000},)"
            R"("probability":0}]}],)"
            R"("sets_left_out":0,"measure_first":[]})");
}

TEST(StackProblem, EveryUnknownAndDoubledNameInOneGo) {
  EXPECT_EQ(complaints(R"({
    "cotter": "stack_problem 1",
    "terms": [{"id": "shell", "value": "68 mm"}, {"id": "shell", "value": "70 mm"}],
    "kit": [{"id": "ring", "thickness": "2.5 mm", "count": 1}],
    "slots": [{"id": "left", "most_pieces": 1, "allowed": ["rign"]}],
    "forms": [{"id": "f", "coefficients": {"shel": 1}, "slot_coefficients": {"weft": 1}}]})"),
            (std::vector<std::string>{
                "terms[1].id: double_id: This id stands in the list already. found `shell` accepted: each id once "
                "nearest: ",
                "slots[0].allowed[0]: unknown_name: There is no piece of this name. found `rign` accepted: ring "
                "nearest: ring",
                "forms[0].coefficients.shel: unknown_name: There is no term of this name. found `shel` accepted: "
                "shell, shell nearest: shell",
                "forms[0].slot_coefficients.weft: unknown_name: There is no slot of this name. found `weft` accepted: "
                "left nearest: left"}));
}

TEST(StackProblem, EveryBadLengthInOneGo) {
  EXPECT_EQ(complaints(R"({
    "cotter": "stack_problem 1",
    "terms": [{"id": "a", "value": "?"}, {"id": "b"}, {"id": "c", "from": "2 mm", "to": "1 mm"},
              {"id": "d", "value": "2000 m"}],
    "kit": [{"id": "p", "thickness": "1 ±0.1 mm", "count": 1}, {"id": "q", "thickness": "0 mm", "count": 1}],
    "slots": [{"id": "s", "most_pieces": 40}, {"id": "t", "most_pieces": 40}],
    "forms": [{"id": "f", "window": {"from": "2 mm", "to": "1 mm"}}]})"),
            (std::vector<std::string>{
                "terms[0].value: unknown_range: This length must be known. found `?` accepted: a length, for example "
                "2.5 mm nearest: ",
                "terms[1]: missing_field: A term has a value, or the two ends of what is possible. found `` accepted: "
                "`value`, or `from` and `to` nearest: ",
                "terms[2]: bad_range: The ends of what is possible are swapped. found `` accepted: `from` no greater "
                "than `to` nearest: ",
                "terms[3].value: out_of_range: The length is out of its range. found `2000 m` accepted: up to 1 km "
                "either way nearest: ",
                "kit[0].thickness: bad_value: This length takes no deviations. found `1 ±0.1 mm` accepted: the length "
                "alone, for example 2.5 mm nearest: ",
                "kit[1].thickness: out_of_range: A piece has a thickness. found `0 mm` accepted: more than 0 mm "
                "nearest: ",
                "slots[1].most_pieces: out_of_range: The slots together take too many pieces. found `40` accepted: at "
                "most 64 in all slots together nearest: ",
                "forms[0].window: bad_range: The ends of the window are swapped. found `` accepted: `from` no greater "
                "than `to` nearest: "}));
}

TEST(StackProblem, WhatTheSchemaRefusesIsNotSolved) {
  const auto lines = complaints(R"({"cotter": "stack_problem 1", "forms": [{"id": "f", "coefficients": {"a": 9}}]})");
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0].substr(0, 38), "forms[0].coefficients.a: out_of_range:");
}

TEST(StackProblem, UnknownTermIsWhatToMeasure) {
  const auto solved = solve_text(R"({
    "cotter": "stack_problem 1",
    "terms": [{"id": "depth", "from": "0 mm", "to": "2 mm"}, {"id": "cap", "value": "1 mm measured"}],
    "forms": [{"id": "gap", "coefficients": {"depth": 1, "cap": -1}, "window": {"from": "0 mm"}}]})");
  ASSERT_TRUE(solved);
  EXPECT_EQ(scalar(*solved, "status"), "open");
  EXPECT_EQ(scalar(*solved, "forms.0.probability"), "absent");
  EXPECT_EQ(scalar(*solved, "forms.0.rss"), "absent");
  EXPECT_EQ(scalar(*solved, "forms.0.unattested.0"), "depth");
  EXPECT_EQ(scalar(*solved, "measure_first.0.term"), "depth");
  EXPECT_EQ(scalar(*solved, "measure_first.0.settles.0"), "gap");
}

// Values and their sources stand in each file; the same cases as tests/unit/engine/stack/published_test.cpp.
struct Published {
  std::string file;
  std::vector<std::pair<std::string, std::string>> scalars;
};

class StackProblemFile : public ::testing::TestWithParam<Published> {};

TEST_P(StackProblemFile, GivesTheScalars) {
  const Node solved = solved_file(GetParam().file);
  for (const auto& [path, value] : GetParam().scalars) EXPECT_EQ(scalar(solved, path), value) << path;
}

INSTANTIATE_TEST_SUITE_P(
    Files, StackProblemFile,
    ::testing::Values(
        Published{"stack_ten_tenths",
                  {{"forms.0.worst_case.low", "-1 mm"},
                   {"forms.0.worst_case.high", "1 mm"},
                   {"forms.0.rss.plus_minus_nm", "316228"}}},
        Published{"stack_housing_gap",
                  {{"status", "open"}, {"forms.0.value", "0.2 mm"}, {"forms.0.worst_case.low", "-0.15 mm"}}},
        Published{"stack_outboard_cups_68", {{"sets.0.pieces", "3"}, {"forms.0.without.value", "86.5 mm"}}},
        Published{"stack_outboard_cups_73", {{"sets.0.pieces", "1"}, {"forms.0.without.value", "91.5 mm"}}},
        Published{"stack_flush_bearings", {{"sets.0.slots.0.length", "9.25 mm"}, {"sets.0.slots.1.length", "9.25 mm"}}},
        Published{"stack_flush_bearings_left", {{"forms.1.value", "-9.25 mm"}}},
        Published{"stack_wave_washer", {{"sets.0.uses.0.count", "3"}, {"forms.0.value", "0.45 mm"}}},
        Published{"stack_ring_to_stay",
                  {{"forms.0.value", "3 mm"}, {"forms.1.value", "45.5 mm"}, {"forms.1.wish_status", "fails"}}},
        Published{"stack_cover_shims", {{"sets.0.pieces", "3"}, {"forms.0.value", "0.45 mm"}}},
        Published{"stack_plug_zone_short", {{"status", "no_set"}, {"nearest_miss.off", "-17 mm"}}},
        Published{"stack_plug_zone_long", {{"status", "fits_without"}}},
        Published{"stack_spacer_above", {{"status", "no_set"}, {"nearest_miss.off", "5 mm"}}},
        Published{"stack_steerer_cut", {{"forms.0.value", "232 mm"}, {"forms.0.worst_case.high", "232.5 mm"}}}));

TEST(StackProblem, SchemaIsPublished) {
  const Node schema = document::json_schema(*stack_schema(), "stack problem");
  EXPECT_EQ(scalar(schema, "$schema"), "https://json-schema.org/draft/2020-12/schema");
}

}  // namespace
}  // namespace cotter::problem
