// The check of a node against a shape: every code with its whole diagnostic, and all of them in one go.
#include <gtest/gtest.h>

#include "core_support.hpp"

namespace cotter::document::test {
namespace {

using quantity::Dimension;
using Need = Field::Need;

Words lines_for(std::string_view text, const SchemaRef& schema) {
  const auto node = yaml(text);
  return node ? lines(checked(*node, schema)) : complaints(node);
}

Words codes_for(std::string_view text, const SchemaRef& schema) {
  const auto node = yaml(text);
  return node ? codes(checked(*node, schema)) : codes(node);
}

Words json_codes_for(std::string_view text, const SchemaRef& schema) {
  const auto node = json(text);
  return node ? codes(checked(*node, schema)) : codes(node);
}

SchemaRef part_schema() {
  const auto opening =
      object_schema("opening", {{"width", value_schema(Dimension::length), Need::required, "Clear width."}});
  return object_schema("part", {{"name", text_schema(12), Need::required, "What it is called."},
                                {"colour", word_schema({"black", "silver", "white"}), Need::optional, ""},
                                {"teeth", integer_schema(9, 60), Need::optional, ""},
                                {"ratio", real_schema(0.5, 6.25), Need::optional, ""},
                                {"used", boolean_schema(), Need::optional, ""},
                                {"openings", map_schema(opening, 2), Need::optional, ""},
                                {"meets", list_schema(identifier_schema(), 1, 2), Need::optional, ""}});
}

TEST(Schema, AGoodPartPasses) {
  const char* text =
      "name: crank\ncolour: black\nteeth: 42\nratio: 2.75\nused: true\nopenings: {left: {width: 24 mm}}\n"
      "meets: [shell, axle_2]\n";
  EXPECT_EQ(lines_for(text, part_schema()), Words{});
}

TEST(Schema, AllThatIsWrongIsToldInOneGo) {
  const char* text =
      "colour: blak\n"
      "teeth: 61\n"
      "ratio: [1]\n"
      "used: yes\n"
      "openings: {Left Side: {widht: 24 mm}, b: 3, c: {width: 5 mm}}\n"
      "meets: []\n";
  EXPECT_EQ(
      lines_for(text, part_schema()),
      (Words{
          "job.yaml:1:9: colour: The word is not one of those known here; found \"blak\"; accepted: one of: black, "
          "silver, white; did you mean \"black\"?",
          "job.yaml:2:8: teeth: The number is outside its range; found \"61\"; accepted: a whole number from 9 to 60",
          "job.yaml:3:8: ratio: This is a list, which does not belong here; found \"a list\"; accepted: a number from "
          "0.5 to 6.25",
          "job.yaml:4:7: used: This is text, which does not belong here; found \"yes\"; accepted: true or false; did "
          "you mean \"true\"?",
          "job.yaml:5:11: openings: There are too many entries here; found \"3 entries\"; accepted: a map of 0 to 2 "
          "entries (opening each)",
          "job.yaml:5:12: openings.Left Side: This cannot serve as a name for reference; found \"Left Side\"; "
          "accepted: a lower-case letter, then lower-case letters, digits and `_`, at most 64 in all; did you mean "
          "\"left_side\"?",
          "job.yaml:5:24: openings.Left Side.widht: An opening has no such field; found \"widht\"; accepted: width; "
          "did you mean \"width\"?",
          "job.yaml:5:23: openings.Left Side.width: An opening needs the field `width`; accepted: a length such as "
          "41.5 mm",
          "job.yaml:5:42: openings.b: This is text, which does not belong here; found \"3\"; accepted: a map of fields "
          "(opening)",
          "job.yaml:6:8: meets: There are too few entries here; found \"0 entries\"; accepted: a list of 1 to 2 "
          "entries",
          "job.yaml:1:1: name: A part needs the field `name`; accepted: text of at most 12 bytes",
      }));
}

TEST(Schema, TextIsTextAndNotTooLong) {
  EXPECT_EQ(codes_for("5", text_schema()), Words{});  // YAML has no numbers here, so a part may be called 5
  EXPECT_EQ(codes_for("'no'", text_schema()), Words{});
  EXPECT_EQ(json_codes_for("5", text_schema()), Words{"wrong_kind"});
  EXPECT_EQ(json_codes_for("true", text_schema()), Words{"wrong_kind"});
  EXPECT_EQ(lines_for("abcdef", text_schema(5)),
            Words{"job.yaml:1:1: The text has 6 bytes, which is too long; found \"abcdef\"; accepted: text of at most "
                  "5 bytes"});
  EXPECT_EQ(lines_for("a:", map_schema(text_schema(5))),
            Words{"job.yaml:1:3: a: The value is missing here; accepted: text of at most 5 bytes"});
}

TEST(Schema, WholeNumbersAreWrittenInOneWay) {
  const auto schema = integer_schema(-5, INT64_MAX);
  for (const char* good : {"0", "-5", "8", "9223372036854775807"}) {
    EXPECT_EQ(codes_for(good, schema), Words{}) << good;
    EXPECT_EQ(json_codes_for(good, schema), Words{}) << good;
  }
  for (const char* bad : {"010", "1.9", "1e3", "+5", "0x1F", "1_000", "5,0", "five", "'5'", "\"\"", "-", "~",
                          "5 "
                          "mm"}) {
    EXPECT_EQ(codes_for(bad, schema), Words{"wrong_kind"}) << bad;
  }
  EXPECT_EQ(lines_for("010", schema),
            Words{"job.yaml:1:1: This is text, which does not belong here; found \"010\"; accepted: a whole number "
                  "from -5 to 9223372036854775807; did you mean \"10\"?"});
  for (const char* bad : {"1.9", "1.0", "1e3", "\"5\"", "true", "null"}) {
    EXPECT_EQ(json_codes_for(bad, schema), Words{"wrong_kind"}) << bad;
  }
  for (const char* far : {"9223372036854775808", "123456789012345678901234567890", "-6"}) {
    EXPECT_EQ(codes_for(far, schema), Words{"out_of_range"}) << far;
    EXPECT_EQ(json_codes_for(far, schema), Words{"out_of_range"}) << far;
  }
}

TEST(Schema, NumbersAreFiniteAndWithinBounds) {
  const auto schema = real_schema(-1, 2000);
  for (const char* good : {"-1", "1e3", "0.25", "2E+3", "1e-400", "-0"}) {
    const bool underflows = std::string_view(good) == "1e-400";
    EXPECT_EQ(codes_for(good, schema), underflows ? Words{"out_of_range"} : Words{}) << good;
  }
  for (const char* bad : {".5", "1.", "nan", ".inf", "0x1p3", "010", "'1'"}) {
    EXPECT_EQ(codes_for(bad, schema), Words{"wrong_kind"}) << bad;
  }
  EXPECT_EQ(codes_for("1e999", schema), Words{"out_of_range"});
  EXPECT_EQ(codes_for("2000.5", schema), Words{"out_of_range"});
}

TEST(Schema, FlagsAreTrueOrFalse) {
  EXPECT_EQ(codes_for("[true, false]", list_schema(boolean_schema())), Words{});
  EXPECT_EQ(codes_for("[yes, no, True, 'true', 1]", list_schema(boolean_schema())), Words(5, "wrong_kind"));
  EXPECT_EQ(lines_for("no", boolean_schema()),
            Words{"job.yaml:1:1: This is text, which does not belong here; found \"no\"; accepted: true or false; did "
                  "you mean \"false\"?"});
}

TEST(Schema, WordsStayWords) {
  const auto schema = word_schema({"no", "yes", "010"});
  EXPECT_EQ(codes_for("[no, yes, 010, 'no']", list_schema(schema)), Words{});
  EXPECT_EQ(json_codes_for("[false, 10]", list_schema(schema)), (Words{"wrong_kind", "wrong_kind"}));
}

TEST(Schema, NamesForReferenceAreShortAndLowerCase) {
  const auto schema = list_schema(identifier_schema());
  EXPECT_EQ(codes_for("[a, shell_2, " + std::string(64, 'x') + "]", schema), Words{});
  EXPECT_EQ(codes_for("[2a, _a, A, a-b, ä, '', " + std::string(65, 'x') + "]", schema), Words(7, "bad_identifier"));
}

TEST(Schema, EitherIsToldApartByKind) {
  const auto point = object_schema("point", {{"x", integer_schema(0, 9), Need::required, ""}});
  const auto schema = either_schema({word_schema({"auto"}), point});
  EXPECT_EQ(codes_for("auto", schema), Words{});
  EXPECT_EQ(codes_for("{x: 3}", schema), Words{});
  EXPECT_EQ(codes_for("atuo", schema), Words{"unknown_word"});
  EXPECT_EQ(lines_for("{x: 10}", schema),
            Words{"job.yaml:1:5: x: The number is outside its range; found \"10\"; accepted: a whole number from 0 to "
                  "9"});
  EXPECT_EQ(lines_for("[1]", schema),
            Words{"job.yaml:1:1: This is a list, which does not belong here; found \"a list\"; accepted: one of: auto, "
                  "or a map of fields (point)"});
  const auto scalars = either_schema({integer_schema(1, 9), word_schema({"all"})});
  EXPECT_EQ(codes_for("[3, all]", list_schema(scalars)), Words{});
  EXPECT_EQ(lines_for("none", scalars),
            Words{"job.yaml:1:1: This is text, which does not belong here; found \"none\"; accepted: a whole number "
                  "from 1 to 9, or one of: all"});
}

TEST(Schema, AnythingPasses) {
  EXPECT_EQ(codes_for("{a: [b, ~, {C d: 'e'}]}", anything_schema()), Words{});
}

TEST(Schema, ReadersGiveWhatWasWritten) {
  const auto node = yaml("{t: text, i: -7, r: 2.5, b: true, f: false}");
  ASSERT_TRUE(node);
  EXPECT_EQ(text_of(*node->find("t")), "text");
  EXPECT_EQ(integer_of(*node->find("i")), -7);
  EXPECT_EQ(real_of(*node->find("r")), 2.5);
  EXPECT_TRUE(boolean_of(*node->find("b")));
  EXPECT_EQ(text_or(*node, "t", "other"), "text");
  EXPECT_EQ(text_or(*node, "missing", "other"), "other");
  EXPECT_EQ(integer_or(*node, "i", 1), -7);
  EXPECT_EQ(integer_or(*node, "missing", 1), 1);
  EXPECT_FALSE(boolean_or(*node, "f", true));
  EXPECT_TRUE(boolean_or(*node, "missing", true));
  EXPECT_THROW(integer_of(*node->find("t")), quantity::BugError);
  EXPECT_THROW(boolean_of(*node->find("t")), quantity::BugError);
  EXPECT_THROW(text_of(*node), quantity::BugError);
}

}  // namespace
}  // namespace cotter::document::test
