// What to measure next: two cases worked by hand, brute force, and what a measurement may never do.
#include "plan/measure_next.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using model::Finding;
using model::Measurement;
using model::Verdict;
using quantity::Mixed;
using quantity::OriginKind;
using quantity::Range;

Range um(std::int64_t from, std::int64_t to) {
  return {Mixed::from_base(from * 1000), Mixed::from_base(to * 1000)};
}

/// An open finding on one value; `late` and the guide's minutes in whole minutes.
Finding open_finding(const std::string& id, const model::ValueRef& ref, const quantity::Value& value,
                     const Range& holds, std::int64_t late, std::int64_t minutes) {
  Finding finding;
  finding.id = id;
  finding.verdict = Verdict::measure;
  finding.late = late * 100;
  finding.values = {{"x", ref.dimension, ref.place, ref, value}};
  Measurement measurement;
  measurement.ref = ref;
  measurement.label = ref.text();
  measurement.guide.tool = "caliper";
  measurement.guide.minutes = minutes * 100;
  measurement.holds_at_nominal = holds;
  measurement.below_means = measurement.above_means = "stop";
  finding.measurements = {measurement};
  return finding;
}

const model::ValueRef k_width{"frame", "shell", "width"};
const model::ValueRef k_bore{"frame", "shell", "bore"};

