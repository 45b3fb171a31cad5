// A stack in which one length stops: the pieces of its other lengths are still named.
#include <gtest/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

/// A second gap in the same stack that no piece can mend, because no slot counts for it.
void add_hopeless_gap(SmallBicycle& small) {
  model::StackDefinition& stack = small.catalog.bicycles.begin()->second.stacks.front();
  model::StackForm other = stack.forms.front();
  other.id = "reach";
  other.label = "reach";
  other.slots.clear();
  other.must = {length(900'000), std::nullopt};
  other.should = {};
  other.below = {model::Outcome::Kind::stop, "", "Too short."};
  stack.forms.push_back(other);
}

/// 89.6 - 86.5 - 2 x 1.0 = 1.1 mm, of which one piece of 0.75 leaves 0.35; the window is 0 to 0.5.
SmallBicycle that_wants_a_piece() {
  SmallBicycle small;
  small.part("crank").interfaces["spindle"].values["length"] = length(89'600, 20);
  small.job.sheet.shop.kit = {{"spacer_075", "spacer 0.75", "spacer", length(750), 1}};
  return small;
}

TEST(StackRelaxed, AFormThatStopsLeavesTheOthersTheirPieces) {
  SmallBicycle small = that_wants_a_piece();
  const model::Finding alone = finding_in(small.plan(), "spindle.gap");
  ASSERT_FALSE(alone.additions.empty()) << "the small bicycle's gap wants pieces";
  add_hopeless_gap(small);
  const model::Plan plan = small.plan();
  EXPECT_EQ(finding_in(plan, "spindle.reach").verdict, model::Verdict::stop);
  const model::Finding& gap = finding_in(plan, "spindle.gap");
  ASSERT_EQ(gap.additions.size(), alone.additions.size());
  EXPECT_EQ(gap.additions.front().id, alone.additions.front().id);
  EXPECT_EQ(gap.result, alone.result);
}

TEST(StackRelaxed, AFormThatSharesPiecesWithOneThatStopsSaysSoInsteadOfAskingForAMeasurement) {
  SmallBicycle small = that_wants_a_piece();
  add_hopeless_gap(small);
  model::StackDefinition& stack = small.catalog.bicycles.begin()->second.stacks.front();
  stack.forms.back().slots = stack.forms.front().slots;
  stack.forms.front().guards = model::Guards::brake;
  const model::Plan plan = small.plan();
  const model::Finding& gap = finding_in(plan, "spindle.gap");
  EXPECT_EQ(gap.verdict, model::Verdict::measure);
  EXPECT_TRUE(gap.measurements.empty());
  EXPECT_TRUE(gap.rests_on.empty());
  ASSERT_FALSE(gap.facts.empty());
  EXPECT_EQ(gap.facts.front().first, "stack.waits");
  for (const model::NextMeasurement& next : plan.measure_next)
    for (const std::string& finding : next.findings) EXPECT_NE(finding, gap.id);
}

}  // namespace
}  // namespace cotter::plan
