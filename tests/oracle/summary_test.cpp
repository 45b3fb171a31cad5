// How many outside checks there are, from how many topics and tables, and that docs/checks.md lists them all.
#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <gtest/gtest.h>
#include <iostream>
#include <map>
#include <set>
#include <sstream>

#include "cases.hpp"

namespace cotter::oracle {
namespace {

constexpr std::size_t k_least_checks = 60;
constexpr std::size_t k_least_topics = 8;
constexpr std::size_t k_most_of_one_topic = 10;
constexpr std::size_t k_most_of_one_table = 10;
constexpr std::size_t k_least_trade_cases = 12;

std::filesystem::path checks_page() {
  return std::filesystem::path(COTTER_SOURCE_DIR) / "docs/checks.md";
}

std::string intent(const Case& one) {
  std::string text;
  for (const Trial& trial : one.trials) {
    if (!text.empty()) text += "; ";
    if (!trial.set.empty()) text += "with `" + trial.set.dump() + "`: ";
    for (std::size_t i = 0; i < trial.expect.size(); ++i)
      text += (i == 0 ? "`" : ", `") + in_words(trial.expect[i]) + "`";
  }
  return text;
}

/// Rows of the page, topic by topic.
std::string page_tables(const std::vector<Case>& cases) {
  std::string page;
  std::string file;
  for (const Case& one : cases) {
    if (one.file != file) {
      const std::string note = one.counted ? "" : " (not counted)";
      page += (file.empty() ? "" : "\n") + std::string("## ") + one.topic + note + "\n\n";
      page += "From `tests/oracle/cases/" + one.file + ".json`.\n\n";
      page += "| case | what | engine | expected | source | how sure |\n| --- | --- | --- | --- | --- | --- |\n";
      file = one.file;
    }
    const std::string not_counted = one.not_counted_because.empty() ? "" : "; not counted: " + one.not_counted_because;
    page += "| `" + one.id + "` | " + one.what + " | " + one.engine + " | " + intent(one) + " | " + one.source + " | " +
            one.sure + not_counted + " |\n";
  }
  return page;
}

std::string contents(const std::filesystem::path& path) {
  std::ifstream stream(path);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

TEST(OracleSummary, EnoughChecksFromEnoughPlaces) {
  std::map<std::string, std::size_t> by_topic, by_table;
  std::size_t all = 0;
  for (const Case& one : load_cases()) {
    if (!counts(one)) continue;
    EXPECT_EQ(one.sure, k_read) << one.file << "/" << one.id;
    ++all;
    ++by_topic[one.topic];
    ++by_table[one.table];
  }
  std::cout << "outside checks through `cotter solve`\n";
  for (const auto& [topic, count] : by_topic) std::cout << "  " << count << "  " << topic << "\n";
  std::cout << "of one table or clause\n";
  for (const auto& [table, count] : by_table) std::cout << "  " << count << "  " << table << "\n";
  std::cout << "all: " << all << ", each read in its source\n";
  EXPECT_GE(all, k_least_checks);
  EXPECT_GE(by_topic.size(), k_least_topics);
  for (const auto& [topic, count] : by_topic) EXPECT_LE(count, k_most_of_one_topic) << topic;
  for (const auto& [table, count] : by_table) EXPECT_LE(count, k_most_of_one_table) << table;
}

TEST(OracleSummary, OnlyWhatWasReadInItsSourceCounts) {
  Case one;
  one.counted = true;
  one.sure = k_read;
  EXPECT_TRUE(counts(one));
  for (const char* less_sure : {k_derived, k_memory, k_practice}) {
    one.sure = less_sure;
    EXPECT_FALSE(counts(one)) << less_sure;
  }
  one.sure = k_read;
  one.not_counted_because = "the program's own table was taken from it";
  EXPECT_FALSE(counts(one));
}

TEST(OracleSummary, EnoughTradeCasesAndEachIsTriedMoreThanOnce) {
  std::size_t count = 0;
  for (const Case& one : load_cases()) {
    if (one.file != "trade") continue;
    ++count;
    EXPECT_GE(one.trials.size(), 2U) << one.id << " is not tried at its limit and beyond it";
  }
  EXPECT_GE(count, k_least_trade_cases);
}

// docs/checks.md says where the others belong.
TEST(OracleSummary, EveryTradeCaseOfFitAndStackIsAsserted) {
  std::set<int> asserted;
  for (const Case& one : load_cases())
    if (one.trade_case != 0) asserted.insert(one.trade_case);
  for (const int number : {1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 25, 29, 31, 33, 35, 37, 39, 41, 47, 49, 51, 53, 55})
    EXPECT_TRUE(asserted.contains(number)) << "trade case " << number;
}

TEST(OracleSummary, NoIdTwice) {
  std::set<std::string> seen;
  for (const Case& one : load_cases()) EXPECT_TRUE(seen.insert(one.file + "/" + one.id).second) << one.id;
}

// To write the tables anew: COTTER_WRITE_CHECKS=1 test_oracle --gtest_filter=ChecksPage.*
TEST(ChecksPage, ListsEveryCase) {
  const std::string page = contents(checks_page());
  const std::string tables = page_tables(load_cases());
  const std::size_t begin = page.find("## ");
  ASSERT_NE(begin, std::string::npos) << "docs/checks.md has no tables";
  if (std::getenv("COTTER_WRITE_CHECKS") != nullptr) {
    std::ofstream(checks_page()) << page.substr(0, begin) << tables;
    return;
  }
  EXPECT_EQ(page.substr(begin), tables);
}

TEST(Expectation, IsMetOrSaysWhyNot) {
  const nlohmann::json output = {{"low_um", -12}, {"chance", 0.25}, {"status", "optimal"}};
  EXPECT_EQ(unmet(output, {"/low_um", -12}), "");
  EXPECT_EQ(unmet(output, {"/low_um", 12}), "/low_um is -12; expected /low_um = 12");
  EXPECT_EQ(unmet(output, {"/chance", 0.2501, 0.001}), "");
  EXPECT_EQ(unmet(output, {"/chance", 0.3, 0.001}), "/chance is 0.25; expected /chance = 0.3 ± 0.001");
  EXPECT_EQ(unmet(output, {"/status", "open"}), "/status is \"optimal\"; expected /status = open");
  EXPECT_EQ(unmet(output, {"/margin", 0}), "/margin is not in the output; expected 0");
}

}  // namespace
}  // namespace cotter::oracle
