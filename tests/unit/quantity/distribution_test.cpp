#include "quantity/distribution.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>
#include <rapidcheck/gtest.h>

namespace cotter::quantity {
namespace {

using Lengths = Interval<Length>;

Lengths nm(std::int64_t low, std::int64_t high) {
  return {nanometres(low), nanometres(high)};
}

/// `count` terms, each from 0 to 1 m, so that a nanometre is 1e-9 of the width.
UniformSum unit_terms(std::size_t count) {
  return *UniformSum::of(std::vector<Lengths>(count, nm(0, 1'000'000'000)));
}
Length unit(double x) {
  return nanometres(std::llround(x * 1e9));
}

struct IrwinHall {
  std::size_t terms;
  double x;
  double density;
  double probability;
};

// Sum of n uniform terms over 0..1 (Irwin-Hall distribution), closed form as given on the page UniformSumDistribution
// of reference.wolfram.com; numbers recomputed from that formula outside this program.
constexpr IrwinHall k_irwin_hall[] = {{2, 0.5, 0.5, 0.125},
                                      {3, 1.0, 0.5, 0.166666666667},
                                      {3, 1.5, 0.75, 0.5},
                                      {4, 1.0, 0.166666666667, 0.0416666666667},
                                      {5, 2.0, 0.458333333333, 0.225},
                                      {10, 4.0, 0.243149250441, 0.138901565256}};

TEST(UniformSum, agrees_with_the_irwin_hall_distribution) {
  for (const auto& [terms, x, density, probability] : k_irwin_hall) {
    const UniformSum sum = unit_terms(terms);
    EXPECT_NEAR(sum.probability_at_most(unit(x)), probability, 1e-10) << terms << " " << x;
    // The mean density over a window of 2e-4 differs from that in its middle by about (1e-4)^2 / 6 of the curvature.
    const double mean = sum.probability_within({unit(x - 1e-4), unit(x + 1e-4)}) / 2e-4;
    EXPECT_NEAR(mean, density, 1e-4) << terms << " " << x;
  }
}

// Mean n/2 and variance n/12 of the same distribution.
TEST(UniformSum, of_twelve_unit_terms_has_mean_6_and_variance_1) {
  const UniformSum sum = unit_terms(12);
  EXPECT_NEAR(sum.probability_at_most(unit(6)), 0.5, 1e-15);
  EXPECT_NEAR(sum.variance() / 1e18, 1.0, 1e-12);
}

// Convolution of two uniform terms over -1..1 is a triangle: 3/4 of it lies within -1..1, variance 2/3.
TEST(UniformSum, of_two_terms_is_a_triangle) {
  const UniformSum sum = *UniformSum::of({nm(-1'000'000, 1'000'000), nm(-1'000'000, 1'000'000)});
  EXPECT_NEAR(sum.probability_within(nm(-1'000'000, 1'000'000)), 0.75, 1e-15);
  EXPECT_NEAR(std::sqrt(sum.variance()) / 1e6, 0.816496580928, 1e-10);
}

// JCGM 101:2008, 9.2.3 (from memory): four rectangular terms of mean 0 and standard deviation 1, 95 % within +-3.88;
// 3.87940674135 is the quantile of the closed form. The half-width of each term is the square root of 3.
TEST(UniformSum, of_four_rectangular_terms_has_the_published_interval_of_95_percent) {
  const std::int64_t half = std::llround(std::sqrt(3.0) * 1e9);
  const UniformSum sum = *UniformSum::of(std::vector<Lengths>(4, nm(-half, half)));
  EXPECT_NEAR(sum.probability_within({unit(-3.87940674135), unit(3.87940674135)}), 0.95, 1e-9);
  EXPECT_NEAR(std::sqrt(sum.variance()) / 1e9, 2.0, 1e-8);
}

// By hand: one corner of the cube, volume x^n / n!.
TEST(UniformSum, keeps_its_stated_accuracy) {
  EXPECT_NEAR(unit_terms(3).probability_at_most(unit(1)), 1.0 / 6, 1e-15);
  EXPECT_NEAR(unit_terms(3).probability_at_most(unit(2)), 5.0 / 6, 1e-15);
  EXPECT_NEAR(unit_terms(16).probability_at_most(unit(8)), 0.5, 1e-15);
  const double sixteen_factorial = 20'922'789'888'000.0;
  EXPECT_DOUBLE_EQ(unit_terms(16).probability_at_most(unit(1)), 1 / sixteen_factorial);
}

// By hand: a 3 by 1 rectangle cut by the line a + b = x; trapezoid.
TEST(UniformSum, of_two_unequal_terms_is_a_trapezoid) {
  const UniformSum sum = *UniformSum::of({nm(10, 40), nm(-10, 0)});
  EXPECT_EQ(sum.support(), nm(0, 40));
  EXPECT_DOUBLE_EQ(sum.probability_at_most(nanometres(10)), 1.0 / 6);
  EXPECT_DOUBLE_EQ(sum.probability_at_most(nanometres(20)), 0.5);
  EXPECT_DOUBLE_EQ(sum.probability_at_most(nanometres(30)), 5.0 / 6);
  EXPECT_DOUBLE_EQ(sum.probability_within(nm(10, 30)), 4.0 / 6);
}

TEST(UniformSum, of_exact_lengths_is_a_step) {
  const UniformSum sum = *UniformSum::of({nm(5, 5), nm(7, 7)});
  EXPECT_EQ(sum.probability_at_most(nanometres(11)), 0);
  EXPECT_EQ(sum.probability_at_most(nanometres(12)), 1);
  EXPECT_EQ(sum.probability_within(nm(12, 12)), 1);
  EXPECT_EQ(sum.probability_within(nm(12, 20)), 1);
  EXPECT_EQ(sum.probability_within(nm(0, 11)), 0);
  EXPECT_EQ(sum.variance(), 0);
  EXPECT_EQ(UniformSum::of({})->probability_at_most(Length{}), 1);
}

TEST(UniformSum, is_certain_outside_its_support) {
  const UniformSum sum = *UniformSum::of({nm(0, 10), nm(0, 20), nm(5, 5)});
  EXPECT_EQ(sum.probability_at_most(nanometres(4)), 0);
  EXPECT_EQ(sum.probability_at_most(nanometres(5)), 0);
  EXPECT_EQ(sum.probability_at_most(nanometres(35)), 1);
  EXPECT_EQ(sum.probability_within(nm(5, 35)), 1);
}

TEST(UniformSum, refuses_more_terms_than_it_can_sum_exactly) {
  std::vector<Lengths> terms(17, nm(0, 1));
  ASSERT_FALSE(UniformSum::of(terms).has_value());
  EXPECT_EQ(UniformSum::of(terms).error(), UniformSum::Refusal::too_many_terms);
  terms.pop_back();
  terms.push_back(nm(3, 3));
  EXPECT_TRUE(UniformSum::of(terms).has_value());
}

// 400 000 samples: the standard error of a share is at most 0.0008; the bound is five of them.
TEST(UniformSum, agrees_with_sampling) {
  const std::vector<Lengths> terms{nm(-20'000, 50'000), nm(-10'000, 10'000), nm(0, 5'000), nm(-30'000, 0)};
  const UniformSum sum = *UniformSum::of(terms);
  std::mt19937_64 random(20240607);
  constexpr int k_samples = 400'000;
  const Length bounds[] = {nanometres(-30'000), nanometres(0), nanometres(20'000), nanometres(40'000)};
  int at_most_bound[4] = {};
  for (int i = 0; i < k_samples; ++i) {
    double total = 0;
    for (const Lengths& term : terms) {
      const double share = static_cast<double>(random() >> 11U) * 0x1p-53;
      total += static_cast<double>(term.low().base()) + share * static_cast<double>(term.width().base());
    }
    for (int b = 0; b < 4; ++b) at_most_bound[b] += total <= static_cast<double>(bounds[b].base()) ? 1 : 0;
  }
  for (int b = 0; b < 4; ++b)
    EXPECT_NEAR(sum.probability_at_most(bounds[b]), at_most_bound[b] / double{k_samples}, 0.004);
}

std::vector<Lengths> any_terms() {
  std::vector<Lengths> terms;
  const int count = *rc::gen::inRange(1, 9);
  for (int i = 0; i < count; ++i) {
    const auto low = *rc::gen::inRange<std::int64_t>(-100'000, 100'000);
    terms.push_back(nm(low, low + *rc::gen::inRange<std::int64_t>(0, 100'000)));
  }
  terms.push_back(nm(0, 1));
  return terms;
}

RC_GTEST_PROP(UniformSumProperty, is_symmetric_about_its_middle, ()) {
  const UniformSum sum = *UniformSum::of(any_terms());
  const Length below = nanometres(*rc::gen::inRange<std::int64_t>(0, sum.support().width().base() + 1));
  const double low = sum.probability_at_most(sum.support().low() + below);
  const double high = sum.probability_at_most(sum.support().high() - below);
  RC_ASSERT(std::abs(low + high - 1) <= 1e-15);
}

RC_GTEST_PROP(UniformSumProperty, never_falls_when_the_bound_rises, ()) {
  const UniformSum sum = *UniformSum::of(any_terms());
  const std::int64_t width = sum.support().width().base();
  const Length a = sum.support().low() + nanometres(*rc::gen::inRange<std::int64_t>(0, width));
  const Length b = a + nanometres(*rc::gen::inRange<std::int64_t>(0, width));
  RC_ASSERT(sum.probability_at_most(a) <= sum.probability_at_most(b) + 1e-15);
}

RC_GTEST_PROP(UniformSumProperty, stays_when_all_lengths_grow_by_the_same_factor, ()) {
  const std::vector<Lengths> terms = any_terms();
  const std::int64_t factor = *rc::gen::inRange<std::int64_t>(2, 1'000);
  std::vector<Lengths> grown;
  for (const Lengths& term : terms) grown.push_back({term.low() * factor, term.high() * factor});
  const UniformSum sum = *UniformSum::of(terms);
  const Length x =
      sum.support().low() + nanometres(*rc::gen::inRange<std::int64_t>(0, sum.support().width().base() + 1));
  RC_ASSERT(std::abs(sum.probability_at_most(x) - UniformSum::of(grown)->probability_at_most(x * factor)) <= 1e-15);
}

}  // namespace
}  // namespace cotter::quantity
