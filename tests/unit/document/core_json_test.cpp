// JSON: what is read, with its marks, and every trap of the parser below.
#include <gtest/gtest.h>

#include "core_support.hpp"

namespace cotter::document::test {
namespace {

TEST(Json, ReadsEveryKindInOrder) {
  const std::string text = R"({"b":[1,-0,2.50,1E+2,"x",true,false,null],"a":{"":{}},"c":[]})";
  const auto node = json(text);
  ASSERT_TRUE(node) << complaints(node).front();
  EXPECT_EQ(write_json_line(*node), text);
  EXPECT_TRUE(node->find("b")->items()[4].quoted());
}

TEST(Json, NumbersKeepTheirDigits) {
  for (const char* digits :
       {"9223372036854775808", "123456789012345678901234567890", "0.10", "-0.0", "1e-400", "5E3"}) {
    const auto node = json(digits);
    ASSERT_TRUE(node) << digits;
    EXPECT_EQ(node->scalar(), digits);
    EXPECT_EQ(node->kind(), Node::Kind::number);
  }
}

TEST(Json, MarksPointAtTheTokens) {
  const auto node = json("{\n  \"ä\\\"\": [ 10,\n\t\"two\" , {\"x\" :true} ]\n}");
  ASSERT_TRUE(node);
  const Node::Entry& entry = node->entries()[0];
  EXPECT_EQ(node->mark(), (Mark{1, 1}));
  EXPECT_EQ(entry.key_mark, (Mark{2, 3}));
  EXPECT_EQ(entry.value.mark(), (Mark{2, 10}));
  EXPECT_EQ(entry.value.items()[0].mark(), (Mark{2, 12}));
  EXPECT_EQ(entry.value.items()[1].mark(), (Mark{3, 2}));
  EXPECT_EQ(entry.value.items()[2].entries()[0].key_mark, (Mark{3, 11}));
  EXPECT_EQ(entry.value.items()[2].entries()[0].value.mark(), (Mark{3, 16}));
}

TEST(Json, DuplicateKeysAreAllNamed) {
  EXPECT_EQ(complaints(json("{\"a\": 1,\n\"b\": [{\"c\": 1, \"\\u0063\": 2}],\n\"a\": 3}")),
            (Words{"job.json:2:16: b[0].c: The same key stands in line 2 already; found \"c\"; accepted: each key once "
                   "in a map",
                   "job.json:3:1: a: The same key stands in line 1 already; found \"a\"; accepted: each key once in a "
                   "map"}));
}

TEST(Json, BrokenSyntaxNamesPlacePathAndWhatWasExpected) {
  EXPECT_EQ(complaints(json("{\"a\": [1,\n  }")),
            Words{"job.json:2:3: a[1]: The text cannot be read as JSON here, where it should go on with: value; found "
                  "\"}\"; accepted: '[', '{', or a literal"});
  EXPECT_EQ(codes(json("{'a': 1}")), Words{"syntax"});
  EXPECT_EQ(codes(json("[1,]")), Words{"syntax"});
  EXPECT_EQ(codes(json("[01]")), Words{"syntax"});
  EXPECT_EQ(codes(json("[NaN]")), Words{"syntax"});
  EXPECT_EQ(codes(json("// no\n1")), Words{"syntax"});
  EXPECT_EQ(codes(json("\"a\nb\"")), Words{"syntax"});
  EXPECT_EQ(codes(json("\"\\ud800\"")), Words{"syntax"});
  EXPECT_EQ(codes(json("[\"open")), Words{"syntax"});
}

TEST(Json, EmptyTextIsNoDocument) {
  EXPECT_EQ(json(" \n").error().list()[0].message, "The document is empty.");
}

TEST(Json, SeveralDocumentsAreRefused) {
  EXPECT_EQ(complaints(json("{}\n{}")),
            Words{"job.json:2:1: There is more text after the end of the document; found \"{}\"; accepted: one "
                  "document in a file"});
  EXPECT_EQ(codes(json("1 x")), Words{"many_documents"});
  EXPECT_TRUE(json("1 \n"));
}

TEST(Json, DeepNestingIsRefused) {
  EXPECT_EQ(codes(json(std::string(100'000, '['))), Words{"too_deep"});
  EXPECT_TRUE(json(std::string(64, '[') + std::string(64, ']')));
  EXPECT_EQ(codes(json(std::string(65, '[') + std::string(65, ']'))), Words{"too_deep"});
}

TEST(Json, TooManyNodesAndBytesAreRefused) {
  std::string text = "[0";
  for (int i = 0; i < 100'000; ++i) text += ",0";
  EXPECT_EQ(codes(json(text + "]")), Words{"too_large"});
  EXPECT_EQ(codes(json("\"" + std::string(1u << 20, 'x') + "\"")), Words{"too_large"});
}

TEST(Json, TwoHundredThousandKeysAreRefused) {
  std::string text = "{";
  for (int i = 0; i < 200'000; ++i) text += "\"" + std::to_string(i) + "\":0,";
  const auto read = json(text + "\"x\":0}", {.bytes = 4u << 20});
  EXPECT_EQ(codes(read), Words{"too_large"});
  EXPECT_EQ(read.error().list()[0].message, "The document has more than 100000 entries.");
}

TEST(Json, NumbersBeyondADoubleAreRefused) {
  const auto read = json("{\"a\": 1e999}");
  EXPECT_EQ(codes(read), Words{"out_of_range"});
  EXPECT_EQ(read.error().list()[0].field, "a");
}

TEST(Json, ControlCharactersAndBadUtf8AreRefused) {
  using namespace std::string_view_literals;
  EXPECT_EQ(codes(json("1\0 2"sv)), Words{"not_text"});
  EXPECT_EQ(codes(json("\"\xC0\xAF\"")), Words{"not_text"});
  const auto escaped = json("{\"a\": \"\\u0000\", \"b\\u001b\": 1}");
  EXPECT_EQ(complaints(escaped),
            (Words{"job.json:1:7: a: The text holds a control character written as an escape; found \"\\x00\"; "
                   "accepted: letters, signs and spaces",
                   "job.json:1:17: b\\x1B: The text holds a control character written as an escape; found \"b\\x1B\"; "
                   "accepted: letters, signs and spaces"}));
}

// The parser skipped it, so that the places no longer fitted its events (found by fuzzing).
TEST(Json, ASecondByteOrderMarkIsRefused) {
  EXPECT_TRUE(
      json("\xEF\xBB\xBF"
           "7"));
  EXPECT_EQ(codes(json("\xEF\xBB\xBF\xEF\xBB\xBF"
                       "7")),
            Words{"not_text"});
}

}  // namespace
}  // namespace cotter::document::test
