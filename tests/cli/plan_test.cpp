// The three examples: the approved plan, and what one wrong entry does to it.
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
std::vector<json> new_stops(const std::string& name) {
  std::set<std::string> before;
  const json whole = plan_of("all_road"), broken = plan_of(name);
  for (const json& finding : whole["findings"])
    if (finding["verdict"] == "stop") before.insert(finding["id"]);
  std::vector<json> out;
  for (const json& finding : broken["findings"])
    if (finding["verdict"] == "stop" && !before.contains(finding["id"])) out.push_back(finding);
  return out;
}

TEST(Examples, ThePlanOfTheWholeJobIsTheApprovedOne) {
  const Ended ended = run({"plan", "examples/all_road.yaml"});
  EXPECT_EQ(ended.exit_code, 0);
  EXPECT_EQ(ended.trouble, "");
  EXPECT_EQ(first_difference(ended.output, golden("all_road_plan.txt")), "") << "if this is meant: script/approve";
}

TEST(Examples, TheWholeJobHasNoStopAndSomethingOfEachOtherVerdict) {
  std::map<std::string, int> counts;
  const json plan = plan_of("all_road");
  for (const json& finding : plan["findings"]) ++counts[finding["verdict"]];
  EXPECT_EQ(counts["stop"], 0);
  for (const char* verdict : {"ok", "accept", "add", "measure", "rework"}) EXPECT_GT(counts[verdict], 0) << verdict;
}

/// The text with every break of a line and what it is moved in taken as one blank.
std::string unwrapped(const std::string& text) {
  std::string out;
  for (const char c : text)
    if (c != '\n' && (c != ' ' || (!out.empty() && out.back() != ' '))) out += c;
  return out;
}

class Broken : public testing::TestWithParam<const char*> {};

TEST_P(Broken, IsOneEditAwayFromTheWholeJob) {
  const auto whole = lines_of(text_of(example("all_road"))), broken = lines_of(text_of(example(GetParam())));
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

TEST_P(Broken, EndsWithOneAndTheMillimetresThatAreMissing) {
  const Ended ended = run({"plan", example(GetParam())});
  EXPECT_EQ(ended.exit_code, 1);
  EXPECT_EQ(ended.trouble, "");
  const auto stops = new_stops(GetParam());
  ASSERT_FALSE(stops.empty());
  for (const json& stop : stops) EXPECT_LT(stop["margin"].get<std::int64_t>(), 0) << stop["id"];
  const std::string word = ended.output.substr(ended.output.find("  1  stop"), 2500);
  EXPECT_NE(word.find(" mm too "), std::string::npos) << word;
}

INSTANTIATE_TEST_SUITE_P(Variants, Broken, testing::Values("all_road_hose_end", "all_road_short_spindle"));

TEST(Examples, TheShortSpindleNamesSpindleAndShellAndWhatIsMissing) {
  const auto stops = new_stops("all_road_short_spindle");
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
  const auto stops = new_stops("all_road_hose_end");
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
