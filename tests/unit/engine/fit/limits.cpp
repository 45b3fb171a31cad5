// at_most, at_least, range_contains, overlap, difference and equal_angle.

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "checks.hpp"

namespace cotter::engine::fit {
namespace {

using namespace testing;

TEST(AtMost, IsTheRoomBelowTheLimitAndNeedsNoWindow) {
  const auto verdict = [](std::int64_t value) {
    return judge(check(Law::at_most, {um("value", value), um("limit", 40'000)}));
  };
  EXPECT_EQ(verdict(40'000).must, Certainty::holds);
  EXPECT_EQ(verdict(39'990).margin, 10'000);
  EXPECT_EQ(verdict(40'010).must, Certainty::fails);
  EXPECT_TRUE(verdict(40'010).too_low) << "the room is too small";
  EXPECT_EQ(verdict(40'010).formula, "limit - value");
}

TEST(AtMost, AReserveMayBeAskedFor) {
  const auto verdict = [](std::int64_t value) {
    return judge(check(Law::at_most, {um("value", value), um("limit", 40'000)}, from_um(500))).must;
  };
  EXPECT_EQ(verdict(39'500), Certainty::holds);
  EXPECT_EQ(verdict(39'510), Certainty::fails);
}

TEST(AtMost, TakesAnyDimensionAndReportsIt) {
  // A tyre pumped to 5.5 bar on a hookless rim that is marked for 5.0 at most.
  const CheckResult result = judge(check(Law::at_most, {base("value", 550'000, 550'000, Dimension::pressure),
                                                        base("limit", 500'000, 500'000, Dimension::pressure)}));
  EXPECT_EQ(result.must, Certainty::fails);
  EXPECT_EQ(result.dimension, Dimension::pressure);
  EXPECT_EQ(result.margin, -50'000);
}

TEST(AtLeast, IsTheExcessOverTheLimit) {
  const auto verdict = [](std::int64_t value) {
    return judge(check(Law::at_least, {um("value", value), um("limit", 65'000)}));
  };
  EXPECT_EQ(verdict(65'000).must, Certainty::holds);
  EXPECT_EQ(verdict(64'990).must, Certainty::fails);
  EXPECT_TRUE(verdict(64'990).too_low);
  EXPECT_EQ(verdict(66'000).margin, 1'000'000);
}

TEST(RangeContains, IsTheDistanceToTheNearerEnd) {
  const auto verdict = [](std::int64_t value) {
    return judge(check(Law::range_contains, {um("value", value), um("low", 19'000), um("high", 25'000)}));
  };
  EXPECT_EQ(result_um(verdict(21'000)), std::pair(2000L, 2000L));
  EXPECT_EQ(verdict(25'000).must, Certainty::holds);
  EXPECT_EQ(verdict(25'010).must, Certainty::fails);
  EXPECT_EQ(verdict(19'000).must, Certainty::holds);
  EXPECT_EQ(verdict(18'990).must, Certainty::fails);
}

TEST(RangeContains, AWideValueCannotBeFartherFromBothEndsThanTheMiddle) {
  // Anything from 0 to 10 in a range 4 to 6: at best 1 away from the nearer end, at worst 4 outside.
  const auto verdict = [](std::int64_t reserve) {
    return judge(
        check(Law::range_contains, {um("value", 0, 10'000), um("low", 4'000), um("high", 6'000)}, from_um(reserve)));
  };
  EXPECT_EQ(result_um(verdict(0)), std::pair(-4000L, 1000L));
  EXPECT_EQ(verdict(1'000).must, Certainty::open);
  EXPECT_EQ(verdict(1'010).must, Certainty::fails) << "though each end alone could be 1.01 away";
}

TEST(RangeContains, AnUpperEndOfTheWindowCountsFromTheNearerEnd) {
  const auto verdict = [](std::int64_t value) {
    return judge(
        check(Law::range_contains, {um("value", value), um("low", 0), um("high", 10'000)}, um_window(0, 2'000)));
  };
  EXPECT_EQ(verdict(2'000).must, Certainty::holds);
  EXPECT_EQ(verdict(2'010).must, Certainty::fails);
  EXPECT_TRUE(verdict(2'010).too_high);
  EXPECT_EQ(verdict(2'010).margin, -10'000);
  EXPECT_EQ(verdict(9'000).must, Certainty::holds);
}

TEST(Overlap, NeedsCoverAtBothEnds) {
  // A compression plug from 5 to 60 mm below the steerer's top covers a clamp zone from 17 to 57; one to 40 does not.
  const auto plug = [](std::int64_t end) {
    return judge(
        check(Law::overlap, {um("start_a", 5'000), um("end_a", end), um("start_b", 17'000), um("end_b", 57'000)}));
  };
  EXPECT_EQ(plug(60'000).must, Certainty::holds);
  EXPECT_EQ(plug(60'000).margin, 3'000'000);
  EXPECT_EQ(plug(57'000).must, Certainty::holds);
  EXPECT_EQ(plug(56'990).must, Certainty::fails);
  EXPECT_EQ(plug(40'000).margin, -17'000'000);
}

TEST(Difference, IsHeldAgainstBothEndsOfItsWindow) {
  // An axle 142 wide between ends 148 apart: 6 mm too much, where 1 mm either way is usual.
  const auto ends = [](std::int64_t spacing) {
    return judge(check(Law::difference, {um("a", spacing), um("b", 142'000)}, um_window(-1'000, 1'000)));
  };
  EXPECT_EQ(ends(148'000).must, Certainty::fails);
  EXPECT_TRUE(ends(148'000).too_high);
  EXPECT_EQ(ends(148'000).margin, -5'000'000);
  EXPECT_EQ(ends(143'000).must, Certainty::holds);
  EXPECT_EQ(ends(143'010).must, Certainty::fails);
  EXPECT_EQ(ends(140'990).must, Certainty::fails);
  EXPECT_TRUE(ends(140'990).too_low);
}

TEST(EqualAngle, WithoutAWindowMustBeExact) {
  const auto angles = [](std::int64_t b, Window must) {
    return judge(check(Law::equal_angle,
                       {base("a", 45'000'000, 45'000'000, Dimension::angle), base("b", b, b, Dimension::angle)}, must))
        .must;
  };
  EXPECT_EQ(angles(45'000'000, {}), Certainty::holds);
  EXPECT_EQ(angles(45'000'001, {}), Certainty::fails);
  const Window half_degree{Mixed::from_base(-500'000), Mixed::from_base(500'000)};
  EXPECT_EQ(angles(45'500'000, half_degree), Certainty::holds);
  EXPECT_EQ(angles(36'000'000, half_degree), Certainty::fails) << "a 36 degree bearing in a 45 degree seat";
}

/// The least of two by looking at every whole number: slow, and independent of the solver.
std::pair<std::int64_t, std::int64_t> least_by_enumeration(std::int64_t low, std::int64_t high, std::int64_t range_low,
                                                           std::int64_t range_high) {
  std::int64_t worst = INT64_MAX, best = INT64_MIN;
  for (std::int64_t value = low; value <= high; ++value) {
    const std::int64_t number = std::min(value - range_low, range_high - value);
    worst = std::min(worst, number);
    best = std::max(best, number);
  }
  return {worst, best};
}

RC_GTEST_PROP(RangeContains, AgreesWithEnumeration, ()) {
  const auto low = *rc::gen::inRange<std::int64_t>(-20, 20);
  const auto high = low + *rc::gen::inRange<std::int64_t>(0, 20);
  const auto range_low = *rc::gen::inRange<std::int64_t>(-20, 20);
  const auto range_high = *rc::gen::inRange<std::int64_t>(-20, 20);
  const auto reserve = *rc::gen::inRange<std::int64_t>(-5, 5);
  Window must{Mixed::from_base(reserve), {}};
  const CheckResult result =
      judge(check(Law::range_contains,
                  {base("value", low, high, Dimension::length), base("low", range_low, range_low, Dimension::length),
                   base("high", range_high, range_high, Dimension::length)},
                  must));
  const auto [worst, best] = least_by_enumeration(low, high, range_low, range_high);
  RC_ASSERT(result.result->low().base() == worst);
  RC_ASSERT(result.result->high().base() - best <= 1);  // stated: rounded outward by less than one base unit
  RC_ASSERT((result.must == Certainty::holds) == (worst >= reserve));
  if (best >= reserve) RC_ASSERT(result.must != Certainty::fails);
  if (best < reserve - 1) RC_ASSERT(result.must == Certainty::fails);
}

}  // namespace
}  // namespace cotter::engine::fit
