#include <gtest/gtest.h>

#include "quantity/text.hpp"

namespace cotter::quantity {
namespace {

using enum Dimension;

Value parsed(std::string_view text, Dimension dimension) {
  const auto value = parse_value(text, dimension);
  EXPECT_TRUE(value.has_value()) << text << ": " << (value ? "" : value.error().accepted);
  return value.value_or(Value{});
}

struct Row {
  std::string_view text;
  Dimension dimension;
  std::int64_t nominal;
  std::int64_t lower = 0;
  std::int64_t upper = 0;
};

void expect_rows(std::initializer_list<Row> rows) {
  for (const Row& row : rows) {
    const Value value = parsed(row.text, row.dimension);
    EXPECT_EQ(value.dimension, row.dimension) << row.text;
    EXPECT_EQ(value.nominal, row.nominal) << row.text;
    EXPECT_EQ(value.lower, row.lower) << row.text;
    EXPECT_EQ(value.upper, row.upper) << row.text;
  }
}

// The inch is 25.4 mm by definition (international yard and pound agreement of 1959, from memory).
TEST(ParseUnit, of_length) {
  expect_rows({{"41.5 mm", length, 41'500'000},
               {"41.5mm", length, 41'500'000},
               {"4.15 cm", length, 41'500'000},
               {"0.0415 m", length, 41'500'000},
               {"20 um", length, 20'000},
               {"20 \u00B5m", length, 20'000},
               {"20 \u03BCm", length, 20'000},
               {"396875 nm", length, 396'875},
               {"1 in", length, 25'400'000},
               {"1.37 in", length, 34'798'000},
               {"1 inch", length, 25'400'000},
               {"1\"", length, 25'400'000},
               {"1\u2033", length, 25'400'000}});
}

TEST(ParseUnit, of_every_other_dimension) {
  expect_rows({{"73.5°", angle, 73'500'000},    {"73.5 deg", angle, 73'500'000},
               {"1 degree", angle, 1'000'000},  {"-0.5 degrees", angle, -500'000},
               {"5 N·m", torque, 5'000'000},    {"5 N\u22C5m", torque, 5'000'000},
               {"5 Nm", torque, 5'000'000},     {"5 N*m", torque, 5'000'000},
               {"5 N m", torque, 5'000'000},    {"5 N.m", torque, 5'000'000},
               {"50 N", force, 50'000},         {"50 N measured", force, 50'000},
               {"1.2 kN", force, 1'200'000},    {"320 g", mass, 320'000},
               {"1.25 kg", mass, 1'250'000},    {"7 mg", mass, 7},
               {"2.5 bar", pressure, 250'000},  {"250 kPa", pressure, 250'000},
               {"0.25 MPa", pressure, 250'000}, {"250000 Pa", pressure, 250'000},
               {"90 s", duration, 90'000},      {"1.5 min", duration, 90'000},
               {"0.25 h", duration, 900'000},   {"32", count, 32}});
}

TEST(ParseInch, fractions_down_to_a_64th_are_whole_nanometres) {
  expect_rows({{"1/64 in", length, 396'875},
               {"1/8 in", length, 3'175'000},
               {"1-1/8 in", length, 28'575'000},
               {"1 1/8 in", length, 28'575'000},
               {"1 1/8\"", length, 28'575'000},
               {"9/8 in", length, 28'575'000},
               {"-1-1/8 in", length, -28'575'000},
               {"1/2 ±1/64 in", length, 12'700'000, -396'875, 396'875},
               {"1/2 +0.01/-1/64 in", length, 12'700'000, -396'875, 254'000}});
}

// 25.4 mm / 3 = 8 466 666.67 nm; / 128 = 198 437.5 nm; / 1024 = 24 804.69 nm; / 24 = 1 058 333.33 nm;
// / 26 = 976 923.08 nm.
TEST(ParseInch, what_is_no_whole_nanometre_is_enclosed) {
  expect_rows({{"1/3 in", length, 8'466'667, -1, 0},
               {"-1/3 in", length, -8'466'667, 0, 1},
               {"1/128 in", length, 198'438, -1, 0},
               {"1/1024 in", length, 24'805, -1, 0},
               {"24 tpi", length, 1'058'333, 0, 1},
               {"26 TPI", length, 976'923, 0, 1},
               {"25.4 tpi", length, 1'000'000}});
  EXPECT_EQ(parsed("24 tpi", length).deviations, Deviations::unstated);
  EXPECT_EQ(parsed("25.4 tpi", length).deviations, Deviations::unstated);
}

// 1 psi = 6894.757293168 Pa (0.45359237 kg x 9.80665 m/s2 over 0.0254 m squared).
TEST(ParsePsi, is_enclosed_by_whole_pascals) {
  expect_rows({{"1 psi", pressure, 6'895, -1, 0},
               {"80 psi", pressure, 551'581, -1, 0},
               {"0 psi", pressure, 0},
               {"1000000000 psi", pressure, 6'894'757'293'168},
               {"80 ±5 psi", pressure, 551'581, -34'475, 34'474}});
  EXPECT_EQ(parsed("1 psi", pressure).deviations, Deviations::unstated);
}

TEST(ParseDeviations, in_every_form) {
  expect_rows({{"41.00 +0.05/-0.02 mm", length, 41'000'000, -20'000, 50'000},
               {"41.00 +0.05 -0.02 mm", length, 41'000'000, -20'000, 50'000},
               {"41.00 +0.05 / -0.02 mm", length, 41'000'000, -20'000, 50'000},
               {"41.00 +0.05/\u22120.02 mm", length, 41'000'000, -20'000, 50'000},
               {"41 +0/-0.01 mm", length, 41'000'000, -10'000, 0},
               {"41 +0 -0.01 mm", length, 41'000'000, -10'000, 0},
               {"41 -0.025/-0.061 mm", length, 41'000'000, -61'000, -25'000},
               {"30 ±0.01 mm", length, 30'000'000, -10'000, 10'000},
               {"30±0.01mm", length, 30'000'000, -10'000, 10'000},
               {"30 ± 0.01 mm", length, 30'000'000, -10'000, 10'000},
               {"30 +/-0.01 mm", length, 30'000'000, -10'000, 10'000},
               {"27.0..27.4 mm", length, 27'200'000, -200'000, 200'000},
               {"27 .. 27.4 mm", length, 27'200'000, -200'000, 200'000},
               {"1..4 nm", length, 2, -1, 2},
               {"-4..-1 nm", length, -3, -1, 2},
               {"5..6 N·m", torque, 5'500'000, -500'000, 500'000},
               {"10 ±1", count, 10, -1, 1}});
  EXPECT_EQ(parsed("30 ±0 mm", length).deviations, Deviations::stated);
  EXPECT_EQ(parsed("30 mm", length).deviations, Deviations::unstated);
}

TEST(ParseNumber, with_point_or_comma_and_signs) {
  expect_rows({{"41,5 mm", length, 41'500'000},
               {"0,125 mm", length, 125'000},
               {"1,2345 mm", length, 1'234'500},
               {"1234,567 mm", length, 1'234'567'000},
               {".5 mm", length, 500'000},
               {"+5 mm", length, 5'000'000},
               {"-5 mm", length, -5'000'000},
               {"\u22125 mm", length, -5'000'000},
               {"041.50000000000000 mm", length, 41'500'000},
               {"5\u00A0mm", length, 5'000'000},
               {"1000000 m", length, 1'000'000'000'000'000},
               {"-1000000 m", length, -1'000'000'000'000'000},
               {"0.000001 mm", length, 1}});
}

TEST(ParseOrigin, from_the_word_or_the_mark) {
  const auto origin = [](std::string_view text) { return parsed(text, length).origin; };
  EXPECT_EQ(origin("30 ±0.01 mm measured").kind, OriginKind::measured);
  EXPECT_EQ(origin("30 mm maker").kind, OriginKind::maker);
  EXPECT_EQ(origin("30 mm standard").kind, OriginKind::standard);
  EXPECT_EQ(origin("30 mm assumed").kind, OriginKind::assumed);
  EXPECT_EQ(origin("≈ 48 mm").kind, OriginKind::assumed);
  EXPECT_EQ(origin("≈48 mm assumed").kind, OriginKind::assumed);
  EXPECT_EQ(origin("30 mm"), (Origin{OriginKind::assumed, "", "", "", ""}));
  EXPECT_EQ(parsed("32 measured", count).origin.kind, OriginKind::measured);
}

TEST(ParseOrigin, the_text_is_asked_whether_it_names_one) {
  for (const auto* text : {"30 mm measured", "30 mm maker ", "30 mm standard", "30 mm assumed", "≈ 48 mm", "?",
                           " unknown", "? (27 to 31 mm)"})
    EXPECT_TRUE(names_origin(text)) << text;
  for (const auto* text : {"30 mm", "", "24 tpi", "measured 30 mm"}) EXPECT_FALSE(names_origin(text)) << text;
}

TEST(ParseUnknown, has_no_range_yet) {
  for (const auto* text : {"?", "unknown", "  ? ", "? (27 to 31 mm)"}) {
    const Value value = parsed(text, angle);
    EXPECT_EQ(value.origin.kind, OriginKind::unknown) << text;
    EXPECT_FALSE(value.range_known) << text;
    EXPECT_EQ(value.dimension, angle) << text;
  }
}

TEST(ParseText, is_kept_without_the_spaces_around_it) {
  EXPECT_EQ(parsed("  41,50  mm\tmeasured \u00A0", length).text, "41,50  mm\tmeasured");
  EXPECT_EQ(parsed(" ? ", length).text, "?");
}

}  // namespace
}  // namespace cotter::quantity
