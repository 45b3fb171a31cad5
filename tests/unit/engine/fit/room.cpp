// engagement and radial_room, and the worked cases of the trade that go through them.

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "checks.hpp"

namespace cotter::engine::fit {
namespace {

using namespace testing;

Check bolt(std::int64_t length, std::int64_t through, std::int64_t depth, std::int64_t diameter) {
  Check made = check(Law::engagement,
                     {um("bolt", length), um("through", through), um("depth", depth), um("diameter", diameter)});
  made.parameters["factor_permille"] = 1'500;
  return made;
}

// An M5 bolt through a chainstay 20 thick into a caliper thread 15 deep: one and a half diameters is 7.5.
TEST(Engagement, IsTooShortBelowTheFactorAndTooLongBeyondTheDepth) {
  const CheckResult short_bolt = judge(bolt(25'000, 20'000, 15'000, 5'000));
  EXPECT_EQ(short_bolt.must, Certainty::fails);
  EXPECT_TRUE(short_bolt.too_low);
  EXPECT_EQ(short_bolt.margin, -2'500'000);
  EXPECT_EQ(short_bolt.governs, Edge::from);
  EXPECT_EQ(result_um(short_bolt), std::pair(5000L, 5000L));

  const CheckResult long_bolt = judge(bolt(38'000, 20'000, 15'000, 5'000));
  EXPECT_EQ(long_bolt.must, Certainty::fails);
  EXPECT_TRUE(long_bolt.too_high);
  EXPECT_EQ(long_bolt.margin, -3'500'000);  // half a millimetre stays free at the tip

  const CheckResult right_bolt = judge(bolt(33'000, 20'000, 15'000, 5'000));
  EXPECT_EQ(right_bolt.must, Certainty::holds);
  EXPECT_EQ(right_bolt.margin, 1'500'000);
  EXPECT_EQ(right_bolt.governs, Edge::to);
}

TEST(Engagement, AHundredthFlipsItAtBothEnds) {
  EXPECT_EQ(judge(bolt(27'500, 20'000, 15'000, 5'000)).must, Certainty::holds);
  EXPECT_EQ(judge(bolt(27'490, 20'000, 15'000, 5'000)).must, Certainty::fails);
  EXPECT_EQ(judge(bolt(34'500, 20'000, 15'000, 5'000)).must, Certainty::holds);
  EXPECT_EQ(judge(bolt(34'510, 20'000, 15'000, 5'000)).must, Certainty::fails);
}

TEST(Engagement, NoBoltWillDoInAHoleThatIsTooShallow) {
  // 7 mm of thread where 7.5 are needed: a bolt of unknown length cannot mend that.
  Check shallow = bolt(25'000, 20'000, 7'000, 5'000);
  shallow.operands[0] = um("bolt", 10'000, 60'000);
  const CheckResult result = judge(shallow);
  EXPECT_EQ(result.must, Certainty::fails);
  EXPECT_TRUE(result.too_low && result.too_high);
  EXPECT_EQ(influence(result, "bolt").may_hold, std::nullopt);
}

TEST(Engagement, SaysWhichBoltsWouldDo) {
  Check open = bolt(25'000, 20'000, 15'000, 5'000);
  open.operands[0] = um("bolt", 10'000, 60'000);
  const CheckResult result = judge(open);
  EXPECT_EQ(result.must, Certainty::open);
  EXPECT_EQ(influence(result, "bolt").holds, Range(nm_of_um(27'500), nm_of_um(34'500)));
}

TEST(Engagement, AnExactCountAmongTheOperandsServesAsTheFactor) {
  Check made = bolt(27'500, 20'000, 15'000, 5'000);
  made.parameters.clear();
  made.operands.push_back(count("factor_permille", 1'500));
  EXPECT_EQ(judge(made).must, Certainty::holds);
  made.operands.back() = count("factor_permille", 1'600);
  EXPECT_EQ(judge(made).must, Certainty::fails);
}

Check room(std::int64_t bore, std::int64_t shaft, std::int64_t sleeve, std::int64_t run, Window must) {
  return check(Law::radial_room,
               {um("bore", bore), um("shaft", shaft), um("wall", 0), um("sleeve", sleeve), um("run", run)}, must);
}

// A shell of 33.6 mm inside its threads, a sleeve of 0.8, running clearance 0.5, a wire of 2.6 with 0.3 to spare.
TEST(RadialRoom, A30SpindleLeavesHalfAMillimetreForAWireThatNeedsThree) {
  const CheckResult thick = judge(room(33'600, 30'000, 800, 500, from_um(2'900)));
  EXPECT_EQ(result_um(thick), std::pair(500L, 500L)) << "radius 1.8 less 1.3";
  EXPECT_EQ(thick.must, Certainty::fails);
  EXPECT_EQ(thick.margin, -2'400'000);
  const CheckResult thin = judge(room(33'600, 24'000, 800, 500, from_um(2'900)));
  EXPECT_EQ(result_um(thin), std::pair(3500L, 3500L)) << "radius 4.8 less 1.3";
  EXPECT_EQ(thin.must, Certainty::holds);
}

// A tyre that measures 41.5 between stays 48 apart has 3.25 at each side where 4 are wanted.
TEST(RadialRoom, AWideTyreBetweenStays) {
  const CheckResult result = judge(room(48'000, 41'500, 0, 0, from_um(4'000)));
  EXPECT_EQ(result_um(result), std::pair(3250L, 3250L));
  EXPECT_EQ(result.must, Certainty::fails);
}

TEST(RadialRoom, ADiameterCountsHalf) {
  EXPECT_EQ(judge(room(40'000, 34'000, 0, 0, from_um(3'000))).must, Certainty::holds);
  EXPECT_EQ(judge(room(39'990, 34'000, 0, 0, from_um(3'000))).margin, -5'000);
}

TEST(RadialRoom, AnOddNanometreIsRoundedOutwardAndStillDecidedExactly) {
  Check odd = room(40'000, 34'000, 0, 0, from_um(3'000));
  odd.operands[0].range = Range(Mixed::from_base(39'999'999));
  const CheckResult result = judge(odd);
  EXPECT_EQ(result.must, Certainty::fails);
  EXPECT_EQ(result.result, Range(Mixed::from_base(2'999'999), Mixed::from_base(3'000'000)));
  EXPECT_EQ(result.margin, -1);
}

RC_GTEST_PROP(RadialRoom, AThickerSleeveTakesItsWholeThickness, ()) {
  const auto bore = *rc::gen::inRange<std::int64_t>(30'000, 60'000);
  const auto sleeve = *rc::gen::inRange<std::int64_t>(0, 2'000);
  const auto step = *rc::gen::inRange<std::int64_t>(1, 500);
  const auto before = judge(room(bore, 24'000, sleeve, 500, from_um(0)));
  const auto after = judge(room(bore, 24'000, sleeve + step, 500, from_um(0)));
  RC_ASSERT(before.margin - after.margin == step * 1000);
}

}  // namespace
}  // namespace cotter::engine::fit
