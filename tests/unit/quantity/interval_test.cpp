#include "quantity/interval.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "quantity/amount.hpp"

namespace cotter::quantity {
namespace {

using Lengths = Interval<Length>;

Lengths nm(std::int64_t low, std::int64_t high) {
  return {nanometres(low), nanometres(high)};
}

Lengths any_lengths() {
  const auto a = *rc::gen::inRange<std::int64_t>(-1000, 1000);
  const auto width = *rc::gen::inRange<std::int64_t>(0, 500);
  return nm(a, a + width);
}

Length any_inside(Lengths interval) {
  return nanometres(*rc::gen::inRange<std::int64_t>(interval.low().base(), interval.high().base() + 1));
}

TEST(Amount, names_its_unit_on_the_way_in_and_out) {
  EXPECT_EQ(in_nanometres(millimetres(41)), 41'000'000);
  EXPECT_EQ(micrometres(20), nanometres(20'000));
  EXPECT_DOUBLE_EQ(in_millimetres(micrometres(1'500)), 1.5);
  EXPECT_DOUBLE_EQ(in_degrees(microdegrees(73'500'000)), 73.5);
  EXPECT_EQ(grams(2), milligrams(2'000));
}

TEST(Amount, adds_subtracts_and_repeats) {
  Length sum = millimetres(3);
  sum += millimetres(2);
  sum -= micrometres(500);
  EXPECT_EQ(sum, micrometres(4'500));
  EXPECT_EQ(3 * sum - sum * 2, sum);
  EXPECT_EQ(-sum, nanometres(-4'500'000));
  EXPECT_LT(-sum, sum);
}

TEST(Interval, swapped_ends_are_a_bug) {
  try {
    nm(2, 1);
    FAIL() << "swapped ends were taken";
  } catch (const BugError& bug) {
    EXPECT_STREQ(bug.what(), "interval with its ends swapped");
  }
}

TEST(Interval, knows_its_width_and_what_it_contains) {
  const Lengths interval = nm(-3, 5);
  EXPECT_EQ(interval.width(), nanometres(8));
  EXPECT_TRUE(interval.contains(nanometres(-3)));
  EXPECT_TRUE(interval.contains(nanometres(5)));
  EXPECT_FALSE(interval.contains(nanometres(6)));
  EXPECT_FALSE(interval.contains(nanometres(-4)));
  EXPECT_EQ(Lengths(nanometres(7)), nm(7, 7));
}

TEST(Certainty, of_two_requirements_is_the_worse) {
  using enum Certainty;
  EXPECT_EQ(both(holds, holds), holds);
  EXPECT_EQ(both(holds, open), open);
  EXPECT_EQ(both(open, holds), open);
  EXPECT_EQ(both(open, open), open);
  EXPECT_EQ(both(fails, open), fails);
  EXPECT_EQ(both(open, fails), fails);
  EXPECT_EQ(both(fails, holds), fails);
}

TEST(AtMost, gives_all_three_answers_and_passes_at_equality) {
  EXPECT_EQ(at_most(nm(0, 5), nm(5, 9)), Certainty::holds);
  EXPECT_EQ(at_most(nm(0, 6), nm(5, 9)), Certainty::open);
  EXPECT_EQ(at_most(nm(9, 12), nm(5, 9)), Certainty::open);
  EXPECT_EQ(at_most(nm(10, 12), nm(5, 9)), Certainty::fails);
}

TEST(Within, gives_all_three_answers_and_passes_at_equality) {
  EXPECT_EQ(within(nm(2, 8), nm(2, 8)), Certainty::holds);
  EXPECT_EQ(within(nm(1, 8), nm(2, 8)), Certainty::open);
  EXPECT_EQ(within(nm(2, 9), nm(2, 8)), Certainty::open);
  EXPECT_EQ(within(nm(0, 10), nm(2, 8)), Certainty::open);
  EXPECT_EQ(within(nm(8, 10), nm(2, 8)), Certainty::open);
  EXPECT_EQ(within(nm(9, 10), nm(2, 8)), Certainty::fails);
  EXPECT_EQ(within(nm(0, 1), nm(2, 8)), Certainty::fails);
}

RC_GTEST_PROP(IntervalProperty, addition_is_associative, ()) {
  const auto a = any_lengths(), b = any_lengths(), c = any_lengths();
  RC_ASSERT((a + b) + c == a + (b + c));
}

RC_GTEST_PROP(IntervalProperty, operations_enclose_those_on_their_points, ()) {
  const auto a = any_lengths(), b = any_lengths();
  const Length p = any_inside(a), q = any_inside(b);
  RC_ASSERT((a + b).contains(p + q));
  RC_ASSERT((a - b).contains(p - q));
  RC_ASSERT((-a).contains(-p));
}

RC_GTEST_PROP(IntervalProperty, a_certain_answer_is_right_for_every_point, ()) {
  const auto a = any_lengths(), b = any_lengths();
  const Length p = any_inside(a), q = any_inside(b);
  if (at_most(a, b) == Certainty::holds) RC_ASSERT(p <= q);
  if (at_most(a, b) == Certainty::fails) RC_ASSERT(p > q);
  if (within(a, b) == Certainty::holds) RC_ASSERT(b.contains(p));
  if (within(a, b) == Certainty::fails) RC_ASSERT(!b.contains(p));
}

RC_GTEST_PROP(IntervalProperty, an_open_answer_has_a_point_each_way, ()) {
  const auto a = any_lengths(), b = any_lengths();
  RC_PRE(within(a, b) == Certainty::open);
  RC_ASSERT(!b.contains(a.low()) || !b.contains(a.high()));
  RC_ASSERT(b.contains(std::max(a.low(), b.low())) && a.contains(std::max(a.low(), b.low())));
}

RC_GTEST_PROP(IntervalProperty, verdicts_are_the_same_in_the_mirror, ()) {
  const auto a = any_lengths(), b = any_lengths();
  RC_ASSERT(within(a, b) == within(-a, -b));
  RC_ASSERT(at_most(a, b) == at_most(-b, -a));
}

}  // namespace
}  // namespace cotter::quantity
