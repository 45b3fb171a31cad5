// Lines across the pivot of a sprung frame: the slack they get and what is said of them. The small bicycle has one
// tube; here its brake hangs on the rear axle and turns about a pivot at the bottom bracket, 430 in front of it.
#include <algorithm>
#include <gtest/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using model::Verdict;
using quantity::OriginKind;

quantity::Value angle(std::int64_t degrees, OriginKind kind) {
  quantity::Value value = length(0, 0, kind);
  value.dimension = quantity::Dimension::angle;
  value.nominal = degrees * 1'000'000;
  return value;
}

model::Pivot pivot(std::int64_t from, std::int64_t to, OriginKind kind = OriginKind::maker) {
  return {"main",         "main pivot", {}, {"rear_axle"}, length(0, 0, kind), length(0, 0, kind), angle(from, kind),
          angle(to, kind)};
}

SmallBicycle sprung(const model::Pivot& pivot) {
  SmallBicycle small;
  small.part("frame").pivots = {pivot};
  return small;
}

std::string fact(const model::Finding& finding, const std::string& key) {
  const auto found =
      std::find_if(finding.facts.begin(), finding.facts.end(), [&](const auto& f) { return f.first == key; });
  return found == finding.facts.end() ? "" : found->second;
}

bool says(const model::Finding& finding, const std::string& key) {
  return std::any_of(finding.facts.begin(), finding.facts.end(), [&](const auto& f) { return f.first == key; });
}

bool has(const model::Plan& plan, const std::string& id) {
  return std::any_of(plan.findings.begin(), plan.findings.end(), [&](const auto& f) { return f.id == id; });
}

TEST(Travel, AFrameWithoutPivotSaysNothing) {
  EXPECT_FALSE(has(SmallBicycle().plan(), "route.pivot@hose"));
}

TEST(Travel, ALineAcrossGetsTheGrowthAsSlackAndSaysSo) {
  const std::int64_t rigid = SmallBicycle().plan().runs.at(0).length;
  const model::Plan plan = sprung(pivot(-10, 10)).plan();
  const model::Finding& finding = finding_in(plan, "route.pivot@hose");
  EXPECT_EQ(finding.verdict, Verdict::ok);
  EXPECT_GT(plan.runs.at(0).length, rigid);
  EXPECT_EQ(plan.runs.at(0).way, SmallBicycle().plan().runs.at(0).way);
  EXPECT_EQ(fact(finding, "first_at"), "-10°");
  EXPECT_EQ(fact(finding, "last_at"), "10°");
}

// The exit lies at the end of the down tube, 60 from the bottom bracket and 44° up in front; the brake 430 behind. Down
// by 90° at the other end, the brake hangs below: the straight line through the pivot is met on the way there.
TEST(Travel, TheWorstPointBetweenTheEndsIsTheOneThatCounts) {
  const model::Plan plan = sprung(pivot(-90, 0)).plan();
  const model::Finding& finding = finding_in(plan, "route.pivot@hose");
  const auto number = [&](const char* key) { return std::stod(fact(finding, key)); };
  EXPECT_GT(number("longest"), number("first"));
  EXPECT_GT(number("longest"), number("last"));
  EXPECT_GE(number("spare"), number("grown"));
}

TEST(Travel, AnAssumedPivotAsksForAMeasurement) {
  const model::Plan plan = sprung(pivot(-10, 10, OriginKind::assumed)).plan();
  const model::Finding& finding = finding_in(plan, "route.pivot@hose");
  EXPECT_EQ(finding.verdict, Verdict::measure);
  EXPECT_TRUE(says(finding, "route.pivot_assumed"));
}

TEST(Travel, ALineThatReachesOnlyAsDrawnHasNoLength) {
  SmallBicycle small;
  const std::int64_t way = small.plan().runs.at(0).way;
  model::Part& hose = small.job.sheet.parts.back();
  hose.line->longest = length((way + 3) * 1000);
  ASSERT_EQ(finding_in(small.plan(), "route.all_lines@lines").verdict, Verdict::ok);
  small.part("frame").pivots = {pivot(-10, 10)};
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "route.all_lines@lines");
  EXPECT_EQ(finding.verdict, Verdict::stop);
  EXPECT_TRUE(says(finding, "route.why_length"));
  EXPECT_TRUE(says(finding, "route.why_travel"));
}

TEST(Travel, BothEndsOnOneSideAskForNothing) {
  model::Pivot elsewhere = pivot(-10, 10);
  elsewhere.points = {"crown"};
  const model::Plan plan = sprung(elsewhere).plan();
  EXPECT_FALSE(has(plan, "route.pivot@hose"));
  EXPECT_EQ(plan.runs.at(0).length, SmallBicycle().plan().runs.at(0).length);
}

// The line's ends stand, but it passes a tube that turns: nothing was added for it, so what it has cannot be enough.
TEST(Travel, ALineInAndOutOfWhatTurnsIsAStopWhenItsSlackIsTooSmall) {
  model::Pivot tube = pivot(-10, 10);
  tube.points.clear();
  tube.cells = {"down_tube"};
  const model::Plan plan = sprung(tube).plan();
  const model::Finding& finding = finding_in(plan, "route.pivot@hose");
  EXPECT_EQ(finding.verdict, Verdict::stop);
  EXPECT_TRUE(says(finding, "route.pivot_short"));
}

}  // namespace
}  // namespace cotter::plan
