#include <gtest/gtest.h>

#include "quantity/ensure.hpp"
#include "quantity/text.hpp"

namespace cotter::quantity {
namespace {

using enum Dimension;

const NumberStyle k_inch{LengthUnit::inch, DecimalMark::point};
const NumberStyle k_comma{LengthUnit::millimetre, DecimalMark::comma};

Value length_value(std::int64_t nominal, std::int64_t lower, std::int64_t upper, OriginKind kind) {
  Value value;
  value.nominal = nominal;
  value.lower = lower;
  value.upper = upper;
  value.deviations = lower != 0 || upper != 0 ? Deviations::stated : Deviations::unstated;
  value.origin.kind = kind;
  return value;
}

TEST(PrintNumber, is_the_shortest_exact_decimal) {
  EXPECT_EQ(print_number(41'960'000, length), "41.96");
  EXPECT_EQ(print_number(-500'000, length), "-0.5");
  EXPECT_EQ(print_number(0, length), "0");
  EXPECT_EQ(print_number(1, length), "0.000001");
  EXPECT_EQ(print_number(1'000'000'000'000'000, length), "1000000000");
  EXPECT_EQ(print_number(41'960'000, length, k_comma), "41,96");
  EXPECT_EQ(print_number(73'500'000, angle), "73.5");
  EXPECT_EQ(print_number(28'575'000, length, k_inch), "1.125");
}

TEST(PrintNumber, of_an_inch_with_endless_decimals_still_tells_nanometres_apart) {
  EXPECT_EQ(print_number(41'000'000, length, k_inch), "1.61417323");
  EXPECT_EQ(print_number(41'000'001, length, k_inch), "1.61417327");
}

TEST(PrintNumber, takes_the_whole_range_of_64_bits) {
  EXPECT_EQ(print_number(INT64_MIN, count), "-9223372036854775808");
  EXPECT_EQ(print_number(INT64_MAX, length), "9223372036854.775807");
  EXPECT_EQ(print_rounded(INT64_MIN, length, 1), "-9223372036854.8");
}

TEST(PrintRounded, rounds_half_away_from_zero) {
  EXPECT_EQ(print_rounded(1'005'000, length, 2), "1.01");
  EXPECT_EQ(print_rounded(-1'005'000, length, 2), "-1.01");
  EXPECT_EQ(print_rounded(1'004'999, length, 2), "1.00");
  EXPECT_EQ(print_rounded(-400'000, length, 0), "0");
  EXPECT_EQ(print_rounded(500'000, length, 0), "1");
  EXPECT_EQ(print_rounded(41'000'000, length, 3, k_inch), "1.614");
  EXPECT_EQ(print_rounded(41'060'000, length, 1, k_comma), "41,1");
  EXPECT_THROW(print_rounded(1, length, 10), BugError);
}

TEST(PrintAmount, carries_the_unit_of_its_dimension) {
  EXPECT_EQ(print_amount(41'960'000, length), "41.96 mm");
  EXPECT_EQ(print_amount(73'500'000, angle), "73.5°");
  EXPECT_EQ(print_amount(5'000'000, torque), "5 N·m");
  EXPECT_EQ(print_amount(50'500, force), "50.5 N");
  EXPECT_EQ(print_amount(320'000, mass), "320 g");
  EXPECT_EQ(print_amount(250'000, pressure), "2.5 bar");
  EXPECT_EQ(print_amount(90'000, duration), "1.5 min");
  EXPECT_EQ(print_amount(32, count), "32");
  EXPECT_EQ(unit_for(length, k_inch), "in");
  EXPECT_EQ(unit_for(count), "");
}

TEST(PrintAmount, that_an_inch_or_a_minute_cannot_hold_is_given_in_the_finer_unit) {
  EXPECT_EQ(print_amount(28'575'000, length, k_inch), "1.125 in");
  EXPECT_EQ(print_amount(41'000'000, length, k_inch), "41 mm");
  EXPECT_EQ(print_amount(20'000, duration), "20 s");
}

TEST(PrintValue, with_deviations_and_origin) {
  EXPECT_EQ(print_value(length_value(41'000'000, -20'000, 50'000, OriginKind::measured)), "41 +0.05/-0.02 mm measured");
  EXPECT_EQ(print_value(length_value(30'000'000, -10'000, 10'000, OriginKind::maker)), "30 ±0.01 mm maker");
  EXPECT_EQ(print_value(length_value(41'000'000, -10'000, 0, OriginKind::standard)), "41 +0/-0.01 mm standard");
  EXPECT_EQ(print_value(length_value(41'000'000, 0, 10'000, OriginKind::standard)), "41 +0.01/-0 mm standard");
  EXPECT_EQ(print_value(length_value(41'000'000, -61'000, -25'000, OriginKind::standard)),
            "41 -0.025/-0.061 mm standard");
  EXPECT_EQ(print_value(length_value(48'000'000, 0, 0, OriginKind::assumed)), "≈ 48 mm");
  EXPECT_EQ(print_value(length_value(48'000'000, -1'000'000, 1'000'000, OriginKind::assumed)), "≈ 48 ±1 mm");
}

TEST(PrintValue, tells_a_stated_zero_deviation_from_none) {
  Value value = length_value(30'000'000, 0, 0, OriginKind::measured);
  EXPECT_EQ(print_value(value), "30 mm measured");
  value.deviations = Deviations::stated;
  EXPECT_EQ(print_value(value), "30 ±0 mm measured");
}

TEST(PrintValue, of_an_unknown_shows_what_is_permitted) {
  Value value = length_value(29'000'000, -2'000'000, 2'000'000, OriginKind::unknown);
  EXPECT_EQ(print_value(value), "? (27 to 31 mm)");
  value.range_known = false;
  EXPECT_EQ(print_value(value), "?");
}

TEST(PrintValue, in_inches_only_where_the_limits_stay_exact) {
  EXPECT_EQ(print_value(length_value(12'700'000, -254'000, 254'000, OriginKind::maker), k_inch), "0.5 ±0.01 in maker");
  EXPECT_EQ(print_value(length_value(12'700'000, -250'000, 250'000, OriginKind::maker), k_inch), "12.7 ±0.25 mm maker");
}

TEST(PrintValue, with_a_comma_is_never_taken_for_a_thousands_separator) {
  EXPECT_EQ(print_value(length_value(1'234'000, -5'000, 5'000, OriginKind::maker), k_comma), "1,2340 ±0,0050 mm maker");
}

}  // namespace
}  // namespace cotter::quantity
