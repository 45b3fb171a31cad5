// The two examples: the approved plans, and what one wrong entry does to each.
#include <algorithm>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <set>

#include "program.hpp"

namespace cotter::cli {
namespace {

using nlohmann::json;

std::string golden(const std::string& name) {
  return text_of(std::filesystem::path(COTTER_SOURCE_DIR) / "tests/golden" / name);
}

/// The first line that differs, of both texts; the whole plan twice would say less. `script/approve` shows them all.
std::string first_difference(const std::string& said, const std::string& approved) {
  if (said == approved) return "";
  const auto now = lines_of(said), before = lines_of(approved);
  std::size_t i = 0;
  while (i < std::min(now.size(), before.size()) && now[i] == before[i]) ++i;
  const auto line = [&](const std::vector<std::string>& lines) { return i < lines.size() ? lines[i] : "(its end)"; };
  return "line " + std::to_string(i + 1) + " is now: " + line(now) + "\napproved is: " + line(before);
}

json plan_of(const std::string& name) {
  return json::parse(run({"plan", example(name), "--json"}).output);
}

/// The `stop` that is not in the plan of the job without the wrong entry.
std::vector<json> new_stops(const std::string& whole_name, const std::string& name) {
  std::set<std::string> before;
  const json whole = plan_of(whole_name), broken = plan_of(name);
  for (const json& finding : whole["findings"])
    if (finding["verdict"] == "stop") before.insert(finding["id"]);
  std::vector<json> out;
  for (const json& finding : broken["findings"])
    if (finding["verdict"] == "stop" && !before.contains(finding["id"])) out.push_back(finding);
  return out;
}

class Whole : public testing::TestWithParam<const char*> {};

TEST_P(Whole, PlanIsTheApprovedOne) {
  const std::string name = GetParam();
  const Ended ended = run({"plan", "examples/" + name + ".yaml"});
  EXPECT_EQ(ended.exit_code, 0);
  EXPECT_EQ(ended.trouble, "");
  EXPECT_EQ(first_difference(ended.output, golden(name + "_plan.txt")), "") << "if this is meant: script/approve";
}

TEST_P(Whole, PlanHasNoStopAndSomethingOfEachOtherVerdict) {
  std::map<std::string, int> counts;
  const json plan = plan_of(GetParam());
  for (const json& finding : plan["findings"]) ++counts[finding["verdict"]];
  EXPECT_EQ(counts["stop"], 0);
  for (const char* verdict : {"ok", "accept", "add", "measure", "rework"}) EXPECT_GT(counts[verdict], 0) << verdict;
}

INSTANTIATE_TEST_SUITE_P(Jobs, Whole, testing::Values("all_road", "steel_road"),
                         [](const auto& job) { return std::string(job.param); });

/// The text with every break of a line and what it is moved in taken as one blank.
std::string unwrapped(const std::string& text) {
  std::string out;
  for (const char c : text)
    if (c != '\n' && (c != ' ' || (!out.empty() && out.back() != ' '))) out += c;
  return out;
}

struct Variant {
  const char* whole;
  const char* name;
  std::vector<std::string> rules;  ///< the rules that are meant to stop it
};
void PrintTo(const Variant& variant, std::ostream* out) {
  *out << variant.name;
}

class Broken : public testing::TestWithParam<Variant> {};

TEST_P(Broken, IsOneEditAwayFromTheWholeJob) {
  const auto whole = lines_of(text_of(example(GetParam().whole))), broken = lines_of(text_of(example(GetParam().name)));
  ASSERT_EQ(whole.size(), broken.size());
  std::vector<std::string> entries;
  for (std::size_t i = 0; i < whole.size(); ++i) {
    if (whole[i] == broken[i]) continue;
    const std::string key = whole[i].substr(0, whole[i].find(':'));
    const bool says_what_it_is = key == "id" || key == "title" || key == "note" || key == "revision" || key[0] == '#';
    if (!says_what_it_is) entries.push_back(broken[i]);
  }
  EXPECT_EQ(entries.size(), 1u) << testing::PrintToString(entries);
}

TEST_P(Broken, EndsWithOneAndStopsForTheReasonMeant) {
  const Ended ended = run({"plan", example(GetParam().name)});
  EXPECT_EQ(ended.exit_code, 1);
  EXPECT_EQ(ended.trouble, "");
  std::set<std::string> rules;
  for (const json& stop : new_stops(GetParam().whole, GetParam().name)) {
    rules.insert(stop["rule"]);
    if (!stop["margin"].is_null()) {
      EXPECT_LT(stop["margin"].get<std::int64_t>(), 0) << stop["id"];
    }
  }
  for (const std::string& rule : GetParam().rules)
    EXPECT_TRUE(rules.contains(rule)) << rule << " of " << testing::PrintToString(rules);
  EXPECT_NE(ended.output.find("  1  stop"), std::string::npos);
}

INSTANTIATE_TEST_SUITE_P(Variants, Broken,
                         testing::Values(Variant{"all_road", "all_road_hose_end", {"route.all_lines"}},
                                         Variant{"all_road", "all_road_short_spindle", {"bottom_bracket.preload_gap"}},
                                         Variant{
                                             "all_road",
                                             "all_road_high_pressure",
                                             {"hookless_pressure", "rim_pressure_hookless", "tyre_pressure_hookless"}},
                                         Variant{"steel_road", "steel_road_high_stem", {"quill.quill_mark"}},
                                         Variant{"steel_road", "steel_road_long_pull", {"lever_force"}},
                                         Variant{"steel_road", "steel_road_other_thread", {"cup_thread"}}),
                         [](const auto& variant) { return std::string(variant.param.name); });

/// Places of the steps in the order of work, by operation.
std::map<std::string, std::size_t> order_of(const std::string& name) {
  std::map<std::string, std::size_t> out;
  const json plan = plan_of(name);
  for (const json& step : plan["work"]) out.emplace(step["operation"], out.size());
  return out;
}

TEST(Examples, OnTheSteelOneNobodyRidesBeforeTheBrakeTestAndNothingIsBoughtBeforeTheInspection) {
  const auto at = order_of("steel_road");
  using Pair = std::pair<const char*, const char*>;
  for (const auto& [before, after] : {Pair{"inspect_used_parts", "approve_plan"},
                                      Pair{"inspect_steel_frame", "approve_plan"},
                                      Pair{"approve_plan", "order_parts"},
                                      Pair{"approve_plan", "set_dropouts"},
                                      Pair{"set_dropouts", "align_hanger"},
                                      Pair{"set_dropouts", "try_wheels"},
                                      Pair{"set_dropouts", "check_reach"},
                                      Pair{"check_reach", "mount_rim_brakes"},
                                      Pair{"fit_wheels", "align_quill"},
                                      Pair{"align_quill", "centre_rim_brakes"},
                                      Pair{"inflate_tyres", "brake_proof"},
                                      Pair{"check_hanger", "torque_pass"},
                                      Pair{"press_head_cups", "fit_threaded_fork"},
                                      Pair{"fit_threaded_fork", "fit_quill"},
                                      Pair{"fit_quill", "fit_bar"},
                                      Pair{"fit_bar", "pull:rear_brake_cable"},
                                      Pair{"mount_rim_brakes", "pull:front_brake_cable"},
                                      Pair{"pull:rear_shift_cable", "index_rear"},
                                      Pair{"set_pads", "anchor_brake_cables"},
                                      Pair{"centre_rim_brakes", "torque_pass"},
                                      Pair{"lock_head", "torque_pass"},
                                      Pair{"torque_pass", "test_rim_brakes"},
                                      Pair{"play_check", "test_rim_brakes"},
                                      Pair{"test_rim_brakes", "brake_proof"},
                                      Pair{"brake_proof", "test_ride"},
                                      Pair{"plug_bar_ends", "brake_proof"}})
    EXPECT_LT(at.at(before), at.at(after)) << before << " before " << after;
  for (const char* other : {"mount_rotors", "bleed_brakes", "set_cover_gap", "cut_steerer", "press_cups", "fit_crank",
                            "try_rotors", "show_charging", "pull_beside_spindle"})
    EXPECT_FALSE(at.contains(other)) << other;
}

TEST(Examples, NoStepOfTheSteelOneSpeaksOfWhatItDoesNotHave) {
  const json plan = plan_of("steel_road");
  for (const json& step : plan["work"])
    for (const char* field : {"label", "check", "caution"})
      for (const char* word : {"rotor", "charg", "non-round", " hose", "battery"})
        EXPECT_EQ(step[field].get<std::string>().find(word), std::string::npos) << step[field] << ": " << word;
}

TEST(Examples, TheDiscOneHasNoStepOfRimBrakesOrCables) {
  const auto at = order_of("all_road");
  for (const char* other : {"mount_rim_brakes", "test_rim_brakes", "index_rear", "fit_quill", "fit_cartridge"})
    EXPECT_FALSE(at.contains(other)) << other;
}

TEST(Examples, TheShortSpindleNamesSpindleAndShellAndWhatIsMissing) {
  const auto stops = new_stops("all_road", "all_road_short_spindle");
  const auto gap = std::find_if(stops.begin(), stops.end(),
                                [](const json& stop) { return stop["rule"] == "bottom_bracket.preload_gap"; });
  ASSERT_NE(gap, stops.end());
  std::set<std::string> named;
  for (const json& value : (*gap)["values"])
    if (!value["ref"].is_null()) named.insert(value["ref"]);
  EXPECT_TRUE(named.contains("frame.shell_right.width")) << testing::PrintToString(named);
  EXPECT_TRUE(std::any_of(named.begin(), named.end(), [](const std::string& ref) {
    return ref.starts_with("crankset.spindle.");
  })) << testing::PrintToString(named);
  // By hand: spindle 77.0 - 0.1, shell 86.5 + 0.1, cups twice 1.75 + 0.05, travel from 2.05:
  // 76.9 - 86.6 - 3.6 - 2.05 = -15.35.
  EXPECT_EQ((*gap)["margin"], -15'350'000);
  const std::string text = run({"plan", example("all_road_short_spindle")}).output;
  EXPECT_NE(text.find("[15.35 mm too little]"), std::string::npos);
}

TEST(Examples, TheFittedHoseNamesItsEndTheOpeningAndWhatIsMissing) {
  const auto stops = new_stops("all_road", "all_road_hose_end");
  ASSERT_EQ(stops.size(), 1u);
  EXPECT_EQ(stops[0]["id"], "route.all_lines@lines");
  // The joint is 9 across, the largest hole of the down tube 8.
  EXPECT_EQ(stops[0]["margin"], -1'000'000);
  std::string text = run({"plan", example("all_road_hose_end")}, {{{"COLUMNS", "160"}}}).output;
  text = unwrapped(text.substr(text.find("1  stop"), 2000));
  EXPECT_NE(text.find("what must pass is 9 mm, frame: down tube, left, near the head is 8 mm: 1 mm too large."),
            std::string::npos)
      << text;
  EXPECT_NE(text.find("frame: down tube, left, near the head would need 1 mm more; not permitted; ask the maker in"),
            std::string::npos)
      << text;
}

}  // namespace
}  // namespace cotter::cli
