// Pieces from the drawer: how many, how thick, where, and what is said when the drawer has none that will do.
#include <gtest/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using model::Verdict;

model::KitPiece spacer(const std::string& id, std::int64_t thickness_um, std::int64_t count) {
  return {id, "spacer " + id, "spacer", length(thickness_um), count};
}

/// Gap of 1.0 before any spacer: spindle 89.5, shell 86.5, cups twice 1.0. Window 0 to 0.5.
SmallBicycle with_wide_gap() {
  SmallBicycle small;
  small.part("crank").interfaces["spindle"].values["length"] = length(89'500, 20);
  return small;
}

TEST(Spacers, TheFewestThatPutTheGapInItsWindow) {
  SmallBicycle small = with_wide_gap();
  small.job.sheet.shop.kit = {spacer("quarter", 250, 4), spacer("three_quarters", 750, 1)};
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "spindle.gap@");
  EXPECT_EQ(finding.verdict, Verdict::add);
  ASSERT_EQ(finding.additions.size(), 1u);
  EXPECT_EQ(finding.additions[0].id, "three_quarters");
  EXPECT_EQ(finding.additions[0].count, 1);
  EXPECT_EQ(finding.additions[0].dimension, "0.75 mm thick");
  EXPECT_EQ(finding.additions[0].where, "on the spindle, right");
  EXPECT_TRUE(finding.additions[0].in_kit);
}

TEST(Spacers, CountsOfOnePieceAreTogether) {
  SmallBicycle small = with_wide_gap();
  small.job.sheet.shop.kit = {spacer("quarter", 250, 4)};
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "spindle.gap@");
  ASSERT_EQ(finding.additions.size(), 1u);
  EXPECT_EQ(finding.additions[0].count, 3);
}

TEST(Spacers, AppearInTheWorkingAndTheResultHoldsThem) {
  SmallBicycle small = with_wide_gap();
  small.job.sheet.shop.kit = {spacer("three_quarters", 750, 1)};
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "spindle.gap@");
  EXPECT_EQ(finding.formula, "-2 x cup - right - shell + spindle");
  ASSERT_EQ(finding.values.size(), 4u);
  EXPECT_EQ(finding.values.back().symbol, "right");
  EXPECT_EQ(finding.values.back().value.nominal, 750'000);
  // 89.5 - 86.5 - 2 - 0.75 = 0.25; spreads 0.02 + 0.05 + twice 0.01.
  EXPECT_EQ(finding.result->low().base(), 160'000);
  EXPECT_EQ(finding.result->high().base(), 340'000);
}

TEST(Spacers, NoPieceThatWillDoLeavesWhatTheFormSays) {
  SmallBicycle small = with_wide_gap();
  small.job.sheet.shop.kit = {spacer("thick", 3000, 4)};
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "spindle.gap@");
  EXPECT_EQ(finding.verdict, Verdict::add);
  ASSERT_EQ(finding.additions.size(), 1u);
  EXPECT_EQ(finding.additions[0].what, "spacers");
  EXPECT_FALSE(finding.additions[0].in_kit);
  // 0.91 to 1.09 of gap: at least 1.09 - 0.5, at most 0.91 - 0.
  EXPECT_EQ(finding.additions[0].dimension, "0.59 mm to 0.91 mm in all");
}

TEST(Spacers, OfAnotherKindDoNotGoIntoTheSlot) {
  SmallBicycle small = with_wide_gap();
  small.job.sheet.shop.kit = {spacer("three_quarters", 750, 4)};
  small.job.sheet.shop.kit[0].piece = "shim";
  EXPECT_EQ(finding_in(small.plan(), "spindle.gap@").additions[0].what, "spacers");
}

TEST(Spacers, AreNotAddedWhereTheGapIsRightWithoutThem) {
  SmallBicycle small;
  small.job.sheet.shop.kit = {spacer("quarter", 250, 4)};
  const model::Plan plan = small.plan();
  EXPECT_EQ(finding_in(plan, "spindle.gap@").verdict, Verdict::ok);
  EXPECT_TRUE(finding_in(plan, "spindle.gap@").additions.empty());
}

TEST(Spacers, OnAnAssumedGuardedLengthStayMeasureAndStillNameThePieces) {
  SmallBicycle small = with_wide_gap();
  small.form().guards = model::Guards::axle;
  small.part("crank").interfaces["spindle"].values["length"] = length(89'500, 20, quantity::OriginKind::assumed);
  small.job.sheet.shop.kit = {spacer("three_quarters", 750, 1)};
  const model::Plan plan = small.plan();
  EXPECT_EQ(finding_in(plan, "spindle.gap@").verdict, Verdict::measure);
  EXPECT_EQ(finding_in(plan, "spindle.gap@").additions.size(), 1u);
}

TEST(Spacers, ASawnLengthIsACutWithTheFindingThatShowsIt) {
  SmallBicycle small;
  small.form().cut = true;
  const model::Plan plan = small.plan();
  ASSERT_EQ(plan.cuts.size(), 1u);
  EXPECT_EQ(plan.cuts[0].id, "spindle.gap");
  EXPECT_EQ(plan.cuts[0].finding, finding_in(plan, "spindle.gap@").id);
  EXPECT_EQ(plan.cuts[0].length, *finding_in(plan, "spindle.gap@").result);
}

}  // namespace
}  // namespace cotter::plan
