// What an answer of an engine becomes: holds, fails or open; guarded or not; vouched for or not; inside the wish or
// not.
#include <gtest/gtest.h>

#include "plan/finding_parts.hpp"
#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using model::Guards;
using model::Verdict;
using quantity::OriginKind;

enum class Answer { holds, fails_low, fails_high, open };

struct Row {
  Answer answer;
  Guards guards;
  OriginKind origin;  ///< of one of the two values
  bool within_wish;
  Verdict fit;    ///< rule: below = rework, above = stop
  Verdict stack;  ///< form: below = stop, above = add
};

// Written from the rules of the issue, not from the program: nothing that guards life is ok on an assumed value.
const std::vector<Row> k_rows = {
    {Answer::holds, Guards::nothing, OriginKind::maker, true, Verdict::ok, Verdict::ok},
    {Answer::holds, Guards::nothing, OriginKind::measured, true, Verdict::ok, Verdict::ok},
    {Answer::holds, Guards::nothing, OriginKind::standard, true, Verdict::ok, Verdict::ok},
    {Answer::holds, Guards::nothing, OriginKind::assumed, true, Verdict::ok, Verdict::ok},
    {Answer::holds, Guards::nothing, OriginKind::maker, false, Verdict::accept, Verdict::accept},
    {Answer::holds, Guards::nothing, OriginKind::assumed, false, Verdict::accept, Verdict::accept},
    {Answer::holds, Guards::steering, OriginKind::maker, true, Verdict::ok, Verdict::ok},
    {Answer::holds, Guards::steering, OriginKind::maker, false, Verdict::accept, Verdict::accept},
    {Answer::holds, Guards::brake, OriginKind::assumed, true, Verdict::measure, Verdict::measure},
    {Answer::holds, Guards::steering, OriginKind::assumed, true, Verdict::measure, Verdict::measure},
    {Answer::holds, Guards::axle, OriginKind::assumed, false, Verdict::measure, Verdict::measure},
    {Answer::holds, Guards::insertion, OriginKind::unknown, true, Verdict::measure, Verdict::measure},
    {Answer::holds, Guards::pressure, OriginKind::assumed, true, Verdict::measure, Verdict::measure},
    {Answer::holds, Guards::composite, OriginKind::assumed, true, Verdict::measure, Verdict::measure},
    {Answer::open, Guards::nothing, OriginKind::maker, true, Verdict::measure, Verdict::measure},
    {Answer::open, Guards::steering, OriginKind::maker, true, Verdict::measure, Verdict::measure},
    {Answer::open, Guards::nothing, OriginKind::unknown, true, Verdict::measure, Verdict::measure},
    {Answer::fails_low, Guards::nothing, OriginKind::maker, true, Verdict::rework, Verdict::stop},
    {Answer::fails_low, Guards::brake, OriginKind::assumed, true, Verdict::rework, Verdict::stop},
    {Answer::fails_high, Guards::nothing, OriginKind::maker, true, Verdict::stop, Verdict::add},
    {Answer::fails_high, Guards::axle, OriginKind::unknown, true, Verdict::stop, Verdict::add},
};

