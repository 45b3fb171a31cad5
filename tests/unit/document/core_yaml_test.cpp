// YAML: what is read, with its marks, and every trap of the parser below, each named by its test.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core_support.hpp"

namespace cotter::document::test {
namespace {

TEST(Yaml, ReadsListsMapsAndScalarsInOrder) {
  const auto node = yaml("b: one\na:\n  - 'two'\n  - \"th\\tree\"\n  - ~\nc: {d: [e, f]}\n");
  ASSERT_TRUE(node) << complaints(node).front();
  EXPECT_EQ(write_json_line(*node), R"({"b":"one","a":["two","th\tree",null],"c":{"d":["e","f"]}})");
  EXPECT_FALSE(node->find("b")->quoted());
  EXPECT_TRUE(node->find("a")->items()[0].quoted());
}

TEST(Yaml, MarksCountLinesAndCharactersFromOne) {
  const auto node = yaml("µ: 'ä' # é\nparts:\n  - {größe: 41 mm}\n");
  ASSERT_TRUE(node);
  EXPECT_EQ(node->find("µ")->mark(), (Mark{1, 4}));
  const Node& part = node->find("parts")->items()[0];
  EXPECT_EQ(part.mark(), (Mark{3, 5}));
  EXPECT_EQ(part.entries()[0].key_mark, (Mark{3, 6}));
  EXPECT_EQ(part.entries()[0].value.mark(), (Mark{3, 13}));
}

TEST(Yaml, WindowsLineEndsAndByteOrderMarkAreRead) {
  const auto node = yaml(
      "\xEF\xBB\xBF"
      "a: 1\r\nb: \"2\"\r\n");
  ASSERT_TRUE(node) << complaints(node).front();
  EXPECT_EQ(write_json_line(*node), R"({"a":"1","b":"2"})");
  EXPECT_EQ(node->find("b")->mark(), (Mark{2, 4}));
}

TEST(Yaml, BlockTextIsReadAndCountsAsQuoted) {
  const auto node = yaml("note: |\n  \"open\n  it's: # kept\nfolded: >-\n  one\n  two\n");
  ASSERT_TRUE(node) << complaints(node).front();
  EXPECT_EQ(node->find("note")->scalar(), "\"open\nit's: # kept\n");
  EXPECT_EQ(node->find("folded")->scalar(), "one two");
  EXPECT_TRUE(node->find("note")->quoted());
}

TEST(Yaml, NothingTurnsIntoNumbersOrFlags) {
  const auto node = yaml("[010, no, 1e3, 0x1F, yes, 1_000, .inf, 2025-03-14, true]");
  ASSERT_TRUE(node);
  for (const Node& item : node->items()) EXPECT_EQ(item.kind(), Node::Kind::text) << item.scalar();
  EXPECT_EQ(write_json_line(*node), R"(["010","no","1e3","0x1F","yes","1_000",".inf","2025-03-14","true"])");
}

TEST(Yaml, ForgottenQuoteDoesNotEatTheRestOfTheFile) {
  EXPECT_EQ(complaints(yaml("a: \"x\nb: 2\n")),
            Words{"job.yaml:1:4: a: The quoted text does not end on its line; found \"\"x\"; accepted: a closing quote "
                  "on the line of the opening one"});
  EXPECT_EQ(complaints(yaml("a: 'x\nb: 2\n")),
            Words{"job.yaml:1:4: a: The quoted text does not end on its line; found \"'x\"; accepted: a closing quote "
                  "on the line of the opening one"});
}

struct QuoteCase {
  const char* text;
  Mark mark;
};

class OpenQuote : public testing::TestWithParam<QuoteCase> {};

TEST_P(OpenQuote, IsReportedWhereItBegins) {
  const auto read = yaml(GetParam().text);
  ASSERT_FALSE(read);
  EXPECT_EQ(codes(read), Words{"unclosed_quote"});
  EXPECT_EQ(read.error().list()[0].mark, GetParam().mark) << complaints(read)[0];
}

INSTANTIATE_TEST_SUITE_P(Yaml, OpenQuote,
                         testing::Values(QuoteCase{"a: 1\nb: \"x\nc: 2", {2, 4}},      // runs to the end of the file
                                         QuoteCase{"a: \"x\nb: \"y\"\n", {1, 4}},      // closes at the next quote
                                         QuoteCase{"- \"a\\\"\n- b\n", {1, 3}},        // the closing one is escaped
                                         QuoteCase{"- 'it''\n- b'\n", {1, 3}},         // the closing one is doubled
                                         QuoteCase{"a: \"x\\\n  y\"\n", {1, 4}},       // escaped line end
                                         QuoteCase{"[\"a\nb\", c]\n", {1, 2}},         // in a list in brackets
                                         QuoteCase{"\"key\n\": v\n", {1, 1}},          // a key
                                         QuoteCase{"a: \"x\" y\n", {1, 4}},            // text behind the closing one
                                         QuoteCase{"a: \"x\"# no comment\n", {1, 4}},  // comment without a space
                                         QuoteCase{"# it's \"\na: it's\nb: 'x\n", {3, 4}}));  // comments and words pass

TEST(Yaml, QuotesThatCloseAreRead) {
  const auto node = yaml("a: \"say \\\"x\\\"\" # c\n'b': ['it''s', \"}\" ,'#']\n\"c\" : {\"d\": 'e'}\n");
  ASSERT_TRUE(node) << complaints(node).front();
  EXPECT_EQ(write_json_line(*node), R"({"a":"say \"x\"","b":["it's","}","#"],"c":{"d":"e"}})");
}

TEST(Yaml, DuplicateKeysAreAllNamed) {
  EXPECT_EQ(complaints(yaml("a: 1\nb: {c: 1, c: 2}\n\"a\": 3\n")),
            (Words{"job.yaml:2:11: b.c: The same key stands in line 2 already; found \"c\"; accepted: each key once in "
                   "a map",
                   "job.yaml:3:1: a: The same key stands in line 1 already; found \"a\"; accepted: each key once in a "
                   "map"}));
}

TEST(Yaml, AnchorsAliasesAndTagsAreRefused) {
  const auto read = yaml("a: &x 1\nb: *x\nc: !!str y\nd: ! z\ne: &s [*s]\nf: &m {g: 1}\n");
  EXPECT_EQ(codes(read), (Words{"alias", "alias", "syntax", "syntax", "alias", "alias", "alias"}));
  EXPECT_EQ(complaints(read)[0],
            "job.yaml:1:4: a: Anchors (`&`) are not allowed; found \"&x 1\"; accepted: the value itself");
  EXPECT_EQ(complaints(read)[1],
            "job.yaml:2:4: b: Aliases (`*`) are not allowed; found \"*x\"; accepted: the value itself, or the text in "
            "quotes");
  EXPECT_EQ(read.error().list()[2].mark, (Mark{3, 4}));
}

TEST(Yaml, AliasBombIsRefusedAtItsFirstAnchor) {
  std::string bomb = "a0: &a0 [x, x]\n";
  for (int i = 1; i < 40; ++i) {
    const std::string before = "*a" + std::to_string(i - 1);
    bomb += "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [" + before + ", " + before + "]\n";
  }
  const auto read = yaml(bomb);
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().list()[0].code, "alias");
  EXPECT_EQ(read.error().list()[0].mark, (Mark{1, 5}));
  EXPECT_EQ(read.error().list().size(), Diagnostics::k_most);
  EXPECT_EQ(read.error().left_out(), 40u + 39u * 2u - Diagnostics::k_most);
}

