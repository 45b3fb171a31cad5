// What the examples leave unchecked may only become less: tests/golden/unchecked.txt is the list that was agreed.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <set>

#include "examples.hpp"

namespace cotter::session {
namespace {

std::set<std::string> approved() {
  std::ifstream file(COTTER_SOURCE_DIR "/tests/golden/unchecked.txt");
  std::set<std::string> lines;
  for (std::string line; std::getline(file, line);)
    if (!line.empty() && !line.starts_with('#')) lines.insert(line);
  return lines;
}

std::vector<std::string> example_names() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(COTTER_SOURCE_DIR "/examples"))
    if (entry.path().extension() == ".yaml") names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

TEST(UncheckedOfExamples, OnlyShrinks) {
  const std::set<std::string> agreed = approved();
  std::set<std::string> now;
  for (const std::string& name : example_names())
    for (const model::UncheckedPlace& place : plan_of(example(name)).unchecked) now.insert(name + " " + place.place);
  for (const std::string& line : now)
    EXPECT_TRUE(agreed.contains(line)) << "new, and so not allowed: " << line << ". Have it judged by a joint.";
  for (const std::string& line : agreed)
    EXPECT_TRUE(now.contains(line)) << "checked by now; take it out of tests/golden/unchecked.txt: " << line;
}

TEST(UncheckedOfExamples, EachHasItsReason) {
  for (const std::string& name : example_names())
    for (const model::UncheckedPlace& place : plan_of(example(name)).unchecked)
      EXPECT_FALSE(place.reason.empty()) << name << " " << place.place;
}

TEST(UncheckedOfExamples, EachFilledPlaceIsJudgedOrInTheList) {
  for (const std::string& name : example_names()) {
    const model::Plan plan = plan_of(example(name));
    for (const model::BillRow& row : plan.bill) {
      if (row.open || row.place_label.starts_with("line ")) continue;
      const bool listed =
          std::ranges::any_of(plan.unchecked, [&](const auto& place) { return place.place == row.place; });
      const bool judged = std::ranges::any_of(plan.findings, [&](const model::Finding& finding) {
        const bool joint = finding.law != "place" && finding.law != "condition" && finding.law != "sequence";
        return joint && std::ranges::any_of(finding.about, [&](const auto& ref) { return ref.place == row.place; });
      });
      EXPECT_NE(listed, judged) << name << " " << row.place;
    }
  }
}

}  // namespace
}  // namespace cotter::session
