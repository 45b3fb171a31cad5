// What a change did: every kind of change once, on the smallest bicycle that has them all.
#include "plan/compare.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using model::FindingChange;
using model::PlanDifference;
using Kind = FindingChange::Kind;

PlanDifference difference_of(const SmallBicycle& before, const SmallBicycle& after) {
  return compare(before.plan(), after.plan(), {before.job.sheet.aliases, after.job.sheet.aliases});
}

const FindingChange* change_of(const PlanDifference& difference, const std::string& rule) {
  for (const FindingChange& change : difference.findings)
    if ((change.after ? change.after : change.before)->rule == rule) return &change;
  return nullptr;
}

TEST(Compare, APlanWithItselfDiffersInNothing) {
  const SmallBicycle small;
  const PlanDifference difference = difference_of(small, small);
  EXPECT_TRUE(difference.findings.empty());
  EXPECT_TRUE(difference.parts.empty());
  EXPECT_TRUE(difference.orders.empty());
  EXPECT_TRUE(difference.runs.empty());
  EXPECT_TRUE(difference.cuts.empty());
  EXPECT_TRUE(difference.steps.empty());
  EXPECT_EQ(difference.totals_before, difference.totals_after);
}

TEST(Compare, AWorseVerdictComesFirstWithBothNumbers) {
  SmallBicycle before;
  before.rule().below = {model::Outcome::Kind::stop, "", ""};
  SmallBicycle after = before;
  after.part("frame").interfaces["shell"].values["bore"] = length(44'000, 5);
  const PlanDifference difference = difference_of(before, after);
  ASSERT_FALSE(difference.findings.empty());
  const FindingChange& first = difference.findings.front();
  EXPECT_EQ(first.kind, Kind::worse);
  EXPECT_EQ(first.after->rule, "cup_in_shell");
  EXPECT_EQ(first.before->verdict, model::Verdict::ok);
  EXPECT_GT(first.before->margin, first.after->margin);
  EXPECT_GT(difference.stops, 0u);
  const PlanDifference back = difference_of(after, before);
  EXPECT_EQ(change_of(back, "cup_in_shell")->kind, Kind::better);
  EXPECT_EQ(back.stops, 0u);
}

TEST(Compare, TheSameVerdictWithLessRoomIsSaidToo) {
  const SmallBicycle before;
  SmallBicycle after;
  auto& bore = after.part("frame").interfaces["shell"].values["bore"];
  bore.nominal -= 1'000;
  const PlanDifference difference = difference_of(before, after);
  const FindingChange* change = change_of(difference, "cup_in_shell");
  ASSERT_NE(change, nullptr);
  const bool less = change->after->margin < change->before->margin;
  EXPECT_EQ(change->kind, less ? Kind::worse_margin : Kind::better_margin);
}

TEST(Compare, AnEmptiedPlaceIsAPartGoneAndAFindingNew) {
  const SmallBicycle before;
  SmallBicycle after;
  after.empty("bracket");
  const PlanDifference difference = difference_of(before, after);
  ASSERT_EQ(difference.parts.size(), 1u);
  EXPECT_FALSE(difference.parts[0].before->open);
  EXPECT_TRUE(difference.parts[0].after->open);
  const FindingChange* open = change_of(difference, "place_filled");
  ASSERT_NE(open, nullptr);
  EXPECT_EQ(open->kind, Kind::appeared);
  EXPECT_EQ(change_of(difference, "cup_in_shell")->kind, Kind::disappeared);
  EXPECT_EQ(difference.orders.size(), 1u);
}

TEST(Compare, ARenamedPlaceIsTheSameBothWays) {
  const SmallBicycle before;
  SmallBicycle after;
  for (model::Place& place : after.job.sheet.places)
    if (place.id == "frame") place.id = "chassis";
  after.job.sheet.aliases = {{"frame", "chassis"}};
  for (const auto& difference : {difference_of(before, after), difference_of(after, before)}) {
    EXPECT_TRUE(difference.findings.empty());
    EXPECT_TRUE(difference.parts.empty());
    EXPECT_TRUE(difference.runs.empty());
  }
}

TEST(Compare, ADecisionMadeAndLapsed) {
  SmallBicycle before;
  before.rule().should = {length(70), std::nullopt};
  SmallBicycle after = before;
  const model::Finding finding = finding_in(before.plan(), "cup_in_shell@");
  after.job.decisions = {{finding.id, "A. Builder", "2026-05-03", "it will do", finding.margin}};
  EXPECT_EQ(change_of(difference_of(before, after), "cup_in_shell")->kind, Kind::signed_for);
  EXPECT_EQ(change_of(difference_of(after, before), "cup_in_shell")->kind, Kind::lapsed);
}

TEST(Compare, MassPriceAndMinutesAddUp) {
  SmallBicycle before;
  before.part("bracket").mass = quantity::Value{};
  before.part("bracket").mass->nominal = 92'000;
  before.part("bracket").price = model::Price{5400, "EUR"};
  SmallBicycle after = before;
  after.part("bracket").mass->nominal = 80'000;
  after.part("bracket").price = model::Price{6000, "EUR"};
  after.catalog.work.operations.front().minutes += 250;
  const PlanDifference difference = difference_of(before, after);
  EXPECT_EQ(difference.totals_after.mass - difference.totals_before.mass, -12'000);
  EXPECT_EQ(difference.totals_after.price.at("EUR") - difference.totals_before.price.at("EUR"), 600);
  EXPECT_EQ(difference.totals_after.minutes - difference.totals_before.minutes, 250);
  EXPECT_EQ(difference.steps.size(), 1u);
}

RC_GTEST_PROP(Compare, TheWayBackHasTheSameChangesTurnedRound, ()) {
  SmallBicycle one, other;
  one.part("frame").interfaces["shell"].values["bore"] = length(*rc::gen::inRange(45'900, 46'100), 5);
  other.part("frame").interfaces["shell"].values["bore"] = length(*rc::gen::inRange(45'900, 46'100), 5);
  const PlanDifference there = difference_of(one, other), back = difference_of(other, one);
  RC_ASSERT(there.findings.size() == back.findings.size());
  const auto count = [](const PlanDifference& difference, Kind kind) {
    return std::count_if(difference.findings.begin(), difference.findings.end(),
                         [&](const FindingChange& change) { return change.kind == kind; });
  };
  RC_ASSERT(count(there, Kind::worse) == count(back, Kind::better));
  RC_ASSERT(count(there, Kind::worse_margin) == count(back, Kind::better_margin));
  RC_ASSERT(count(there, Kind::appeared) == count(back, Kind::disappeared));
}

}  // namespace
}  // namespace cotter::plan