TEST(Yaml, DeepNestingIsRefused) {
  for (const char* level : {"[", "{a: ", "- "}) {
    std::string text;
    for (int i = 0; i < 100'000; ++i) text += level;
    const auto read = yaml(text);
    EXPECT_EQ(codes(read), Words{"too_deep"}) << level << complaints(read).front();
  }
  std::string keys;
  for (int i = 0; i < 100'000; ++i) keys += "? ";
  EXPECT_EQ(codes(yaml(keys)), Words{"syntax"});  // a map as a key ends the reading before the limit does
  EXPECT_TRUE(yaml(std::string(64, '[') + std::string(64, ']')));
  EXPECT_EQ(codes(yaml(std::string(65, '[') + std::string(65, ']'))), Words{"too_deep"});
}

TEST(Yaml, HugeFileIsRefusedUnread) {
  EXPECT_EQ(complaints(yaml("a: " + std::string(1u << 20, 'x'))),
            Words{"job.yaml: The file has more than 1048576 bytes; accepted: a smaller file"});
}

TEST(Yaml, TwoHundredThousandKeysAreRefused) {
  std::string text;
  for (int i = 0; i < 200'000; ++i) text += std::to_string(i) + ":\n";
  ASSERT_GT(text.size(), 1u << 20);
  const auto read = yaml(text, {.bytes = 4u << 20});
  EXPECT_EQ(codes(read), Words{"too_large"});
  EXPECT_EQ(read.error().list()[0].message, "The document has more than 100000 entries.");
}

TEST(Yaml, BytesThatAreNotUtf8AreRefused) {
  EXPECT_EQ(complaints(yaml("a: x\nb: \xC3(\n")),
            Words{"job.yaml:2:4: The file holds bytes that are not UTF-8; found \"\\xC3(\\n\"; accepted: text saved as "
                  "UTF-8"});
  for (const char* bad : {"\x80", "\xC0\xAF", "\xE0\x80\xAF", "\xF0\x80\x80\xAF", "\xED\xA0\x80", "\xF4\x90\x80\x80",
                          "\xF8\x88\x80\x80\x80", "\xE2\x82", "\xFF"}) {
    EXPECT_EQ(codes(yaml(std::string("a: ") + bad)), Words{"not_text"}) << printable(bad, 9);
  }
  EXPECT_EQ(yaml("\xFF\xFE"
                 "a")
                .error()
                .list()[0]
                .message,
            "The file is not UTF-8; it looks like UTF-16.");
  EXPECT_TRUE(yaml("a: \xED\x9F\xBF \xEE\x80\x80 \xF4\x8F\xBF\xBF"));
}

TEST(Yaml, ControlCharactersAreRefusedRawAndEscaped) {
  using namespace std::string_view_literals;
  for (const std::string_view bad :
       {"a: \0"sv, "a: \x04"sv, "a: \x1B[0m"sv, "a: \x7F"sv, "a: \xC2\x85"sv, "a: x\rb: y"sv}) {
    EXPECT_EQ(codes(yaml(bad)), Words{"not_text"}) << printable(bad, 20);
  }
  EXPECT_EQ(codes(yaml("a: \"\\0\"\n")), Words{"not_text"});
  EXPECT_EQ(codes(yaml("a: \"\\e[0m\"\n")), Words{"not_text"});
  EXPECT_TRUE(yaml("a: \"tab\\t, line\\n\"\n"));
}

TEST(Yaml, PercentLinesAreRefused) {
  EXPECT_EQ(complaints(yaml("%YAML 1.2\n---\na: 1\n")),
            Words{"job.yaml:1:1: A line may not begin with `%`; found \"%YAML 1.2\"; accepted: the text in quotes, or "
                  "moved in by a space"});
  EXPECT_EQ(codes(yaml("a: 1\n%\n")), Words{"syntax"});
  EXPECT_TRUE(yaml("a: 100 %\n"));
}

TEST(Yaml, SeveralDocumentsAreRefused) {
  EXPECT_EQ(complaints(yaml("a: 1\n---\nb: 2\n")),
            Words{"job.yaml:2:1: There is more text after the end of the document; found \"---\"; accepted: one "
                  "document in a file"});
  EXPECT_EQ(codes(yaml("[a] b\n")), Words{"many_documents"});
  EXPECT_EQ(codes(yaml("a: 1\n...\nb\n")), Words{"many_documents"});
  EXPECT_EQ(codes(yaml("---\n---\n")), Words{"many_documents"});
  EXPECT_TRUE(yaml("---\na: 1\n...\n# the end\n\n"));
}

TEST(Yaml, MissingKeysAndColonsAreRefused) {
  EXPECT_EQ(complaints(yaml("a: 1\n: x\n")),
            Words{"job.yaml:2:1: The key is missing here; found \": x\"; accepted: a word, a colon and a value"});
  EXPECT_EQ(complaints(yaml("a: \"x\"\nnot-a-key\n")),
            Words{"job.yaml:2:1: not-a-key: The colon is missing after this key; found \"not-a-key\"; accepted: a "
                  "word, a colon and a value"});
  EXPECT_EQ(codes(yaml("? [a]\n: b\n")), Words{"syntax"});
  EXPECT_EQ(codes(yaml("{[a]: b}\n")), Words{"syntax"});
  EXPECT_EQ(codes(yaml("~: b\n")), Words{"syntax"});
  EXPECT_TRUE(yaml("a:\nb:\n"));
}

TEST(Yaml, EmptyTextIsNoDocument) {
  for (const char* text : {"", "\n", "# only a comment\n"}) {
    EXPECT_EQ(codes(yaml(text)), Words{"syntax"}) << text;
    EXPECT_EQ(yaml(text).error().list()[0].message, "The document is empty.");
  }
}

TEST(Yaml, BrokenSyntaxNamesThePlaceAndAMend) {
  EXPECT_EQ(
      complaints(yaml("a: 1\nb: c: d\n")),
      Words{
          "job.yaml:2:5: The text cannot be read as YAML here (a colon where no key can end); found \": d\"; accepted: "
          "lines `key: value` moved in alike, items `- value`, and text with `: ` or ` #` in quotes"});
  EXPECT_EQ(complaints(yaml("a: {b: c}\nd: [1, 2\n")),
            Words{"job.yaml:2:4: d[2]: The bracket that opens here is not closed as it should be; found \"[1, 2\"; "
                  "accepted: commas between the entries and the closing bracket behind the last"});
  EXPECT_EQ(codes(yaml("[a\n")), Words{"syntax"});
  EXPECT_EQ(yaml("[a\n").error().list()[0].message, "The bracket that opens here is not closed as it should be.");
  EXPECT_EQ(codes(yaml("}")), Words{"syntax"});
}

TEST(Yaml, WhatTheParserRefusesIsSaidInWords) {
  const auto said = [](const char* text) {
    const auto read = yaml(text);
    return read ? std::string("read") : complaints(read).front();
  };
  EXPECT_THAT(said("a: *very* nice\n"), testing::StartsWith("job.yaml:1:4: a: Aliases (`*`) are not allowed; found"));
  EXPECT_THAT(said("a: &\n"), testing::StartsWith("job.yaml:1:4: a: Anchors (`&`) are not allowed; found \"&\";"));
  EXPECT_THAT(said("a: !x!y z\n"), testing::StartsWith("job.yaml:1:4: a: Tags (`!`) are not allowed; found"));
  EXPECT_THAT(said("a:\n\tb: 1\n"), testing::HasSubstr("1: a: The text cannot be read as YAML here (a tab where only"));
  EXPECT_THAT(said("a:\n{b: 1}\n"), testing::StartsWith("job.yaml:2:1: a: The bracket stands where a key should;"));
  EXPECT_THAT(said("a: \"\\q\"\n"), testing::HasSubstr("(an unknown letter or sign after a backslash); found"));
  EXPECT_THAT(said("- a\nb: 1\n"), testing::HasSubstr("(no `- ` where the next item must stand); found \"b: 1\""));
  EXPECT_THAT(said("? a\nb: 1\n"), testing::StartsWith("job.yaml:1:3: a: The colon is missing after this key;"));
  EXPECT_THAT(said("{: x}\n"), testing::StartsWith("job.yaml:1:2: The key is missing here; found \": x}\""));
  EXPECT_EQ(said("a: {b: 1, c:}\n"),
            "job.yaml:1:13: a.c: The value is missing here; found \"}\"; accepted: a value behind the colon");
  EXPECT_EQ(said("a: {b:[1]}\n"),
            "job.yaml:1:6: a.b: The space behind the colon is missing; found \":[1]}\"; accepted: a word, a colon, a "
            "space and a value");
  EXPECT_THAT(said("a: b\n}\n"), testing::StartsWith("job.yaml:2:1: The text cannot be read as YAML here ("));
}

TEST(Yaml, LineEndsOfSomeReadersAndNonCharactersAreRefused) {
  for (const char* bad : {"\xE2\x80\xA8", "\xE2\x80\xA9", "\xEF\xBF\xBE", "\xEF\xBF\xBF"}) {
    const auto read = yaml("a: 1\nb: \xC2\xB5 # x" + std::string(bad) + "c: 2\n");
    ASSERT_EQ(codes(read), Words{"not_text"}) << printable(bad, 9);
    EXPECT_EQ(read.error().list()[0].mark, (Mark{2, 9}));
  }
}

TEST(Yaml, EmptyValuesStandBehindTheirColon) {
  const auto read = yaml("a:\nb: ~\nc: {d: , e: null}\n");
  ASSERT_TRUE(read) << complaints(read).front();
  EXPECT_EQ(write_json_line(*read), R"({"a":null,"b":null,"c":{"d":null,"e":null}})");
  EXPECT_EQ(read->find("a")->mark(), (Mark{1, 3}));
  EXPECT_EQ(read->find("b")->mark(), (Mark{2, 4}));
  EXPECT_EQ(read->find("c")->find("d")->mark(), (Mark{3, 8}));
}

TEST(Yaml, ALongLineOfQuotesIsReadInTime) {
  std::string text = "[";
  for (int i = 0; i < 90'000; ++i) text += "\"\xC3\xA4\",";
  const auto read = yaml(text + "'x']\n");
  ASSERT_TRUE(read) << complaints(read).front();
  EXPECT_EQ(read->items().back().mark(), (Mark{1, 360'002}));
  EXPECT_TRUE(read->items().back().quoted());
}

TEST(Yaml, ASecondByteOrderMarkIsRefused) {
  EXPECT_EQ(codes(yaml("\xEF\xBB\xBF\xEF\xBB\xBF"
                       "a: 'b'")),
            Words{"not_text"});
}

}  // namespace
}  // namespace cotter::document::test
