// What pressing two parts together adds to a finding, and what a maker's limit on the stress makes of its verdict.
#include <gtest/gtest.h>

#include "plan/fit/fit_findings.hpp"
#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using model::Guards;
using model::OperandRef;
using model::Verdict;

quantity::Value megapascals(std::int64_t amount, std::int64_t plus_minus = 0) {
  quantity::Value value = length(amount * 1000, plus_minus * 1000);
  value.dimension = quantity::Dimension::pressure;
  return value;
}

/// A cup 46.04 in a bore 46.00, walls of 3 and 2, ten long, both of aluminium.
SmallBicycle pressed() {
  SmallBicycle small;
  const auto add = [&](const std::string& kind, const std::string& id, quantity::Dimension dimension) {
    model::KindDimension one = small.catalog.kinds[kind].dimensions.front();
    one.id = one.label = id;
    one.dimension = dimension;
    small.catalog.kinds[kind].dimensions.push_back(one);
  };
  for (const char* id : {"outside", "metal"}) add("shell", id, quantity::Dimension::length);
  add("shell", "most_stress", quantity::Dimension::pressure);
  for (const char* id : {"inside", "deep"}) add("cup", id, quantity::Dimension::length);
  small.catalog.kinds["shell"].words = {{"metal", "metal around the bore", {"steel", "aluminium"}, false}};
  model::Interface& shell = small.part("frame").interfaces["shell"];
  shell.values["bore"] = length(46'000, 5);
  shell.values["outside"] = length(52'000, 100);
  shell.words["metal"] = "aluminium";
  model::Interface& cup = small.part("bracket").interfaces["cup"];
  cup.values["outside"] = length(46'040, 5);
  cup.values["inside"] = length(42'000, 20);
  cup.values["deep"] = length(10'000, 100);
  const auto ref = [](OperandRef::Side side, const char* name) { return OperandRef{side, name, {}}; };
  model::PressRule press;
  press.operands = {{"outer", ref(OperandRef::Side::own, "outside")},
                    {"inner", ref(OperandRef::Side::other, "inside")},
                    {"length", ref(OperandRef::Side::other, "deep")},
                    {"most_stress", ref(OperandRef::Side::own, "most_stress")}};
  press.hub = {OperandRef::Side::own, "metal"};
  press.shaft = {OperandRef::Side::fixed, "aluminium"};
  press.friction_low = 50'000;
  press.friction_high = 200'000;
  small.rule().press = press;
  small.rule().must = {length(-100), length(-10)};
  return small;
}

model::Interface& shell_of(SmallBicycle& small) {
  return small.part("frame").interfaces["shell"];
}

model::Finding finding_of(const SmallBicycle& small) {
  return finding_in(small.plan(), "cup_in_shell@");
}

TEST(PressFinding, ShowsPressureForceStressAndLossWithoutALimit) {
  const model::Finding finding = finding_of(pressed());
  EXPECT_EQ(finding.verdict, Verdict::ok);
  ASSERT_TRUE(finding.press);
  ASSERT_EQ(finding.press->steps.size(), 8);
  EXPECT_TRUE(finding.press->missing.empty());
  EXPECT_TRUE(finding.press->rests_on.empty());
  // By hand with 70 GPa and 0.33 on both sides, where Poisson's ratio cancels: H = 4820/588, S = 3880/352,
  // p = 0.04/46 x 70 000 / (8.197 + 11.023) = 3.167 MPa; p H = 25.96; m p pi 46 x 10 at 0.1: 457.7 N;
  // 42 x 3.167 x 12.023 / 70 000 = 0.02285 mm.
  const auto holds = [&](std::size_t step, std::int64_t base) {
    return finding.press->steps[step].range.contains(quantity::Mixed::from_base(base));
  };
  EXPECT_TRUE(holds(1, 3'167'000));
  EXPECT_TRUE(holds(2, 25'960'000));
  EXPECT_TRUE(holds(4, 457'700));
  EXPECT_TRUE(holds(6, 22'850));
  EXPECT_FALSE(holds(1, 2 * 3'167'000));
  EXPECT_FALSE(holds(2, 25'960'000 / 2));
}

TEST(PressFinding, SaysWhatNoPartStatesAndInventsNothing) {
  SmallBicycle small = pressed();
  shell_of(small).values.erase("outside");
  shell_of(small).words.erase("metal");
  const model::Finding finding = finding_of(small);
  EXPECT_EQ(finding.verdict, Verdict::ok);
  EXPECT_TRUE(finding.press->steps.empty());
  EXPECT_EQ(finding.press->missing, (std::vector<std::string>{"frame, outside", "frame, metal around the bore"}));
}

TEST(PressFinding, AStressAboveTheLimitStopsAndNobodyMayPassIt) {
  SmallBicycle small = pressed();
  shell_of(small).values["most_stress"] = megapascals(10);
  const model::Finding finding = finding_of(small);
  EXPECT_EQ(finding.verdict, Verdict::stop);
  EXPECT_EQ(finding.may_pass, model::MayPass::nobody);
  shell_of(small).values["most_stress"] = megapascals(100);
  EXPECT_EQ(finding_of(small).verdict, Verdict::ok);
}

TEST(PressFinding, AStressThatMayExceedTheLimitIsMeasured) {
  SmallBicycle small = pressed();
  shell_of(small).values["most_stress"] = megapascals(26);
  const model::Finding finding = finding_of(small);
  EXPECT_EQ(finding.verdict, Verdict::measure);
  EXPECT_EQ(finding.measurements.size(), 2);
}

TEST(PressFinding, ALimitWithoutAStressIsMeasured) {
  SmallBicycle small = pressed();
  shell_of(small).values["most_stress"] = megapascals(100);
  shell_of(small).values.erase("outside");
  EXPECT_EQ(finding_of(small).verdict, Verdict::measure);
}

TEST(PressFinding, ACompositeBoreIsNeverOkOnWhatIsAssumed) {
  SmallBicycle small = pressed();
  small.rule().guards = Guards::composite;
  small.rule().may_pass = model::MayPass::nobody;
  small.rule().press->hub = {OperandRef::Side::fixed, "composite"};
  EXPECT_TRUE(finding_of(small).press->composite);
  EXPECT_EQ(finding_of(small).press->rests_on, std::vector<std::string>{"elastic constants of composite"});
  // The limit lies far above the stress, but the stress rests on constants from memory.
  shell_of(small).values["most_stress"] = megapascals(900);
  EXPECT_EQ(finding_of(small).verdict, Verdict::measure);
  shell_of(small).values.erase("most_stress");
  shell_of(small).values["bore"] = length(46'000, 5, quantity::OriginKind::assumed);
  EXPECT_EQ(finding_of(small).verdict, Verdict::measure);
}

TEST(PressFinding, NoNumbersWhereAWallIsGoneOrTheRangeIsTooWide) {
  SmallBicycle small = pressed();
  shell_of(small).values["outside"] = length(46'000);
  EXPECT_EQ(finding_of(small).press->note, "press.no_wall");
  small = pressed();
  shell_of(small).values["bore"] = length(45'000, 1'000);
  EXPECT_EQ(finding_of(small).press->note, "press.too_much");
  EXPECT_TRUE(finding_of(small).press->steps.empty());
}

TEST(PressRule, OnlyABoreOnAShaftCanBePressed) {
  SmallBicycle small = pressed();
  EXPECT_TRUE(rule_faults(small.catalog).empty());
  small.rule().press->operands.erase("outer");
  ASSERT_EQ(rule_faults(small.catalog).size(), 1);
  EXPECT_EQ(rule_faults(small.catalog)[0].message, "pressing needs the operand outer");
  small = pressed();
  small.rule().law = "difference";
  small.rule().operands = {{"a", small.rule().operands["bore"]}, {"b", small.rule().operands["shaft"]}};
  ASSERT_EQ(rule_faults(small.catalog).size(), 1);
  EXPECT_EQ(rule_faults(small.catalog)[0].message, "only a bore on a shaft can be pressed");
}

}  // namespace
}  // namespace cotter::plan
