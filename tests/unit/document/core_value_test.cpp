// Values in documents: text alone, or a map with one paper.
#include <gtest/gtest.h>

#include "core_support.hpp"
#include "document/schema_value.hpp"

namespace cotter::document::test {
namespace {

using quantity::Dimension;
using quantity::OriginKind;

Words lines_for(std::string_view text, Dimension dimension = Dimension::length) {
  const auto node = yaml(text);
  return node ? lines(checked(*node, value_schema(dimension))) : complaints(node);
}

quantity::Value value_in(std::string_view text, Dimension dimension = Dimension::length) {
  EXPECT_EQ(lines_for(text, dimension), Words{});
  return value_of(*yaml(text), dimension);
}

TEST(ValueNode, TextAloneIsParsedAndKept) {
  const auto value = value_in("86.5 ±0.1 mm");
  EXPECT_EQ(value.nominal, 86'500'000);
  EXPECT_EQ(value.lower, -100'000);
  EXPECT_EQ(value.upper, 100'000);
  EXPECT_EQ(value.text, "86.5 ±0.1 mm");
  EXPECT_EQ(value_in("'30 mm measured'").origin.kind, OriginKind::measured);
}

TEST(ValueNode, AMapCarriesItsPaper) {
  const auto measured = value_in("{value: 86.5 mm, measured: {by: A. Builder, with: caliper, on: 2025-03-14}}").origin;
  EXPECT_EQ(measured, (quantity::Origin{OriginKind::measured, "A. Builder", "caliper", "2025-03-14", ""}));
  EXPECT_EQ(value_in("{value: 5 mm, maker: 'sheet 3, table 2'}").origin,
            (quantity::Origin{OriginKind::maker, "", "", "", "sheet 3, table 2"}));
  EXPECT_EQ(value_in("{value: 5 mm, standard: clause 4}").origin.kind, OriginKind::standard);
  EXPECT_EQ(value_in("{value: 5 mm, assumed: like the left one}").origin.source, "like the left one");
  EXPECT_EQ(value_in("{value: 5 mm maker, maker: sheet 3}").origin.source, "sheet 3");
}

TEST(ValueNode, CountsMayBeBareNumbers) {
  EXPECT_EQ(value_in("24", Dimension::count).nominal, 24);
  const auto schema = value_schema(Dimension::count);
  EXPECT_EQ(codes(checked(*json("24"), schema)), Words{});
  EXPECT_EQ(codes(checked(*json("2.5"), schema)), Words{"bad_value"});
  EXPECT_EQ(codes(checked(*json("24"), value_schema(Dimension::length))), Words{"bad_value"});
  EXPECT_EQ(codes(checked(*json("true"), schema)), Words{"wrong_kind"});
}

TEST(ValueNode, ATextThatIsNoValueIsToldWithAMend) {
  const auto node = yaml("{a: 41 mn, b: 41, c: about, d: 5 N, e: [1], f: }");
  ASSERT_TRUE(node);
  const auto diagnostics = checked(*node, map_schema(value_schema(Dimension::length)));
  ASSERT_EQ(codes(diagnostics),
            (Words{"bad_value", "bad_value", "bad_value", "bad_value", "wrong_kind", "wrong_kind"}));
  EXPECT_EQ(diagnostics.list()[0].message, "The unit is not known.");
  EXPECT_EQ(diagnostics.list()[0].found, "41 mn");
  EXPECT_NE(diagnostics.list()[0].accepted.find("mm"), std::string::npos);
  EXPECT_EQ(diagnostics.list()[1].message, "The value has no unit.");
  EXPECT_EQ(diagnostics.list()[2].message, "The value does not begin with a number.");
  EXPECT_EQ(diagnostics.list()[3].message, "The unit is one of another kind of quantity.");
  EXPECT_EQ(diagnostics.list()[4].accepted, "a length such as 41.5 mm");
  EXPECT_EQ(diagnostics.list()[5].message, "The value is missing here.");
}

TEST(ValueNode, EveryPaperIsNamedOnceAndFilledIn) {
  EXPECT_EQ(lines_for("{value: 5 mm}"),
            Words{"job.yaml:1:1: The value does not say where it comes from; accepted: one of: measured, maker, "
                  "standard, assumed"});
  EXPECT_EQ(lines_for("{value: 5 mm, maker: a, assumed: b}"),
            Words{"job.yaml:1:1: The value says more than once where it comes from; found \"maker, assumed\"; "
                  "accepted: one of: measured, maker, standard, assumed"});
  EXPECT_EQ(lines_for("{maker: ''}"),
            (Words{"job.yaml:1:1: value: A value needs the field `value`; accepted: anything",
                   "job.yaml:1:9: maker: The origin is named but left empty; accepted: the document and the place in "
                   "it, or a reason"}));
  EXPECT_EQ(lines_for("{value: 5 mm, makre: x}"),
            (Words{"job.yaml:1:15: makre: A value has no such field; found \"makre\"; accepted: value, measured, "
                   "maker, standard, assumed; did you mean \"maker\"?",
                   "job.yaml:1:1: The value does not say where it comes from; accepted: one of: measured, maker, "
                   "standard, assumed"}));
}

TEST(ValueNode, AMeasurementNamesPersonToolAndDay) {
  EXPECT_EQ(lines_for("{value: 5 mm, measured: {by: '', on: 2025-02-30}}"),
            (Words{"job.yaml:1:25: measured.with: A measurement needs the field `with`; accepted: text of at most 200 "
                   "bytes",
                   "job.yaml:1:30: measured.by: This field is left empty; accepted: text",
                   "job.yaml:1:38: measured.on: This is not a day of the calendar; found \"2025-02-30\"; accepted: a "
                   "day such as 2025-03-14"}));
  EXPECT_EQ(codes(checked(*yaml("{value: 5 mm, measured: yes}"), value_schema(Dimension::length))),
            Words{"wrong_kind"});
}

TEST(ValueNode, AWordInTheTextMayNotContradictThePaper) {
  EXPECT_EQ(lines_for("{value: 5 mm measured, maker: sheet 3}"),
            Words{"job.yaml:1:9: value: The value and its map name different origins; found \"5 mm measured\"; "
                  "accepted: the value without an origin word"});
  EXPECT_EQ(codes(checked(*yaml("{value: '?', maker: sheet 3}"), value_schema(Dimension::length))), Words{"bad_value"});
}

TEST(ValueNode, DaysFollowTheCalendar) {
  for (const char* good : {"2024-02-29", "2025-12-31", "0001-01-01"}) EXPECT_TRUE(is_date(good)) << good;
  for (const char* bad : {"2023-02-29", "2025-13-01", "2025-00-10", "2025-1-01", "25-01-01", "2025/01/01", "2025-01-1 ",
                          "2025-01--1", "", "2025-01-01T10:00"}) {
    EXPECT_FALSE(is_date(bad)) << bad;
  }
}

}  // namespace
}  // namespace cotter::document::test
