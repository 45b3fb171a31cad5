#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "checks.hpp"

namespace cotter::engine::fit {
namespace {

using namespace testing;

Check press(std::int64_t bore_low, std::int64_t bore_high, std::int64_t shaft_low, std::int64_t shaft_high,
            Window must) {
  return check(Law::bore_on_shaft, {um("bore", bore_low, bore_high), um("shaft", shaft_low, shaft_high)}, must);
}

TEST(BoreOnShaft, IsDiametralClearanceOfTheLimits) {
  // 46.00 to 46.02 on 46.05 to 46.07: 46.00 - 46.07 = -0.07 and 46.02 - 46.05 = -0.03.
  const CheckResult result = judge(press(46'000, 46'020, 46'050, 46'070, um_window(-150, -10)));
  EXPECT_EQ(result_um(result), std::pair(-70L, -30L));
  EXPECT_EQ(result.must, Certainty::holds);
  EXPECT_EQ(result.margin, 20'000) << "-0.03 is 0.02 mm away from -0.01";
  EXPECT_EQ(result.governs, Edge::to);
  EXPECT_EQ(result.formula, "bore - shaft");
  EXPECT_EQ(result.dimension, Dimension::length);
}

TEST(BoreOnShaft, AHundredthEitherSideOfTheLimitFlipsIt) {
  const auto verdict = [](std::int64_t shaft) { return judge(press(41'000, 41'000, shaft, shaft, to_um(-10))); };
  EXPECT_EQ(verdict(41'010).must, Certainty::holds) << "equal to the limit passes";
  EXPECT_EQ(verdict(41'010).margin, 0);
  EXPECT_EQ(verdict(41'020).must, Certainty::holds);
  EXPECT_EQ(verdict(41'000).must, Certainty::fails);
  EXPECT_TRUE(verdict(41'000).too_high);
  EXPECT_FALSE(verdict(41'000).too_low);
  EXPECT_EQ(verdict(41'000).margin, -10'000);
}

TEST(BoreOnShaft, OneNanometreBeyondTheLimitFails) {
  Check tight = press(41'000, 41'000, 41'010, 41'010, to_um(-10));
  tight.operands[1].range = Range(Mixed::from_base(41'009'999));
  EXPECT_EQ(judge(tight).must, Certainty::fails);
  EXPECT_EQ(judge(tight).margin, -1);
}

TEST(BoreOnShaft, IsOpenWhenOnlySomeOfTheLimitsPass) {
  const CheckResult result = judge(press(30'000, 30'000, 29'950, 30'050, um_window(0, 100)));
  EXPECT_EQ(result.must, Certainty::open);
  EXPECT_FALSE(result.too_low);
  EXPECT_EQ(result.margin, -50'000) << "the worst case is short by 0.05";
  EXPECT_EQ(result.governs, Edge::from);
  ASSERT_TRUE(result.probability);
  EXPECT_DOUBLE_EQ(*result.probability, 0.5);
}

TEST(BoreOnShaft, SaysWhichShaftsWouldDo) {
  const CheckResult result = judge(press(30'000, 30'020, 29'900, 30'100, um_window(0, 50)));
  const Influence& shaft = influence(result, "shaft");
  // Whatever the bore: 30.000 - shaft >= 0 and 30.020 - shaft <= 0.05.
  EXPECT_EQ(shaft.holds, Range(Mixed::from_base(29'970'000), Mixed::from_base(30'000'000)));
  EXPECT_EQ(shaft.may_hold, Range(Mixed::from_base(29'950'000), Mixed::from_base(30'020'000)));
  EXPECT_NEAR(shaft.share, 200.0 / 220.0, 1e-12);
}

TEST(BoreOnShaft, NoShaftWillDoForCertainWhenTheBoreAloneIsWiderThanTheWindow) {
  const CheckResult result = judge(press(30'000, 30'200, 29'900, 30'100, um_window(0, 50)));
  EXPECT_EQ(influence(result, "shaft").holds, std::nullopt);
  EXPECT_TRUE(influence(result, "shaft").may_hold);
}

TEST(BoreOnShaft, WithoutAWindowThereIsNothingToFail) {
  const CheckResult result = judge(press(30'000, 30'020, 29'900, 30'100, {}));
  EXPECT_EQ(result.must, Certainty::holds);
  EXPECT_EQ(result.governs, Edge::none);
  EXPECT_EQ(result.probability, std::nullopt);
}

TEST(BoreOnShaft, ShouldIsJudgedApartFromMust) {
  Check wide = press(46'000, 46'000, 46'120, 46'120, um_window(-150, -10));
  wide.should = um_window(-100, -30);
  const CheckResult result = judge(wide);
  EXPECT_EQ(result.must, Certainty::holds);
  EXPECT_EQ(result.should, Certainty::fails);
}

TEST(BoreOnShaft, NamesTheOperandsNobodyVouchesForAndGivesUnknownOnesNoProbability) {
  Check unsure = press(30'000, 30'000, 29'900, 30'100, um_window(0, 50));
  unsure.operands[1].attested = false;
  unsure.operands[1].known = false;
  const CheckResult result = judge(unsure);
  EXPECT_EQ(result.rests_on, std::vector<std::string>{"shaft"});
  EXPECT_EQ(result.probability, std::nullopt);
}

RC_GTEST_PROP(BoreOnShaft, ALargerShaftNeverHasMoreClearance, ()) {
  const auto bore = *rc::gen::inRange<std::int64_t>(20'000, 60'000);
  const auto width = *rc::gen::inRange<std::int64_t>(0, 100);
  const auto shaft = *rc::gen::inRange<std::int64_t>(20'000, 60'000);
  const auto step = *rc::gen::inRange<std::int64_t>(1, 1'000);
  const CheckResult thin = judge(press(bore, bore + width, shaft, shaft + width, from_um(0)));
  const CheckResult thick = judge(press(bore, bore + width, shaft + step, shaft + step + width, from_um(0)));
  RC_ASSERT(thick.margin == thin.margin - step * 1000);
  RC_ASSERT(!(thick.must == Certainty::holds && thin.must != Certainty::holds));
}

RC_GTEST_PROP(BoreOnShaft, AMeasuredShaftInsideHoldsHoldsAndOutsideMayHoldFails, ()) {
  const auto bore = *rc::gen::inRange<std::int64_t>(29'000, 31'000);
  const auto bore_width = *rc::gen::inRange<std::int64_t>(0, 80);
  const Window must = um_window(0, *rc::gen::inRange<std::int64_t>(0, 100));
  const CheckResult wide = judge(press(bore, bore + bore_width, 28'000, 32'000, must));
  const auto shaft = *rc::gen::inRange<std::int64_t>(28'000, 32'000);
  const Certainty measured = judge(press(bore, bore + bore_width, shaft, shaft, must)).must;
  const Influence& told = influence(wide, "shaft");
  const bool inside = told.holds && told.holds->contains(nm_of_um(shaft));
  const bool possible = told.may_hold && told.may_hold->contains(nm_of_um(shaft));
  RC_ASSERT((measured == Certainty::holds) == inside);
  RC_ASSERT((measured == Certainty::fails) == !possible);
}

}  // namespace
}  // namespace cotter::engine::fit
