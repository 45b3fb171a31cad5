#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "model/job.hpp"

namespace cotter::model {
namespace {

using Kind = JournalEntry::Kind;

JournalEntry entry(const std::string& id, Kind kind, const std::string& target, std::int64_t nominal = 0) {
  JournalEntry out;
  out.id = id;
  out.kind = kind;
  out.by = "by " + id;
  out.target = target;
  if (kind == Kind::value) {
    out.value = quantity::Value{};
    out.value->nominal = nominal;
  }
  return out;
}

TEST(Fold, LatestValueHolds) {
  const WorkState state =
      fold({entry("a", Kind::value, "frame.shell.bore", 1), entry("b", Kind::value, "frame.shell.bore", 2)});
  EXPECT_EQ(state.values.at("frame.shell.bore").nominal, 2);
  EXPECT_EQ(state.revision, 2);
}

TEST(Fold, SameIdTwiceIsAppliedOnce) {
  const WorkState state =
      fold({entry("a", Kind::value, "x", 1), entry("b", Kind::value, "x", 2), entry("a", Kind::value, "x", 1)});
  EXPECT_EQ(state.values.at("x").nominal, 2);
  EXPECT_EQ(state.revision, 2);
}

TEST(Fold, UndoTakesBackToTheValueBefore) {
  const WorkState state =
      fold({entry("a", Kind::value, "x", 1), entry("b", Kind::value, "x", 2), entry("c", Kind::undo, "b")});
  EXPECT_EQ(state.values.at("x").nominal, 1);
  EXPECT_EQ(state.revision, 3);
}

TEST(Fold, UndoOfTheOnlyEntryLeavesNothing) {
  const WorkState state = fold({entry("a", Kind::sign_off, "look"), entry("b", Kind::undo, "a")});
  EXPECT_TRUE(state.signed_off.empty());
}

TEST(Fold, UndoneUndoTakesNothingBack) {
  const WorkState state =
      fold({entry("a", Kind::sign_off, "look"), entry("b", Kind::undo, "a"), entry("c", Kind::undo, "b")});
  EXPECT_EQ(state.signed_off.at("look"), "by a");
}

TEST(Fold, UndoReachesOnlyBackwards) {
  const WorkState state =
      fold({entry("b", Kind::undo, "a"), entry("a", Kind::sign_off, "look"), entry("c", Kind::undo, "c")});
  EXPECT_EQ(state.signed_off.at("look"), "by a");
}

TEST(Fold, FactsAndValuesSetAsideChangeNothing) {
  JournalEntry aside = entry("a", Kind::value, "x", 1);
  aside.value.reset();
  const WorkState state = fold({aside, entry("b", Kind::fact, "x")});
  EXPECT_TRUE(state.values.empty());
  EXPECT_EQ(state.revision, 2);
}

std::vector<JournalEntry> some_journal() {
  std::vector<JournalEntry> journal;
  const int count = *rc::gen::inRange(0, 20);
  for (int i = 0; i < count; ++i) {
    const auto kind = *rc::gen::element(Kind::value, Kind::sign_off, Kind::undo);
    const std::string target = kind == Kind::undo ? "e" + std::to_string(*rc::gen::inRange(0, 20))
                                                  : std::string(1, static_cast<char>('p' + *rc::gen::inRange(0, 3)));
    journal.push_back(entry("e" + std::to_string(i), kind, target, i));
  }
  return journal;
}

/// Sending the whole journal once more changes nothing, whatever is in it.
RC_GTEST_PROP(FoldProperty, SentAgainChangesNothing, ()) {
  const auto journal = some_journal();
  auto again = journal;
  again.insert(again.end(), journal.begin(), journal.end());
  const WorkState once = fold(journal);
  const WorkState twice = fold(again);
  RC_ASSERT(once.values == twice.values);
  RC_ASSERT(once.signed_off == twice.signed_off);
  RC_ASSERT(once.revision == twice.revision);
}

/// An entry and then its undo leave the state as it was.
RC_GTEST_PROP(FoldProperty, EntryAndUndoLeaveTheState, ()) {
  const auto journal = some_journal();
  auto longer = journal;
  longer.push_back(entry("new", *rc::gen::element(Kind::value, Kind::sign_off, Kind::undo), "e3", 99));
  longer.push_back(entry("back", Kind::undo, "new"));
  RC_ASSERT(fold(longer).values == fold(journal).values);
  RC_ASSERT(fold(longer).signed_off == fold(journal).signed_off);
}

}  // namespace
}  // namespace cotter::model