TEST(MeasureNext, NothingIsMeasuredOnTwoPartsThatAreNotMadeForEachOther) {
  Finding thread;
  thread.law = "thread";
  thread.verdict = Verdict::stop;
  thread.subject = "cup, shell";
  thread.rule_label = "thread";
  thread.about = {{"frame", "shell"}, {"bracket", "cup"}};
  Finding chainline = open_finding("chainline", k_width, length(86'500, 500), um(86'100, 86'950), 60, 4);
  chainline.about = {{"frame", "shell"}, {"bracket", "cup"}, {"crank", "spindle"}};
  Finding other = open_finding("other", k_bore, length(46'000, 20), um(45'980, 46'010), 120, 4);
  other.about = {{"frame", "shell"}, {"crank", "spindle"}};
  std::vector<Finding> findings{thread, chainline, other};
  mark_moot_measurements(findings);
  EXPECT_TRUE(findings[1].measurements.empty());
  EXPECT_EQ(findings[1].facts,
            (std::vector<std::pair<std::string, std::string>>{{"measure.moot", ""}, {"what", "cup, shell: thread"}}));
  const auto rows = measure_next(findings, {});
  ASSERT_EQ(rows.size(), 1u);
  EXPECT_EQ(rows[0].ref, k_bore);
}

// By hand. Width 86.5 ±0.5 mm, a range of 1 mm; the finding holds from 86.1 to 86.95, so it changes on 0.10 + 0.05 mm:
// chance 0.15; 60 min late, 4 min to measure: 0.15 x 60 / 4 = 2.25.
// Bore 46.00 ±0.02 mm, a range of 0.04 mm; it holds from 45.98 to 46.01, so it changes on 0.01 mm: chance 0.25;
// 120 min late, 4 min to measure: 0.25 x 120 / 4 = 7.5. The bore is first, though the width is 25 times as uncertain.
TEST(MeasureNext, TheWidestToleranceIsNotFirst) {
  const auto rows = measure_next({open_finding("gap", k_width, length(86'500, 500), um(86'100, 86'950), 60, 4),
                                  open_finding("cup", k_bore, length(46'000, 20), um(45'980, 46'010), 120, 4)},
                                 {});
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(rows[0].ref, k_bore);
  EXPECT_DOUBLE_EQ(rows[0].chance, 0.25);
  EXPECT_DOUBLE_EQ(rows[0].cost, 120);
  EXPECT_DOUBLE_EQ(rows[0].rank, 7.5);
  EXPECT_DOUBLE_EQ(rows[1].chance, 0.15);
  EXPECT_DOUBLE_EQ(rows[1].rank, 2.25);
}

// By hand. One value from 0 to 10 mm, nominal 5, in two findings: the first holds from 0 to 7 (10 min late), the second
// from 4 to 9 (100 min late). Changed: 0..4 by the second (100), 7..9 by the first (10), 9..10 by both (the larger,
// 100). Chance (4 + 2 + 1) / 10 = 0.7; lost 4 x 100 + 2 x 10 + 1 x 100 = 520 over 10, 52 min; 2 min to measure: 26.
// The cost shown is what is lost when it changes: 52 / 0.7.
TEST(MeasureNext, OneValueInTwoFindingsCountsEachStretchOnce) {
  const quantity::Value value = length(5'000, 5'000);
  const auto rows = measure_next({open_finding("first", k_width, value, um(0, 7'000), 10, 2),
                                  open_finding("second", k_width, value, um(4'000, 9'000), 100, 2)},
                                 {});
  ASSERT_EQ(rows.size(), 1u);
  EXPECT_DOUBLE_EQ(rows[0].chance, 0.7);
  EXPECT_DOUBLE_EQ(rows[0].rank, 26);
  EXPECT_DOUBLE_EQ(rows[0].cost, 52 / 0.7);
  EXPECT_EQ(rows[0].findings, (std::vector<std::string>{"first", "second"}));
}

TEST(MeasureNext, AnotherChoiceOfPiecesCountsWithoutAnotherVerdict) {
  Finding finding = open_finding("gap", k_width, length(5'000, 5'000), um(0, 10'000), 60, 3);
  finding.measurements[0].other_choice = {um(6'000, 8'000)};
  const auto rows = measure_next({finding}, {});
  EXPECT_DOUBLE_EQ(rows.at(0).chance, 0.2);
  EXPECT_DOUBLE_EQ(rows.at(0).rank, 4);
}

TEST(MeasureNext, LeavingTheWishIsAChangeToo) {
  Finding finding = open_finding("gap", k_width, length(5'000, 5'000), um(0, 10'000), 60, 3);
  finding.measurements[0].wish_at_nominal = um(4'000, 9'000);
  EXPECT_DOUBLE_EQ(measure_next({finding}, {}).at(0).chance, 0.5);
}

TEST(MeasureNext, BelowAndAboveAreOneVerdictWhenBothSayTheSame) {
  // Nominal 2 lies below 4..6; only 4..6 says anything else.
  quantity::Value value = length(2'000);
  value.lower = -2'000'000;
  value.upper = 8'000'000;
  Finding finding = open_finding("gap", k_width, value, um(4'000, 6'000), 60, 3);
  EXPECT_DOUBLE_EQ(measure_next({finding}, {}).at(0).chance, 0.2);
  finding.measurements[0].above_means = "add";
  EXPECT_DOUBLE_EQ(measure_next({finding}, {}).at(0).chance, 0.6);
}

TEST(MeasureNext, WhatNoOutcomeChangesHasNoChanceAndComesLast) {
  const auto rows = measure_next({open_finding("sure", k_width, length(5'000, 5'000), um(-1'000, 11'000), 900, 1),
                                  open_finding("open", k_bore, length(5'000, 5'000), um(0, 9'000), 1, 90)},
                                 {});
  EXPECT_EQ(rows.at(0).ref, k_bore);
  EXPECT_EQ(rows.at(1).chance, 0);
  EXPECT_EQ(rows.at(1).rank, 0);
}

TEST(MeasureNext, AValueThatNobodyStatesIsAFirstAnswer) {
  Finding finding = open_finding("gap", k_width, length(0), um(0, 1), 60, 3);
  finding.values.clear();
  EXPECT_DOUBLE_EQ(measure_next({finding}, {}).at(0).chance, 1);
}

TEST(MeasureNext, NamesTheToolOfTheShopAndWhatItResolves) {
  model::Shop shop;
  shop.tools = {{"caliper_1", "digital caliper", "caliper", "0.05 mm"}};
  Finding finding = open_finding("gap", k_width, length(5'000, 5'000), um(0, 9'000), 60, 3);
  EXPECT_EQ(measure_next({finding}, shop).at(0).tool_resolution, "0.05 mm");
  EXPECT_EQ(measure_next({finding}, {}).at(0).tool_resolution, "");
}

/// One spacer of 0.5 mm fills what an empty slot leaves too wide.
SmallBicycle with_a_spacer() {
  SmallBicycle small;
  small.job.sheet.shop.kit = {{"spacer_05", "spacer 0.5", "spacer", length(500), 4}};
  small.part("frame").interfaces["shell"].values["width"] = length(86'500);
  small.part("bracket").interfaces["cup"].values["stand"] = length(1'000);
  return small;
}

// By hand. Spindle 88.8 ±0.4 mm less shell 86.5 and twice 1.0: gap -0.1 to 0.7 mm, must be 0 to 0.5. Below 88.5 the gap
// fails; above 89.0 one spacer is taken in the place of none. (0.1 + 0.2) / 0.8 = 0.375.
TEST(MeasureNext, TheStackSaysWhereItWouldChooseOtherwise) {
  SmallBicycle small = with_a_spacer();
  small.form().late = 6000;
  small.part("crank").interfaces["spindle"].values["length"] = length(88'800, 400);
  const model::Plan plan = small.plan();
  const Finding& gap = finding_in(plan, "spindle.gap@");
  ASSERT_EQ(gap.verdict, Verdict::measure);
  ASSERT_EQ(gap.measurements.at(0).other_choice.size(), 1u);
  const Range other = gap.measurements[0].other_choice[0];
  EXPECT_NEAR(static_cast<double>(other.low().base()), 89.0e6, 1000);
  EXPECT_EQ(other.high().base(), 89'200'000);
  ASSERT_EQ(plan.measure_next.size(), 1u);
  EXPECT_NEAR(plan.measure_next[0].chance, 0.375, 1e-5);
  EXPECT_EQ(plan.measure_next[0].cost, 60);
  // The guide of this small catalog says 2 minutes.
  EXPECT_NEAR(plan.measure_next[0].rank, 0.375 * 60 / 2, 1e-3);
}

TEST(MeasureNext, ASpoiltPartCountsAsTimeAtTheShopsRate) {
  SmallBicycle small = with_a_spacer();
  small.form().late = 6000;
  small.form().spoils = "crank";
  small.part("crank").price = model::Price{31'000, "EUR"};
  small.job.sheet.shop.rate_hundredths = 6'200;
  small.job.sheet.shop.currency = "EUR";
  // 310 at 62 an hour is 5 hours; with the hour of work 6 hours.
  EXPECT_EQ(finding_in(small.plan(), "spindle.gap@").late, 36'000);
  small.job.sheet.shop.currency = "CHF";
  EXPECT_EQ(finding_in(small.plan(), "spindle.gap@").late, 6'000);
}

/// The other value is exact, so that what a measurement brings is what the plan of the measured bicycle says.
RC_GTEST_PROP(MeasureNext, ChanceIsTheShareOfPlansThatSayOtherwise, ()) {
  const std::int64_t width = *rc::gen::inRange(20, 90), low = 40 - *rc::gen::inRange<std::int64_t>(1, width);
  SmallBicycle small;
  small.rule().must = {length(0), length(0)};
  small.rule().must.from->nominal = 40;
  small.rule().must.to->nominal = 40 + *rc::gen::inRange(0, 60);
  small.part("bracket").interfaces["cup"].values["outside"] = length(0);
  quantity::Value& bore = small.part("frame").interfaces["shell"].values["bore"];
  bore = length(0, 0, OriginKind::assumed);
  bore.nominal = low + width / 2;
  bore.lower = low - bore.nominal;
  bore.upper = low + width - bore.nominal;
  const std::int64_t nominal = bore.nominal;
  const model::Plan plan = small.plan();
  if (finding_in(plan, "cup_in_shell@").verdict != Verdict::measure) RC_DISCARD("decided");
  const auto verdict_at = [&](std::int64_t at) {
    bore = length(0, 0, OriginKind::measured);
    bore.nominal = at;
    return finding_in(small.plan(), "cup_in_shell@").verdict;
  };
  const Verdict today = verdict_at(nominal);
  std::int64_t other = 0;
  for (std::int64_t at = low; at < low + width; ++at) other += verdict_at(at) == today ? 0 : 1;
  const double share = static_cast<double>(other) / static_cast<double>(width);
  // Whole nanometres against a continuous range: each of two limits may be off by one of them.
  RC_ASSERT(std::abs(plan.measure_next.at(0).chance - share) <= 2.0 / static_cast<double>(width) + 1e-12);
}

std::size_t open_findings(const model::Plan& plan) {
  return model::count(plan, Verdict::measure);
}

RC_GTEST_PROP(MeasureNext, MeasuringTheNominalNeverOpensAnything, ()) {
  SmallBicycle small;
  small.job.sheet.shop.kit = {{"spacer_05", "spacer 0.5", "spacer", length(500), 4},
                              {"spacer_03", "spacer 0.3", "spacer", length(300), 2}};
  const auto some = [](std::int64_t nominal_um, std::int64_t spread_um) {
    const auto kind = *rc::gen::element(OriginKind::maker, OriginKind::assumed, OriginKind::unknown);
    return length(nominal_um + *rc::gen::inRange<std::int64_t>(-spread_um, spread_um),
                  *rc::gen::inRange<std::int64_t>(0, spread_um), kind);
  };
  auto& shell = small.part("frame").interfaces["shell"].values;
  auto& cup = small.part("bracket").interfaces["cup"].values;
  auto& spindle = small.part("crank").interfaces["spindle"].values;
  shell = {{"bore", some(46'050, 60)}, {"width", some(86'500, 400)}};
  cup = {{"outside", some(46'000, 60)}, {"stand", some(1'000, 200)}};
  spindle = {{"length", some(88'800, 600)}};
  if (*rc::gen::arbitrary<bool>()) small.rule().guards = small.form().guards = model::Guards::axle;
  const model::Plan before = small.plan();
  for (const model::NextMeasurement& next : before.measure_next) {
    auto& values = next.ref.interface == "shell" ? shell : next.ref.interface == "cup" ? cup : spindle;
    const quantity::Value was = values.at(next.ref.dimension);
    values.at(next.ref.dimension) = length(0, 0, OriginKind::measured);
    values.at(next.ref.dimension).nominal = was.nominal;
    RC_ASSERT(open_findings(small.plan()) <= open_findings(before));
    values.at(next.ref.dimension) = was;
  }
}

}  // namespace
}  // namespace cotter::plan
