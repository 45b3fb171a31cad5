// Every way to write a value wrongly, with the whole error.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "quantity/text.hpp"

namespace cotter::quantity {
namespace {

using Code = ValueError::Code;
using enum Dimension;

const std::string k_lengths = "mm, cm, m, µm, nm, in or tpi";
const std::string k_both = "both deviations, upper first: +0.05/-0.02 or ±0.02; a range: 5..6";
const std::string k_length_example = "a length such as 41.5 mm or 1-1/8 in";

struct Row {
  std::string text;
  Dimension dimension;
  ValueError error;
};

void expect_errors(const std::vector<Row>& rows) {
  for (const Row& row : rows) {
    const auto value = parse_value(row.text, row.dimension);
    ASSERT_FALSE(value.has_value()) << row.text;
    EXPECT_EQ(static_cast<int>(value.error().code), static_cast<int>(row.error.code)) << row.text;
    EXPECT_EQ(value.error().offset, row.error.offset) << row.text;
    EXPECT_EQ(value.error().found, row.error.found) << row.text;
    EXPECT_EQ(value.error().accepted, row.error.accepted) << row.text;
    EXPECT_EQ(value.error().suggestion, row.error.suggestion) << row.text;
  }
}

TEST(ValueErrors, empty) {
  expect_errors({{"", length, {Code::empty, 0, "", k_length_example + ", or ?", ""}},
                 {"  ", angle, {Code::empty, 2, "", "an angle such as 73.5°, or ?", ""}},
                 {"", torque, {Code::empty, 0, "", "a torque such as 5 N·m, or ?", ""}},
                 {"", force, {Code::empty, 0, "", "a force such as 50 N, or ?", ""}},
                 {"", mass, {Code::empty, 0, "", "a mass such as 320 g, or ?", ""}},
                 {"", pressure, {Code::empty, 0, "", "a pressure such as 2.5 bar, or ?", ""}},
                 {"", duration, {Code::empty, 0, "", "a duration such as 12 min, or ?", ""}},
                 {"", count, {Code::empty, 0, "", "a whole number such as 32, or ?", ""}}});
}

TEST(ValueErrors, not_a_number) {
  const std::string fraction = "a fraction with a denominator from 1 to 1024";
  expect_errors(
      {{"wide", length, {Code::not_a_number, 0, "wide", k_length_example, ""}},
       {"≈", length, {Code::not_a_number, 3, "", k_length_example, ""}},
       {"? 5 mm", length, {Code::not_a_number, 0, "?", k_length_example, ""}},
       {"- 5 mm", length, {Code::not_a_number, 0, "-", k_length_example, ""}},
       {".mm", length, {Code::not_a_number, 0, ".mm", "a number such as 41.5", ""}},
       {"5. mm", length, {Code::not_a_number, 0, "5.", "a digit behind the decimal point", "5"}},
       {"1,234 mm",
        length,
        {Code::not_a_number, 0, "1,234", "a decimal point: a comma before three digits may be a thousands separator",
         "1.234"}},
       {"1.234,5 mm", length, {Code::not_a_number, 0, "1.234,5", "one decimal point and no thousands separators", ""}},
       {"1,234,567 mm",
        length,
        {Code::not_a_number, 0, "1,234,567", "one decimal point and no thousands separators", ""}},
       {"10 000 mm", length, {Code::not_a_number, 0, "10 000", "a number without gaps", ""}},
       {"1/0 in", length, {Code::not_a_number, 0, "1/0", fraction, ""}},
       {"1 1/2000 in", length, {Code::not_a_number, 0, "1 1/2000", fraction, ""}},
       {"1/8 mm", length, {Code::not_a_number, 0, "1/8", "a decimal number; fractions are read in inches only", ""}},
       {"0 tpi", length, {Code::not_a_number, 0, "0", "a number of threads above zero", ""}},
       {"-24 tpi", length, {Code::not_a_number, 0, "-24", "a number of threads above zero", ""}},
       {"-5 N·m", torque, {Code::not_a_number, 0, "-5", "a torque that is not negative", ""}},
       {"-5 N", force, {Code::not_a_number, 0, "-5", "a force that is not negative", ""}},
       {"-5 g", mass, {Code::not_a_number, 0, "-5", "a mass that is not negative", ""}},
       {"-5 bar", pressure, {Code::not_a_number, 0, "-5", "a pressure that is not negative", ""}},
       {"-5 s", duration, {Code::not_a_number, 0, "-5", "a duration that is not negative", ""}},
       {"-5", count, {Code::not_a_number, 0, "-5", "a count that is not negative", ""}}});
}

TEST(ValueErrors, unit_missing) {
  expect_errors({{"41", length, {Code::unit_missing, 2, "", k_lengths, ""}},
                 {" 41 measured", length, {Code::unit_missing, 4, "measured", k_lengths, ""}},
                 {"73.5", angle, {Code::unit_missing, 4, "", "° or deg", ""}},
                 {"5", torque, {Code::unit_missing, 1, "", "N·m", ""}},
                 {"5", force, {Code::unit_missing, 1, "", "N or kN", ""}},
                 {"5", mass, {Code::unit_missing, 1, "", "g, kg or mg", ""}},
                 {"5", pressure, {Code::unit_missing, 1, "", "bar, kPa, MPa, Pa or psi", ""}},
                 {"5", duration, {Code::unit_missing, 1, "", "s, min or h", ""}}});
}

TEST(ValueErrors, unit_unknown_names_the_nearest) {
  expect_errors({{"41 MM", length, {Code::unit_unknown, 3, "MM", k_lengths, "mm"}},
                 {"41 mn", length, {Code::unit_unknown, 3, "mn", k_lengths, "mm"}},
                 {"24 tip", length, {Code::unit_unknown, 3, "tip", k_lengths, "tpi"}},
                 {"1 inhc", length, {Code::unit_unknown, 2, "inhc", k_lengths, "inch"}},
                 {"3 furlong", length, {Code::unit_unknown, 2, "furlong", k_lengths, ""}},
                 {"3 q", length, {Code::unit_unknown, 2, "q", k_lengths, ""}},
                 {"5-6 mm", length, {Code::deviation_wrong, 1, "-6", k_both, ""}},
                 {"5 nm", torque, {Code::unit_wrong, 2, "nm", "N·m, a unit of torque", "Nm"}},
                 {"5 Mn", torque, {Code::unit_unknown, 2, "Mn", "N·m", "Nm"}},
                 {"3 barr", pressure, {Code::unit_unknown, 2, "barr", "bar, kPa, MPa, Pa or psi", "bar"}},
                 {"3 mins", duration, {Code::unit_unknown, 2, "mins", "s, min or h", "min"}}});
}

TEST(ValueErrors, unit_wrong_names_the_dimension) {
  expect_errors({{"5 N", torque, {Code::unit_wrong, 2, "N", "N·m, a unit of torque", "N·m"}},
                 {"5 m", duration, {Code::unit_wrong, 2, "m", "s, min or h, a unit of duration", "min"}},
                 {"5 N·m", length, {Code::unit_wrong, 2, "N·m", k_lengths + ", a unit of length", ""}},
                 {"5 mm", mass, {Code::unit_wrong, 2, "mm", "g, kg or mg, a unit of mass", ""}},
                 {"32 mm", count, {Code::unit_wrong, 3, "mm", "no unit: a count is a bare number", ""}}});
}

TEST(ValueErrors, deviation_wrong) {
  const std::string order = "the upper deviation first, then the lower one";
  const std::string in_front = "the deviations in front of the unit";
  expect_errors(
      {{"41 +0.05 mm", length, {Code::deviation_wrong, 3, "+0.05", k_both, ""}},
       {"41 ± mm", length, {Code::deviation_wrong, 3, "± ", k_both, ""}},
       {"41 +0.05/ mm", length, {Code::deviation_wrong, 3, "+0.05", k_both, ""}},
       {"41 +0.05/-x mm", length, {Code::deviation_wrong, 3, "+0.05/-", k_both, ""}},
       {"41 -0.02/+0.05 mm", length, {Code::deviation_wrong, 3, "-0.02/+0.05", order, "+0.05/-0.02"}},
       {"28..27 mm",
        length,
        {Code::deviation_wrong, 0, "28..27", "the smaller limit first, then the larger one", "27..28"}},
       {"27..28 ±1 mm",
        length,
        {Code::deviation_wrong, 7, "±1", "the unit here: limits are given once, in front of it", ""}},
       {"41 mm ±0.02", length, {Code::deviation_wrong, 6, "±0.02", in_front, "41 ±0.02 mm"}},
       {"41 ±0.02 mm ±0.03", length, {Code::deviation_wrong, 13, "±0.03", in_front, ""}},
       {"24 ±1 tpi", length, {Code::deviation_wrong, 0, "24 ±1", "threads per inch without deviations", ""}},
       {"1 ±2 N·m", torque, {Code::deviation_wrong, 0, "1 ±2", "limits of a torque that are not negative", ""}}});
}

TEST(ValueErrors, too_large) {
  expect_errors(
      {{"1000000.000000001 m", length, {Code::too_large, 0, "1000000.000000001", "at most 1000000000 mm", ""}},
       {"-2000000 m", length, {Code::too_large, 0, "-2000000", "at most 1000000000 mm", ""}},
       {"1000000 ±1 m", length, {Code::too_large, 0, "1000000 ±1", "at most 1000000000 mm", ""}},
       {"0.00000001 tpi", length, {Code::too_large, 0, "0.00000001", "at most 1000000000 mm", ""}},
       {"1000000000000001", count, {Code::too_large, 0, "1000000000000001", "at most 1000000000000000", ""}},
       {"9999999999999999 psi", pressure, {Code::too_large, 0, "9999999999999999", "at most 10000000000 bar", ""}},
       {std::string(17, '9') + " mm", length, {Code::too_large, 0, std::string(17, '9'), "a number below 1e16", ""}},
       {std::string(60, '9') + " mm",
        length,
        {Code::too_large, 0, std::string(40, '9') + "...", "a number below 1e16", ""}}});
}

TEST(ValueErrors, too_fine) {
  expect_errors(
      {{"0.0000001 mm", length, {Code::too_fine, 0, "0.0000001", "whole nanometres (steps of 0.000001 mm)", ""}},
       {"1 ±0.0000001 mm", length, {Code::too_fine, 0, "1 ±0.0000001", "whole nanometres (steps of 0.000001 mm)", ""}},
       {"0.0000000001 in", length, {Code::too_fine, 0, "0.0000000001", "at most 9 decimals", ""}},
       {"0.0000001°", angle, {Code::too_fine, 0, "0.0000001", "steps of 0.000001°", ""}},
       {"0.0000001 N·m", torque, {Code::too_fine, 0, "0.0000001", "steps of 0.000001 N·m", ""}},
       {"0.0001 N", force, {Code::too_fine, 0, "0.0001", "steps of 0.001 N", ""}},
       {"0.0001 g", mass, {Code::too_fine, 0, "0.0001", "steps of 0.001 g", ""}},
       {"0.000001 bar", pressure, {Code::too_fine, 0, "0.000001", "whole pascals (steps of 0.00001 bar)", ""}},
       {"0.0001 s", duration, {Code::too_fine, 0, "0.0001", "steps of 0.001 s", ""}},
       {"24.5", count, {Code::too_fine, 0, "24.5", "a whole number", ""}}});
}

TEST(ValueErrors, trailing) {
  const std::string words = "measured, maker, standard or assumed, or nothing";
  expect_errors({{"41 mm mesured", length, {Code::trailing, 6, "mesured", words, "measured"}},
                 {"41 mm Maker", length, {Code::trailing, 6, "Maker", words, "maker"}},
                 {"41 mm wide", length, {Code::trailing, 6, "wide", words, ""}},
                 {"32 teeth", count, {Code::trailing, 3, "teeth", words, ""}},
                 {"41 mm maker drawing", length, {Code::trailing, 12, "drawing", "nothing behind the origin", ""}},
                 {"≈ 41 mm measured",
                  length,
                  {Code::trailing, 10, "measured", "nothing: ≈ already says that the value is assumed", ""}}});
}

TEST(ValueErrors, a_long_word_is_cut_between_characters) {
  std::string word;
  for (int i = 0; i < 30; ++i) word += "°";
  const auto value = parse_value("x" + word, length);
  ASSERT_FALSE(value.has_value());
  EXPECT_EQ(value.error().found, "x" + word.substr(0, 38) + "...");
}

}  // namespace
}  // namespace cotter::quantity
