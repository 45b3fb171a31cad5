#include "document/journal.hpp"
#include "read_support.hpp"

namespace cotter::document {
namespace {

using Kind = model::JournalEntry::Kind;

const std::string k_measured =
    R"({"id": "a1", "revision": 0, "kind": "value", "by": "A. Builder", "when": "2026-05-03T09:12:00Z", "target": "frame.shell_right.bore", "value": {"value": "46.01 mm", "measured": {"by": "A. Builder", "with": "gauge_1", "on": "2026-05-03"}}, "note": "cold"})"
    "\n";
const std::string k_signed =
    R"({"id": "a2", "revision": 1, "kind": "sign_off", "by": "B. Builder", "when": "2026-05-03T10:00:00Z", "target": "compound", "value": "12 N·m"})"
    "\n";
const std::string k_undone =
    R"({"id": "a3", "revision": 2, "kind": "undo", "by": "B. Builder", "when": "2026-05-03T10:05:00Z", "target": "a2"})"
    "\n";

struct ReadBack {
  std::vector<model::JournalEntry> entries;
  std::vector<std::string> notes;
  std::vector<std::string> wrong;
};

ReadBack read_back(const std::string& text, const std::string& job_text = k_job_text) {
  const auto journal = split_journal(text, "job.journal.jsonl");
  if (!journal) return {{}, {}, lines_of(journal.error())};
  const auto job = read_job_text(job_text);
  if (!job) return {{}, {}, lines_of(job.error())};
  Diagnostics notes("job.journal.jsonl");
  const auto entries = read_entries(*journal, *job, small_catalog(), notes);
  if (!entries) return {{}, lines_of(notes), lines_of(entries.error())};
  return {*entries, lines_of(notes), {}};
}

TEST(Journal, StandsBesideTheJob) {
  EXPECT_EQ(journal_path("examples/all_road.yaml"), "examples/all_road.journal.jsonl");
  EXPECT_EQ(journal_path("job.json"), "job.journal.jsonl");
}

TEST(Journal, KeepsWhatTheLinesSay) {
  const ReadBack read = read_back(k_measured + "\n" + k_signed + k_undone);
  EXPECT_EQ(read.wrong, std::vector<std::string>{});
  EXPECT_EQ(read.notes, std::vector<std::string>{});
  ASSERT_EQ(read.entries.size(), 3u);
  const model::JournalEntry& measured = read.entries[0];
  EXPECT_EQ(measured.kind, Kind::value);
  EXPECT_EQ(measured.target, "frame.shell_right.bore");
  EXPECT_EQ(measured.note, "cold");
  ASSERT_TRUE(measured.value);
  EXPECT_EQ(measured.value->nominal, 46'010'000);
  EXPECT_EQ(measured.value->upper, 5'000);  // the resolution of gauge_1
  EXPECT_EQ(measured.value->origin.kind, quantity::OriginKind::measured);
  ASSERT_TRUE(read.entries[1].value);
  EXPECT_EQ(read.entries[1].value->dimension, quantity::Dimension::torque);
  EXPECT_EQ(read.entries[2].kind, Kind::undo);
  EXPECT_EQ(read.entries[2].target, "a2");
}

TEST(Journal, EntryIsReadBackAsItWasWritten) {
  const ReadBack first = read_back(k_measured + k_signed + k_undone);
  std::string text;
  for (const model::JournalEntry& entry : first.entries) text += write_entry(entry);
  const ReadBack second = read_back(text);
  ASSERT_EQ(second.entries.size(), first.entries.size());
  for (std::size_t i = 0; i < first.entries.size(); ++i) {
    EXPECT_EQ(second.entries[i].id, first.entries[i].id);
    EXPECT_EQ(second.entries[i].revision, first.entries[i].revision);
    EXPECT_EQ(second.entries[i].kind, first.entries[i].kind);
    EXPECT_EQ(second.entries[i].by, first.entries[i].by);
    EXPECT_EQ(second.entries[i].when, first.entries[i].when);
    EXPECT_EQ(second.entries[i].target, first.entries[i].target);
    EXPECT_EQ(second.entries[i].value, first.entries[i].value);
    EXPECT_EQ(second.entries[i].note, first.entries[i].note);
  }
}

TEST(Journal, OldPlaceNamesLeadToTheNameNow) {
  const std::string job = changed(changed(k_job_text, "  lever: lever", "  lever: {is: lever, part: lever}"),
                                  "older_saddle: old_saddle", "old_frame: frame");
  const ReadBack read = read_back(changed(k_measured, "frame.shell_right", "old_frame.shell_right"), job);
  EXPECT_EQ(read.notes, std::vector<std::string>{});
  ASSERT_EQ(read.entries.size(), 1u);
  EXPECT_EQ(read.entries[0].target, "frame.shell_right.bore");
}

TEST(Journal, TornLastLineIsSetAside) {
  const std::string torn = k_signed.substr(0, 60);
  const auto journal = split_journal(k_measured + torn, "j");
  ASSERT_TRUE(journal);
  EXPECT_EQ(journal->torn, torn);
  EXPECT_EQ(journal->whole_bytes, k_measured.size());
  const ReadBack read = read_back(k_measured + torn);
  EXPECT_EQ(read.entries.size(), 1u);
  EXPECT_EQ(read.notes,
            std::vector<std::string>{"job.journal.jsonl:2:1: The last line of the journal is incomplete and was set "
                                     "aside; found \"{\"id\": \"a2\", \"revision\": 1, \"kind\": \"sig…\""});
}

TEST(Journal, TornAtEveryByte) {
  const std::string text = k_measured + k_signed;
  for (std::size_t bytes = 0; bytes < text.size(); ++bytes) {
    const ReadBack read = read_back(text.substr(0, bytes));
    EXPECT_EQ(read.wrong, std::vector<std::string>{}) << bytes;
    const std::size_t whole = bytes + 1 >= text.size() ? 2 : bytes + 1 >= k_measured.size() ? 1 : 0;
    EXPECT_EQ(read.entries.size(), whole) << bytes;
  }
}

TEST(Journal, LastLineThatOnlyLacksItsEnd) {
  const auto journal = split_journal(k_measured.substr(0, k_measured.size() - 1), "j");
  ASSERT_TRUE(journal);
  EXPECT_EQ(journal->lines.size(), 1u);
  EXPECT_FALSE(journal->ended);
  EXPECT_TRUE(split_journal(k_measured, "j")->ended);
}

TEST(Journal, BrokenLineInTheMiddleIsAFault) {
  const ReadBack read = read_back(k_measured + "{\"id\": \n" + k_signed);
  ASSERT_EQ(read.wrong.size(), 1u);
  EXPECT_EQ(read.wrong[0].substr(0, 20), "job.journal.jsonl:2:");
}

TEST(Journal, LineOfAnotherShapeIsAFault) {
  const ReadBack read = read_back(k_measured + changed(k_signed, "\"kind\": \"sign_off\"", "\"kind\": \"signoff\""));
  EXPECT_EQ(read.wrong, std::vector<std::string>{
                            "job.journal.jsonl:2:37: kind: The word is not one of those known here; found \"signoff\"; "
                            "accepted: one of: value, sign_off, fact, undo, accept; did you mean \"sign_off\"?"});
}

struct Aside {
  std::string name;
  std::string from;
  std::string to;
  std::vector<std::string> said;
};

TEST(Journal, ValueThatNoLongerBelongsIsSetAside) {
  const std::vector<Aside> rows{{"place",
                                 "frame.shell_right.bore",
                                 "wheel.shell_right.bore",
                                 {"job.journal.jsonl:1:108: target: The place of this value is not filled now; found "
                                  "\"wheel.shell_right.bore\""}},
                                {"dimension",
                                 "frame.shell_right.bore",
                                 "frame.shell_right.boer",
                                 {"job.journal.jsonl:1:108: target: The part has no value `shell_right.boer`; found "
                                  "\"frame.shell_right.boer\"; accepted: shell_right.bore, shell_right.outer_diameter, "
                                  "shell_right.depth; did you mean \"shell_right.bore\"?"}},
                                {"shape",
                                 "frame.shell_right.bore",
                                 "frame",
                                 {"job.journal.jsonl:1:108: target: This value names no dimension of a place, or holds "
                                  "none; found \"frame\"; accepted: `place.interface.dimension` and a value"}},
                                {"range",
                                 "46.01 mm",
                                 "461 mm",
                                 {"job.journal.jsonl:1:153: value.value: The bore is outside what is possible for this "
                                  "kind (press-fit shell); found \"461 mm\"; accepted: 30 mm to 60 mm"}},
                                {"unit",
                                 "46.01 mm",
                                 "46.01 kg",
                                 {"job.journal.jsonl:1:153: value.value: The unit is one of another kind of quantity; "
                                  "found \"46.01 kg\"; accepted: mm, cm, m, µm, nm, in or tpi, a unit of length"}}};
  for (const Aside& row : rows) {
    const ReadBack read = read_back(changed(k_measured, row.from, row.to));
    EXPECT_EQ(read.notes, row.said) << row.name;
    ASSERT_EQ(read.entries.size(), 1u) << row.name;
    EXPECT_FALSE(read.entries[0].value.has_value()) << row.name;
    EXPECT_EQ(read.entries[0].id, "a1") << row.name;
  }
}

TEST(Journal, EmptyTextIsAnEmptyJournal) {
  EXPECT_TRUE(split_journal("", "j")->lines.empty());
  EXPECT_TRUE(split_journal("\n\n", "j")->lines.empty());
}

}  // namespace
}  // namespace cotter::document
