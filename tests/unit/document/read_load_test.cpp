// Whole files through load_job.

#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "read_support.hpp"

namespace cotter::document {
namespace {

class LoadJob : public testing::Test {
 protected:
  LoadJob() {
    root_ = std::filesystem::path(testing::TempDir()) / testing::UnitTest::GetInstance()->current_test_info()->name();
    std::filesystem::remove_all(root_);
    std::filesystem::create_directories(root_);
  }
  ~LoadJob() override { std::filesystem::remove_all(root_); }

  void write(const std::string& name, const std::string& text) const {
    std::ofstream(root_ / name, std::ios::binary) << text;
  }
  Read<LoadedJob> load(const std::string& name = "job.yaml") const {
    return load_job((root_ / name).string(), small_catalog());
  }
  /// Codes of the diagnostics of `job.yaml` with this text.
  std::vector<std::string> codes(const std::string& text) const {
    write("job.yaml", text);
    const auto read = load();
    std::vector<std::string> out;
    if (!read)
      for (const Diagnostic& diagnostic : read.error().list()) out.push_back(diagnostic.code);
    return out;
  }

 private:
  std::filesystem::path root_;
};

const std::string k_entry =
    R"({"id": "a1", "revision": 0, "kind": "value", "by": "A", "when": "2026-05-03", "target": "frame.shell_right.bore", "value": "46.01 mm measured"})"
    "\n";

TEST_F(LoadJob, WithoutAJournal) {
  write("job.yaml", k_job_text);
  const auto loaded = load();
  ASSERT_TRUE(loaded);
  EXPECT_EQ(loaded->job.sheet.id, "test_bike");
  EXPECT_EQ(loaded->node.find("title")->scalar(), "Test bike");
  EXPECT_TRUE(loaded->job.journal.empty());
  EXPECT_TRUE(loaded->notes.empty());
  EXPECT_EQ(loaded->hash.size(), 64u);
}

TEST_F(LoadJob, WithAJournalAndItsTornLine) {
  write("job.yaml", k_job_text);
  const std::string bare = load()->hash;
  write("job.journal.jsonl", k_entry + "{\"id\": \"a2");
  const auto loaded = load();
  ASSERT_TRUE(loaded);
  ASSERT_EQ(loaded->job.journal.size(), 1u);
  EXPECT_EQ(model::fold(loaded->job.journal).values.at("frame.shell_right.bore").nominal, 46'010'000);
  ASSERT_EQ(loaded->notes.list().size(), 1u);
  EXPECT_EQ(loaded->notes.list()[0].code, "torn_line");
  EXPECT_EQ(loaded->notes.list()[0].mark.line, 2);
  EXPECT_NE(loaded->hash, bare);
}

TEST_F(LoadJob, JsonSaysTheSameAsYaml) {
  write("job.yaml", k_job_text);
  write("job.json", R"({"cotter": "job 1", "id": "other", "title": "Other", "bicycle": "all_road",
    "places": {"lever": "lever", "my_saddle": {"is": "saddle", "part": "saddle_plain", "at_hand": true}},
    "shop": {"name": "W", "kit": [{"id": "s", "label": "s", "piece": "p", "thickness": "0.5 mm", "count": 4}]}})");
  const auto loaded = load("job.json");
  ASSERT_TRUE(loaded) << lines_of(loaded.error()).at(0);
  EXPECT_TRUE(loaded->job.sheet.places.at(1).ordered);
  EXPECT_EQ(loaded->job.sheet.shop.kit.at(0).count, 4);
}

TEST_F(LoadJob, WhatIsNoJobAtAll) {
  EXPECT_EQ(codes(std::string(10'000'000, 'x')), std::vector<std::string>{"too_large"});
  EXPECT_EQ(codes("title: \xff\xfe"), std::vector<std::string>{"not_text"});
  EXPECT_EQ(codes("cotter: job 1\nid: &a x\n"), std::vector<std::string>{"alias"});
  EXPECT_EQ(codes("cotter: job 1\nid: \"x\ntitle: y\n"), std::vector<std::string>{"unclosed_quote"});
  EXPECT_EQ(codes("cotter: job 1\n---\ncotter: job 1\n"), std::vector<std::string>{"many_documents"});
  EXPECT_EQ(codes(""), std::vector<std::string>{"syntax"});
  EXPECT_EQ(codes("[1, 2]"), std::vector<std::string>{"missing_field"});
  EXPECT_EQ(codes("cotter: job 9\n"), std::vector<std::string>{"newer_version"});
}

TEST_F(LoadJob, FileThatIsNotThere) {
  const auto read = load("none.yaml");
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().list().at(0).code, "unreadable");
}

TEST_F(LoadJob, BrokenJournalIsAFault) {
  write("job.yaml", k_job_text);
  write("job.journal.jsonl", "not json\n" + k_entry);
  const auto read = load();
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().list().at(0).mark.line, 1);
}

/// Puts, cuts or doubles some bytes of a text.
std::string damaged(std::string text) {
  const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
  const auto length = std::min(*rc::gen::inRange<std::size_t>(1, 40), text.size() - at);
  switch (*rc::gen::inRange(0, 4)) {
    case 0:
      return text.erase(at, length);
    case 1:
      return text.insert(at, text.substr(*rc::gen::inRange<std::size_t>(0, text.size()), length));
    case 2:
      return text.replace(at, 1, 1,
                          *rc::gen::element('?', ':', '-', '{', '}', '[', ']', ',', '.', ' ', '0', 'x', '\n'));
    default:
      return text.replace(at, length, *rc::gen::element<std::string>("?", "null", "{}", "[]", "-1 mm", "9e99", ": "));
  }
}

/// A fault in a text is never a throw, and what is refused says why.
RC_GTEST_PROP(ReadDamaged, JobIsReadOrSaysWhy, ()) {
  std::string text = k_job_text;
  for (int i = *rc::gen::inRange(1, 4); i > 0; --i) text = damaged(text);
  const auto read = read_job_text(text);
  RC_ASSERT(read.has_value() || !read.error().empty());
}

RC_GTEST_PROP(ReadDamaged, CatalogIsReadOrSaysWhy, ()) {
  Texts texts = small_catalog_texts();
  std::string& text = texts[*rc::gen::inRange<std::size_t>(0, texts.size())].second;
  for (int i = *rc::gen::inRange(1, 4); i > 0; --i) text = damaged(text);
  const auto read = read_catalog_texts(texts);
  RC_ASSERT(read.has_value() || !read.error().empty());
}

}  // namespace
}  // namespace cotter::document
