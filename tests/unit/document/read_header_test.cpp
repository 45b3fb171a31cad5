#include "document/read_header.hpp"

#include <fmt/format.h>

#include "read_support.hpp"

namespace cotter::document {
namespace {

Node document_of(const std::string& first_line) {
  return Node::map().set("cotter", Node::text(first_line));
}

std::vector<std::string> said_of(const std::string& first_line) {
  Diagnostics diagnostics("a.yaml");
  EXPECT_FALSE(read_header(document_of(first_line), {"job", "parts"}, diagnostics));
  return lines_of(diagnostics);
}

TEST(ReadHeader, KindAndVersion) {
  Diagnostics diagnostics("a.yaml");
  EXPECT_EQ(read_header(document_of("job 1"), {"job"}, diagnostics), (Header{"job", 1}));
  EXPECT_EQ(read_header(document_of("job 0"), {"job"}, diagnostics), (Header{"job", 0}));
  EXPECT_TRUE(diagnostics.empty());
}

TEST(ReadHeader, UnknownKindHasTheNearestWord) {
  EXPECT_EQ(said_of("jop 1"),
            std::vector<std::string>{"a.yaml: cotter: This kind of document is not known here; found "
                                     "\"jop 1\"; accepted: one of: job, parts; did you mean \"job\"?"});
}

TEST(ReadHeader, NewerVersionIsRefusedWithASentence) {
  EXPECT_EQ(
      said_of("job 2"),
      std::vector<std::string>{"a.yaml: cotter: The document is of version 2; this program reads versions up to 1. "
                               "Take a newer program, or write the document anew; found \"job 2\"; accepted: `job 1`"});
}

TEST(ReadHeader, LineOfAnotherShape) {
  for (const char* line : {"job", "job one", "job 1.5", "job -1", " 1", "job 1 ", "job 99999999999"})
    EXPECT_EQ(said_of(line),
              std::vector<std::string>{fmt::format("a.yaml: cotter: This is not a kind of document with its "
                                                   "version; found \"{}\"; accepted: `cotter: job 1`",
                                                   line)});
}

TEST(ReadHeader, MissingLine) {
  Diagnostics diagnostics("a.yaml");
  EXPECT_FALSE(read_header(Node::map(), {"job"}, diagnostics));
  EXPECT_FALSE(read_header(Node::text("job 1"), {"job"}, diagnostics));
  const std::string line =
      "a.yaml: cotter: The document does not say what it is; accepted: `cotter: job 1` as its first line";
  EXPECT_EQ(lines_of(diagnostics), (std::vector<std::string>{line, line}));
}

Node with_step(Node document, const std::string& step) {
  document.set(step, Node::boolean(true));
  return document;
}

TEST(Migrate, TakesOneStepAfterTheOther) {
  const MigrationTable steps{{"job",
                              {{1, [](Node document) { return with_step(std::move(document), "first"); }},
                               {2, [](Node document) { return with_step(std::move(document), "second"); }}}}};
  Diagnostics diagnostics("a.yaml");
  const auto newest = migrate(document_of("job 1"), {"job", 1}, 3, steps, diagnostics);
  ASSERT_TRUE(newest);
  ASSERT_EQ(newest->entries().size(), 3u);
  EXPECT_EQ(newest->entries()[1].key, "first");
  EXPECT_EQ(newest->entries()[2].key, "second");
  EXPECT_EQ(migrate(document_of("job 2"), {"job", 2}, 3, steps, diagnostics)->entries()[1].key, "second");
  EXPECT_TRUE(diagnostics.empty());
}

TEST(Migrate, MissingStepIsSaid) {
  Diagnostics diagnostics("a.yaml");
  std::string kind;
  EXPECT_FALSE(newest_version(document_of("job 0"), {"job"}, kind, diagnostics));
  EXPECT_EQ(lines_of(diagnostics),
            std::vector<std::string>{"a.yaml: cotter: There is no way from version 0 of this kind to version 1; found "
                                     "\"job 0\"; accepted: `job 1`"});
}

TEST(Migrate, NewestVersionStaysAsItIs) {
  Diagnostics diagnostics("a.yaml");
  std::string kind;
  const Node document = document_of("job 1");
  EXPECT_EQ(newest_version(document, {"job"}, kind, diagnostics), document);
  EXPECT_EQ(kind, "job");
}

}  // namespace
}  // namespace cotter::document
