// Nodes, writing, hashing, diagnostics and files.
#include <cmath>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <limits>
#include <rapidcheck/gtest.h>

#include "core_support.hpp"

namespace cotter::document::test {
namespace {

TEST(Node, RealsAreTheShortestThatReadBack) {
  EXPECT_EQ(Node::real(0.1).scalar(), "0.1");
  EXPECT_EQ(Node::real(-2.5).scalar(), "-2.5");
  EXPECT_EQ(Node::real(1.0 / 3.0).scalar(), "0.3333333333333333");
  EXPECT_EQ(Node::real(5e-324).scalar(), "5e-324");
  EXPECT_THROW(Node::real(std::numeric_limits<double>::infinity()), quantity::BugError);
  EXPECT_THROW(Node::real(std::numeric_limits<double>::quiet_NaN()), quantity::BugError);
}

RC_GTEST_PROP(NodeProperty, RealsReadBackToTheSameDouble, (double value)) {
  RC_PRE(std::isfinite(value));
  RC_ASSERT(real_of(Node::real(value)) == value);
}

TEST(Node, NumbersAreAsJsonWritesThem) {
  for (const char* good : {"0", "-0", "10", "0.50", "1e5", "1E-5", "-12.5e+07"}) EXPECT_TRUE(is_number(good)) << good;
  for (const char* bad : {"", "-", "01", ".5", "5.", "1e", "1e+", "+1", " 1", "1 ", "0x1", "nan", "1.e3", "--1"}) {
    EXPECT_FALSE(is_number(bad)) << bad;
    EXPECT_THROW(Node::number(bad), quantity::BugError) << bad;
  }
  EXPECT_TRUE(is_whole_number("-12"));
  EXPECT_FALSE(is_whole_number("1.0"));
  EXPECT_FALSE(is_whole_number("1e3"));
  EXPECT_EQ(number_length("01"), 1u);
  EXPECT_EQ(number_length("1.5.2"), 3u);
  EXPECT_EQ(number_length("2e+x"), 1u);
}

TEST(Node, MapsFindAndKeepOrder) {
  Node map = Node::map();
  map.set("b", Node::integer(1)).set("a", Node::list_of({Node::null(), Node::text("x")}));
  EXPECT_EQ(map.find("b")->scalar(), "1");
  EXPECT_EQ(map.find("c"), nullptr);
  map.find("b")->operator=(Node::boolean(true));
  EXPECT_EQ(write_json_line(map), R"({"b":true,"a":[null,"x"]})");
  EXPECT_THROW(map.set("a", Node::null()), quantity::BugError);
  EXPECT_THROW(map.push(Node::null()), quantity::BugError);
}

TEST(Node, EqualityLooksAtKindTextAndOrderOnly) {
  EXPECT_EQ(Node::text("5", {1, 2}, true), Node::text("5", {7, 7}, false));
  EXPECT_FALSE(Node::text("5") == Node::number("5"));
  EXPECT_FALSE(Node::null() == Node::text(""));
  EXPECT_FALSE(*json("{\"a\":1,\"b\":2}") == *json("{\"b\":2,\"a\":1}"));
  EXPECT_EQ(*json("[ {\"a\" : [1] } ]"), *json("[{\"a\":[1]}]"));
}

TEST(Write, LinesAreIndentedByTwo) {
  EXPECT_EQ(write_json(*json(R"({"a":[1,{"b":null}],"c":{},"d":[]})")),
            "{\n  \"a\": [\n    1,\n    {\n      \"b\": null\n    }\n  ],\n  \"c\": {},\n  \"d\": []\n}");
}

TEST(Write, StringsAreEscapedAndNeverInvalid) {
  EXPECT_EQ(write_json_line(Node::text("\"\\/\b\f\n\r\t\x01 é µ")), "\"\\\"\\\\/\\b\\f\\n\\r\\t\\u0001 é µ\"");
  EXPECT_EQ(write_json_line(Node::text("a\xFF"
                                       "b")),
            "\"a\\\\xFFb\"");
}

Node random_node(int depth) {
  using namespace rc;
  switch (*gen::inRange(0, depth > 0 ? 6 : 4)) {
    case 0:
      return Node::null();
    case 1:
      return Node::boolean(*gen::arbitrary<bool>());
    case 2:
      return Node::integer(*gen::arbitrary<std::int64_t>());
    case 3:
      return Node::text(*gen::container<std::string>(gen::inRange<char>(' ', '~')));
    case 4: {
      Node list = Node::list();
      for (int i = *gen::inRange(0, 4); i > 0; --i) list.push(random_node(depth - 1));
      return list;
    }
    default: {
      Node map = Node::map();
      for (int i = *gen::inRange(0, 4); i > 0; --i) map.set("k\n\"" + std::to_string(i), random_node(depth - 1));
      return map;
    }
  }
}

RC_GTEST_PROP(WriteProperty, WhatIsWrittenReadsBackTheSame, ()) {
  const Node node = random_node(4);
  RC_ASSERT(*json(write_json(node)) == node);
  RC_ASSERT(*json(write_json_line(node)) == node);
  RC_ASSERT(content_hash(*json(write_json(node))) == content_hash(node));
}

RC_GTEST_PROP(ParseProperty, AnyBytesGiveANodeOrCleanDiagnostics, (const std::string& text)) {
  for (const auto& read : {yaml(text), json(text)}) {
    if (read) continue;
    RC_ASSERT(!read.error().empty());
    for (const Diagnostic& diagnostic : read.error().list()) {
      RC_ASSERT(!diagnostic.code.empty() && !diagnostic.message.empty());
      RC_ASSERT(printable(one_line(diagnostic), 10'000) == one_line(diagnostic));
    }
  }
}

// SHA-256 is that of FIPS 180-4; the digests were made by the system's sha256sum from the same bytes.
TEST(Hash, IsSha256OfTheOneLineJson) {
  EXPECT_EQ(content_hash(Node::list()), "4f53cda18c2baa0c0354bb5f9a3ecbe5ed12ab4d8e11ba873c2f11161202b945");
  EXPECT_EQ(content_hash(*json(" { \"a\" : [ 1 , \"µ\" ] } ")),
            "7d433552655cc198b0cef46d7919d10c24bfd15f92e26dca8a023e8ee00ea9c5");
  EXPECT_NE(content_hash(*json("[1,2]")), content_hash(*json("[2,1]")));
}

TEST(Diagnostic, FoundIsShortenedAndPrintable) {
  Diagnostics diagnostics("f\xFF.yaml");
  diagnostics.add({"syntax", "", {3, 4}, "a\n", "Message.", std::string(50, 'x') + "\xC3", "", "b\x1B"});
  EXPECT_EQ(one_line(diagnostics.list()[0]),
            "f\\xFF.yaml:3:4: a\\n: Message; found \"" + std::string(40, 'x') + "…\"; did you mean \"b\\x1B\"?");
  EXPECT_EQ(printable("\xE2\x80\xAE"
                      "a\tb",
                      9),
            "\\xE2\\x80\\xAEa\\tb");  // U+202E turns the writing direction
  EXPECT_EQ(printable("µµµ", 3), "µµµ");
  EXPECT_EQ(printable("µµµ", 2), "µµ…");
}

TEST(Diagnostic, AHundredAreKeptAndTheRestCounted) {
  Diagnostics first("a.yaml");
  for (int i = 0; i < 130; ++i) first.add({"syntax", "", {}, "", "M.", "", "", ""});
  EXPECT_EQ(first.list().size(), 100u);
  EXPECT_EQ(first.left_out(), 30u);
  Diagnostics second("b.yaml");
  second.add({"syntax", "", {}, "", "N.", "", "", ""});
  second.append(first);
  EXPECT_EQ(second.list().size(), 100u);
  EXPECT_EQ(second.left_out(), 31u);
  EXPECT_EQ(one_line(second.list()[0]), "b.yaml: N");
  EXPECT_EQ(one_line(second.list()[1]), "a.yaml: M");
}

class Files : public testing::Test {
 protected:
  void SetUp() override { std::filesystem::create_directories(folder_); }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  std::string write(const std::string& name, const std::string& text) {
    const std::string path = folder_ + "/" + name;
    std::ofstream(path, std::ios::binary) << text;
    return path;
  }
  std::string folder_ =
      testing::TempDir() + "cotter_core_" + testing::UnitTest::GetInstance()->current_test_info()->name();
};

TEST_F(Files, AreReadByTheEndingOfTheirName) {
  EXPECT_EQ(format_of("a.json"), Format::json);
  EXPECT_EQ(format_of("a.yaml"), Format::yaml);
  EXPECT_EQ(format_of("json"), Format::yaml);
  EXPECT_EQ(parse_file(write("a.json", "[1]"))->items()[0].kind(), Node::Kind::number);
  EXPECT_EQ(parse_file(write("a.yaml", "[1]"))->items()[0].kind(), Node::Kind::text);
  const std::string broken = write("b.yaml", "a: 'x\n");
  EXPECT_EQ(complaints(parse_file(broken))[0].substr(0, broken.size() + 5), broken + ":1:4:");
}

TEST_F(Files, ThatCannotBeReadAreDiagnostics) {
  const std::string missing = folder_ + "/missing.yaml";
  const auto read = parse_file(missing);
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().list()[0].code, "unreadable");
  EXPECT_EQ(read.error().list()[0].message, "There is no such file.");
  EXPECT_EQ(read.error().list()[0].file, missing);
  EXPECT_EQ(read_text(folder_).error().list()[0].message, "This is a folder, not a file.");
  EXPECT_EQ(codes(parse_file("/dev/zero")), Words{"too_large"});
  EXPECT_EQ(*read_text(write("c", "x\r\n"), {.bytes = 3}), "x\r\n");
  EXPECT_EQ(read_text(write("c", "four"), {.bytes = 3}).error().list()[0].code, "too_large");
}

}  // namespace
}  // namespace cotter::document::test