/// Bore that gives the answer on a cup of 46.000 with the window 0.010 to 0.100.
quantity::Value bore_for(const Row& row) {
  switch (row.answer) {
    case Answer::holds:
      return length(46'050, 5, row.origin);
    case Answer::fails_low:
      return length(45'990, 5, row.origin);
    case Answer::fails_high:
      return length(46'200, 5, row.origin);
    case Answer::open:
      return length(46'010, 8, row.origin);
  }
  return length(0);
}

/// Spindle that gives the answer on 86.5 of shell and twice 1.0 of cup with the window 0 to 0.5.
quantity::Value spindle_for(const Row& row) {
  switch (row.answer) {
    case Answer::holds:
      return length(88'800, 20, row.origin);
    case Answer::fails_low:
      return length(88'000, 20, row.origin);
    case Answer::fails_high:
      return length(90'000, 20, row.origin);
    case Answer::open:
      return length(88'500, 200, row.origin);
  }
  return length(0);
}

TEST(Verdict, FitFollowsTheTable) {
  for (const Row& row : k_rows) {
    SmallBicycle small;
    small.rule().guards = row.guards;
    small.part("frame").interfaces["shell"].values["bore"] = bore_for(row);
    if (!row.within_wish) small.rule().should = {length(90), std::nullopt};
    EXPECT_EQ(finding_in(small.plan(), "cup_in_shell@").verdict, row.fit) << &row - k_rows.data();
  }
}

TEST(Verdict, StackFollowsTheTable) {
  for (const Row& row : k_rows) {
    SmallBicycle small;
    small.form().guards = row.guards;
    small.part("crank").interfaces["spindle"].values["length"] = spindle_for(row);
    if (!row.within_wish) small.form().should = {length(450), std::nullopt};
    EXPECT_EQ(finding_in(small.plan(), "spindle.gap@").verdict, row.stack) << &row - k_rows.data();
  }
}

TEST(Verdict, WhenHeldByHand) {
  EXPECT_EQ(verdict_when_held({false, true}, Guards::nothing), Verdict::ok);
  EXPECT_EQ(verdict_when_held({false, false}, Guards::nothing), Verdict::accept);
  EXPECT_EQ(verdict_when_held({true, true}, Guards::nothing), Verdict::ok);
  EXPECT_EQ(verdict_when_held({true, false}, Guards::axle), Verdict::measure);
}

TEST(Verdict, AReportedLengthWithoutAWindowIsAcceptOutsideItsWish) {
  SmallBicycle small;
  small.form().must = {};
  EXPECT_EQ(finding_in(small.plan(), "spindle.gap@").verdict, Verdict::ok);
  small.form().should = {length(450), std::nullopt};
  EXPECT_EQ(finding_in(small.plan(), "spindle.gap@").verdict, Verdict::accept);
}

TEST(Verdict, AGuardedReportedLengthOnAnAssumedValueSaysWhatToMeasureAndThatAnyValueSettlesIt) {
  SmallBicycle small;
  small.form().must = {};
  small.form().guards = Guards::steering;
  small.part("crank").interfaces["spindle"].values["length"] = length(88'800, 20, OriginKind::assumed);
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "spindle.gap@");
  EXPECT_EQ(finding.verdict, Verdict::measure);
  ASSERT_EQ(finding.measurements.size(), 1u);
  EXPECT_EQ(finding.measurements[0].ref.text(), "crank.spindle.length");
  ASSERT_TRUE(finding.measurements[0].holds);
  EXPECT_LE(finding.measurements[0].holds->low().base(), -model::k_open_end);
  EXPECT_GE(finding.measurements[0].holds->high().base(), model::k_open_end);
}

TEST(Verdict, AnUnguardedOkNamesTheAssumedValueItRestsOn) {
  SmallBicycle small;
  small.part("frame").interfaces["shell"].values["bore"] = length(46'050, 5, OriginKind::assumed);
  EXPECT_EQ(finding_in(small.plan(), "cup_in_shell@").rests_on, std::vector<std::string>{"frame, bore (assumed)"});
}

TEST(Verdict, AReworkNamesItsOperationAndPutsItIntoTheOrderOfWork) {
  SmallBicycle small;
  small.part("frame").interfaces["shell"].values["bore"] = length(45'990, 5);
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "cup_in_shell@");
  EXPECT_EQ(finding.operation, "ream_shell");
  EXPECT_EQ(finding.operation_label, "Step ream_shell");
  EXPECT_EQ(finding.margin, -30'000);  // worst corner 45.985 - 46.005 = -0.020, and 0.010 is asked
  EXPECT_TRUE(std::any_of(plan.work.begin(), plan.work.end(),
                          [](const model::WorkStep& step) { return step.operation == "ream_shell"; }));
}

TEST(Verdict, OnlyOneSideOfAJointIsAStopThatNamesBothParts) {
  SmallBicycle small;
  small.part("bracket").interfaces.clear();
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "has_feature@frame.shell,bracket.cup");
  EXPECT_EQ(finding.verdict, Verdict::stop);
  EXPECT_EQ(finding.may_pass, model::MayPass::nobody);
  using Fact = std::pair<std::string, std::string>;
  EXPECT_EQ(finding.facts[1], (Fact{"with", "frame"}));
  EXPECT_EQ(finding.facts[2], (Fact{"without", "bracket"}));
}

TEST(Verdict, UnlikeKindsAreAStop) {
  SmallBicycle small;
  small.part("bracket").interfaces["cup"].kind = "spindle";
  EXPECT_EQ(finding_in(small.plan(), "kinds_meet@frame.shell,bracket.cup").verdict, Verdict::stop);
}

TEST(Verdict, AMissingDimensionIsMeasureWithItsGuideNeverADefault) {
  SmallBicycle small;
  small.part("bracket").interfaces["cup"].values.erase("outside");
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "cup_in_shell@");
  EXPECT_EQ(finding.verdict, Verdict::measure);
  EXPECT_FALSE(finding.result);
  ASSERT_EQ(finding.measurements.size(), 1u);
  EXPECT_EQ(finding.measurements[0].guide.feature, "the outside");
  EXPECT_EQ(finding.measurements[0].tool_label, "digital caliper");
  EXPECT_EQ(finding.measurements[0].ref.text(), "bracket.cup.outside");
}

TEST(Verdict, AMissingTermOfAStackIsMeasureWithItsGuide) {
  SmallBicycle small;
  small.part("bracket").interfaces["cup"].values.erase("stand");
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "spindle.gap@");
  EXPECT_EQ(finding.verdict, Verdict::measure);
  ASSERT_EQ(finding.measurements.size(), 1u);
  EXPECT_EQ(finding.measurements[0].guide.feature, "the stand");
  EXPECT_EQ(finding.measurements[0].ref.text(), "bracket.cup.stand");
}

TEST(Verdict, LimitsOfAPartThatLeaveNoRoomAreSaidNotAFault) {
  // Found by reading: a window whose lower end from one value lies above its upper end from another ended the program.
  SmallBicycle small;
  small.form().must = {};
  small.form().must_from = model::ValueRef{"crank", "spindle", "least"};
  small.form().must_to = model::ValueRef{"crank", "spindle", "most"};
  small.part("crank").interfaces["spindle"].values["least"] = length(400, 200);
  small.part("crank").interfaces["spindle"].values["most"] = length(500, 200);
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "spindle.gap@crank.spindle");
  EXPECT_EQ(finding.verdict, Verdict::measure);
}

// A guarded form whose window came from an assumed value was once ok: only its terms were asked.
TEST(Verdict, AGuardedFormRestedOnALimitThatNobodyVouchesFor) {
  SmallBicycle small;
  small.form().guards = model::Guards::steering;
  small.form().must = {};
  small.form().must_from = model::ValueRef{"crank", "spindle", "least"};
  small.part("crank").interfaces["spindle"].values["least"] = length(-5'000);
  EXPECT_NE(finding_in(small.plan(), "spindle.gap@").verdict, Verdict::measure);
  small.part("crank").interfaces["spindle"].values["least"].origin.kind = quantity::OriginKind::assumed;
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "spindle.gap@");
  EXPECT_EQ(finding.verdict, Verdict::measure);
  ASSERT_EQ(finding.rests_on.size(), 1U);
  ASSERT_FALSE(finding.measurements.empty());
  EXPECT_EQ(finding.measurements.back().ref.text(), "crank.spindle.least");
}

TEST(Verdict, WindowFromAPartTakesTheSafeSideOfBothLimits) {
  SmallBicycle small;
  small.form().must = {};
  small.form().must_from = model::ValueRef{"crank", "spindle", "least"};
  small.form().must_to = model::ValueRef{"crank", "spindle", "most"};
  small.part("crank").interfaces["spindle"].values["least"] = length(100, 20);
  small.part("crank").interfaces["spindle"].values["most"] = length(500, 20);
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "spindle.gap@");
  ASSERT_TRUE(finding.must);
  EXPECT_EQ(finding.must->low().base(), 120'000);
  EXPECT_EQ(finding.must->high().base(), 480'000);
}

}  // namespace
}  // namespace cotter::plan
