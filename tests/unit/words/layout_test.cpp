// Wrapping and columns, by what a terminal shows.
#include "words/layout.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace cotter::words {
namespace {

using Lines = std::vector<std::string>;

TEST(DisplayWidth, CountsColumnsNotBytes) {
  EXPECT_EQ(display_width(""), 0);
  EXPECT_EQ(display_width("41.96 mm"), 8);
  EXPECT_EQ(display_width("±0.02"), 5);
  EXPECT_EQ(display_width("5 N·m"), 5);
  // Unicode Standard Annex 11, East Asian Width: these two are wide (W), from memory.
  EXPECT_EQ(display_width("車輪"), 4);
  // A combining acute accent (U+0301) takes no column of its own.
  EXPECT_EQ(display_width("e\xCC\x81"), 1);
}

TEST(DisplayWidth, BrokenBytesCountOneEach) {
  EXPECT_EQ(display_width("a\xFF\xFE"), 3);
  EXPECT_EQ(display_width("\xE2\x82"), 2);
}

TEST(Wrap, BreaksAtBlanksAndNeverBeyondTheWidth) {
  EXPECT_EQ(wrap("press both cups in", 10), (Lines{"press both", "cups in"}));
  EXPECT_EQ(wrap("press both cups in", 9), (Lines{"press", "both cups", "in"}));
}

TEST(Wrap, AWordWiderThanTheLineStandsAlone) {
  EXPECT_EQ(wrap("a shell_right.bore b", 6), (Lines{"a", "shell_right.bore", "b"}));
}

TEST(Wrap, NothingIsOneEmptyLine) {
  EXPECT_EQ(wrap("", 20), Lines{""});
  EXPECT_EQ(wrap("   ", 20), Lines{""});
}

TEST(Wrap, WideCharactersTakeTwoColumns) {
  EXPECT_EQ(wrap("車輪 車輪 車輪", 9), (Lines{"車輪 車輪", "車輪"}));
  EXPECT_EQ(wrap("車輪 車輪 車輪", 8), (Lines{"車輪", "車輪", "車輪"}));
}

TEST(Wrap, ALineBreakInsideTheTextIsABlank) {
  // A note written over several lines must not break the layout of the plan.
  EXPECT_EQ(wrap("one\ntwo\tthree", 40), Lines{"one two three"});
}

RC_GTEST_PROP(Wrap, KeepsEveryWordInOrderAndTheWidth, ()) {
  const auto words = *rc::gen::container<std::vector<std::string>>(
      rc::gen::nonEmpty(rc::gen::container<std::string>(rc::gen::inRange('a', 'z'))));
  const int width = *rc::gen::inRange(1, 60);
  std::string text, joined;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  for (const std::string& line : wrap(text, width)) {
    joined += (joined.empty() ? "" : " ") + line;
    RC_ASSERT(display_width(line) <= width || line.find(' ') == std::string::npos);
  }
  RC_ASSERT(joined == text);
}

TEST(Hanging, IndentsTheFollowingLinesByTheColumnsOfTheFirst) {
  EXPECT_EQ(hanging("  ±  ", "one two three four five six", 25), "  ±  one two three four\n     five six\n");
}

TEST(Hanging, NeverSqueezesTheTextBelowTwentyColumns) {
  EXPECT_EQ(hanging(std::string(30, ' '), "twelve chars and more", 32),
            std::string(30, ' ') + "twelve chars and\n" + std::string(30, ' ') + "more\n");
}

TEST(Cell, PadsByColumns) {
  EXPECT_EQ(cell("±1", 5), "±1   ");
  EXPECT_EQ(cell_right("±1", 5), "   ±1");
  EXPECT_EQ(cell("車", 4), "車  ");
}

TEST(Cell, CutsWithAnEllipsisThatFits) {
  EXPECT_EQ(cell("bottom bracket", 8), "bottom …");
  EXPECT_EQ(cell_right("bottom bracket", 8), "bottom …");
  // The second wide character would end in column 4, where the ellipsis stands: a blank fills the column left over.
  EXPECT_EQ(cell("車輪車", 4), "車… ");
  EXPECT_EQ(cell("exactly8", 8), "exactly8");
}

RC_GTEST_PROP(Cell, IsAlwaysAsWideAsAsked, ()) {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(
      rc::gen::element<std::string>("a", " ", "±", "車", "·", "0", "e\xCC\x81"));
  const int width = *rc::gen::inRange(1, 30);
  std::string text;
  for (const std::string& piece : pieces) text += piece;
  RC_ASSERT(display_width(cell(text, width)) == width);
  RC_ASSERT(display_width(cell_right(text, width)) == width);
}

}  // namespace
}  // namespace cotter::words
