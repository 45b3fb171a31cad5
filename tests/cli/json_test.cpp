// The plan as a document: what every finding must carry so that another program can use it without our words.
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <set>

#include "program.hpp"

namespace cotter::cli {
namespace {

using nlohmann::json;

class PlanDocument : public testing::TestWithParam<const char*> {
 protected:
  const json plan = json::parse(run({"plan", example(GetParam()), "--json"}).output);

  std::vector<json> of(const std::string& verdict) const {
    std::vector<json> out;
    for (const json& finding : plan["findings"])
      if (finding["verdict"] == verdict) out.push_back(finding);
    return out;
  }
};

bool has_text(const json& node, const char* key) {
  return node.contains(key) && node[key].is_string() && !node[key].get<std::string>().empty();
}

TEST_P(PlanDocument, SaysWhatItIsAndWhatItWasMadeFrom) {
  EXPECT_EQ(plan["cotter"], "plan 1");
  for (const char* hash : {"job_hash", "catalog_hash"}) EXPECT_EQ(plan[hash].get<std::string>().size(), 64u) << hash;
  EXPECT_EQ(plan["job"], GetParam());
}

TEST_P(PlanDocument, EveryFindingHasAnIdAVerdictASubjectARuleAndASource) {
  const std::set<std::string> verdicts{"ok", "accept", "add", "measure", "rework", "stop"};
  std::set<std::string> ids;
  EXPECT_GT(plan["findings"].size(), 50u);
  for (const json& finding : plan["findings"]) {
    EXPECT_TRUE(ids.insert(finding["id"]).second) << finding["id"] << " stands twice";
    EXPECT_TRUE(verdicts.contains(finding["verdict"])) << finding["id"];
    for (const char* key : {"subject", "rule", "rule_label", "law", "may_pass", "guards"})
      EXPECT_TRUE(has_text(finding, key)) << finding["id"] << " " << key;
    EXPECT_TRUE(has_text(finding["source"], "kind")) << finding["id"];
    EXPECT_TRUE(has_text(finding["source"], "text")) << finding["id"];
  }
}

TEST_P(PlanDocument, AnIdHoldsNoNumberOfTheJob) {
  for (const json& finding : plan["findings"]) {
    const std::string id = finding["id"];
    EXPECT_EQ(id.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_.,@"), std::string::npos) << id;
    EXPECT_TRUE(id.starts_with(finding["rule"].get<std::string>() + "@")) << id;
  }
}

TEST_P(PlanDocument, EveryAddHasCountDimensionAndPlace) {
  for (const json& finding : of("add")) {
    EXPECT_FALSE(finding["additions"].empty()) << finding["id"];
    for (const json& addition : finding["additions"]) {
      EXPECT_GE(addition["count"].get<int>(), 1) << finding["id"];
      for (const char* key : {"what", "dimension", "where"})
        EXPECT_TRUE(has_text(addition, key)) << finding["id"] << " " << key;
    }
  }
}

TEST_P(PlanDocument, EveryMeasurementHasFeatureFacesToolResolutionAndWhatEachOutcomeMeans) {
  for (const json& finding : of("measure")) {
    if (finding["law"] == "sequence") continue;  // nothing to measure there: the lines must have ways first
    if (finding["rule"] == "used_part") {        // to be inspected, which no tool does alone
      EXPECT_FALSE(finding["facts"].empty()) << finding["id"];
      continue;
    }
    // Pieces that another finding has not decided yet, or cannot, are no value to measure; they are named instead.
    const bool waits = finding["rests_on"].dump().find("(undecided)") != std::string::npos ||
                       finding["facts"].dump().find("stack.waits") != std::string::npos;
    EXPECT_TRUE(!finding["measurements"].empty() || waits) << finding["id"];
    for (const json& measurement : finding["measurements"]) {
      for (const char* key : {"ref", "label", "feature", "faces", "tool", "resolution"})
        EXPECT_TRUE(has_text(measurement, key)) << finding["id"] << " " << key;
      EXPECT_FALSE(measurement["holds"].is_null() && measurement["may_hold"].is_null()) << finding["id"];
      const json& may_hold = measurement["may_hold"];
      if (may_hold.is_null()) continue;
      EXPECT_TRUE(may_hold["low"].is_null() || has_text(measurement, "below_means")) << finding["id"];
      EXPECT_TRUE(may_hold["high"].is_null() || has_text(measurement, "above_means")) << finding["id"];
    }
  }
}

TEST_P(PlanDocument, EveryStopOfANumberHasTheMissingAmountAndBothSides) {
  for (const json& finding : of("stop")) {
    if (finding["result"].is_null() && finding["law"] != "route") continue;
    EXPECT_LT(finding["margin"].get<std::int64_t>(), 0) << finding["id"];
    EXPECT_TRUE(finding["law"] == "route" || finding["values"].size() >= 2u) << finding["id"];
  }
}

TEST_P(PlanDocument, NoGuardedFindingIsOkOnAnAssumedOrUnknownValue) {
  for (const json& finding : of("ok")) {
    if (finding["guards"] == "nothing") continue;
    for (const json& value : finding["values"]) {
      const std::string origin = value["value"]["origin"];
      EXPECT_TRUE(value["ref"].is_null() || (origin != "assumed" && origin != "unknown"))
          << finding["id"] << " rests on " << value["label"];
    }
  }
}

TEST_P(PlanDocument, EveryValueHasItsOriginAndItsLimits) {
  for (const json& finding : plan["findings"])
    for (const json& value : finding["values"]) {
      EXPECT_TRUE(has_text(value["value"], "text")) << finding["id"];
      EXPECT_TRUE(has_text(value["value"], "origin")) << finding["id"];
      EXPECT_LE(value["value"]["low"].get<std::int64_t>(), value["value"]["high"].get<std::int64_t>());
    }
}

TEST_P(PlanDocument, FindingsStandWorstFirst) {
  const std::vector<std::string> order{"stop", "rework", "measure", "add", "accept", "ok"};
  std::size_t last = 0;
  for (const json& finding : plan["findings"]) {
    const auto at = static_cast<std::size_t>(
        std::find(order.begin(), order.end(), finding["verdict"].get<std::string>()) - order.begin());
    EXPECT_GE(at, last) << finding["id"];
    last = at;
  }
}

TEST_P(PlanDocument, EveryStepComesAfterTheStepsItWaitsFor) {
  std::set<std::string> done;
  EXPECT_GT(plan["work"].size(), 40u);
  for (const json& step : plan["work"]) {
    for (const json& before : step["after"]) EXPECT_TRUE(done.contains(before)) << step["operation"];
    EXPECT_TRUE(done.insert(step["operation"]).second) << step["operation"];
    EXPECT_TRUE(!step["hold_point"].get<bool>() || has_text(step, "evidence")) << step["operation"];
  }
}

TEST_P(PlanDocument, NothingIsSawnBeforeAHoldPoint) {
  bool held = false;
  for (const json& step : plan["work"]) {
    const std::string operation = step["operation"];
    held = held || step["hold_point"].get<bool>();
    EXPECT_TRUE(step["reversible"] != "no" || held) << operation;
  }
}

INSTANTIATE_TEST_SUITE_P(Examples, PlanDocument,
                         testing::Values("all_road", "all_road_hose_end", "all_road_short_spindle", "steel_road"));

}  // namespace
}  // namespace cotter::cli
