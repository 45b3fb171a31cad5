// Phrases by key: every key that the planning code uses has one, and every hole is filled.
#include "words/phrase.hpp"

#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <regex>
#include <set>
#include <sstream>

#include "words/en/phrases.hpp"

namespace cotter::words {
namespace {

TEST(Phrase, FillsEveryHole) {
  EXPECT_EQ(fill("window.both", {{"from", "0"}, {"to", "3 mm"}}), "from 0 to 3 mm");
  EXPECT_EQ(fill("route.choose", {{"length", "650"}}), "choose 650 mm");
}

TEST(Phrase, AHoleIsFilledWithTextAsItIs) {
  EXPECT_EQ(fill("route.choose", {{"length", "{length}"}}), "choose {length} mm");
}

TEST(Phrase, AnUnknownKeyOrAnEmptyHoleIsABug) {
  EXPECT_FALSE(has_phrase("no.such.key"));
  EXPECT_ANY_THROW(phrase("no.such.key"));
  EXPECT_ANY_THROW(fill("window.both", {{"from", "0"}}));
}

TEST(Phrase, NoKeyStandsTwiceAndNoneIsEmpty) {
  std::set<std::string_view> seen;
  for (const en::Phrase& phrase : en::phrases()) {
    EXPECT_TRUE(seen.insert(phrase.key).second) << phrase.key;
    EXPECT_FALSE(phrase.text.empty()) << phrase.key;
  }
}

TEST(Phrase, EveryOpenHoleIsClosed) {
  for (const en::Phrase& phrase : en::phrases()) {
    std::size_t at = 0;
    while ((at = phrase.text.find('{', at)) != std::string_view::npos) {
      const std::size_t end = phrase.text.find('}', at);
      ASSERT_NE(end, std::string_view::npos) << phrase.key;
      EXPECT_GT(end, at + 1) << phrase.key;
      at = end;
    }
  }
}

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::ostringstream out;
  out << file.rdbuf();
  return out.str();
}

/// Keys that stand as string literals in the sources below a folder: `{"route.ok", ...` and `fill("cut.why"`.
std::set<std::string> keys_used(const std::string& folder) {
  static const std::regex pattern(R"re("((?:finding|route|sequence|measure|add|rework|work|cut|head|caution|window|)re"
                                  R"re(may_pass)\.[a-z_]+)")re");
  // Names of rules are not phrases: they are the part of a finding's identity before the @.
  static const std::set<std::string> rules = {"route.ends", "route.all_lines", "route.enlarge", "route.sizes",
                                              "sequence.order"};
  std::set<std::string> keys;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    if (entry.path().extension() != ".cpp" || entry.path().filename() == "phrases.cpp") continue;
    const std::string text = text_of(entry.path());
    for (std::sregex_iterator it(text.begin(), text.end(), pattern), end; it != end; ++it)
      if (!rules.contains((*it)[1])) keys.insert((*it)[1]);
  }
  return keys;
}

TEST(Phrase, EveryKeyThatPlanningAndWordsUseIsThere) {
  const std::string source = COTTER_SOURCE_DIR;
  const std::set<std::string> plan = keys_used(source + "/src/plan"), words = keys_used(source + "/src/words");
  EXPECT_GT(plan.size(), 15u);
  EXPECT_GT(words.size(), 30u);
  for (const std::string& key : plan) EXPECT_TRUE(has_phrase(key)) << key << " is used in src/plan";
  for (const std::string& key : words) EXPECT_TRUE(has_phrase(key)) << key << " is used in src/words";
}

/// A fact key and the holes that follow it up to the next key, as they stand in the sources of src/plan.
TEST(Phrase, EveryFactThatPlanningWritesFillsTheHolesOfItsPhrase) {
  static const std::regex fact(R"re(\{"([a-z_.]+)",)re");
  std::size_t checked = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(COTTER_SOURCE_DIR "/src/plan")) {
    if (entry.path().extension() != ".cpp") continue;
    const std::string text = text_of(entry.path());
    std::string key;
    std::set<std::string> holes;
    const auto check = [&] {
      if (key.empty()) return;
      ++checked;
      const std::string pattern(phrase(key));
      static const std::regex hole(R"re(\{([a-z_]+)\})re");
      for (std::sregex_iterator it(pattern.begin(), pattern.end(), hole), end; it != end; ++it)
        EXPECT_TRUE(holes.contains((*it)[1])) << entry.path() << ": " << key << " wants " << (*it)[1];
    };
    for (std::sregex_iterator it(text.begin(), text.end(), fact), end; it != end; ++it) {
      const std::string name = (*it)[1];
      if (name.find('.') == std::string::npos) {
        holes.insert(name);
        continue;
      }
      check();
      key = has_phrase(name) ? name : "";
      holes.clear();
    }
    check();
  }
  EXPECT_GT(checked, 10u);
}

}  // namespace
}  // namespace cotter::words
