#include "words/bench_words.hpp"

#include <gtest/gtest.h>

#include "words/plan_words.hpp"

namespace cotter::words {
namespace {

using Lines = std::vector<std::string>;

model::NextMeasurement next(const std::string& label, double chance) {
  return {{"frame", "shell", "bore"},
          label,
          {"bore", "three depths", "bore_gauge", "0.005 mm", 450},
          "bore gauge 35 to 60",
          "0.005 mm",
          chance,
          74.4,
          1,
          {"cup_in_shell@frame.shell"}};
}

TEST(BenchWords, SayWhatAMeasurementIsWorth) {
  model::Plan plan;
  plan.measure_next = {next("frame, bore", 0.372), next("frame, width", 0.001), next("fork, length", 0)};
  plan.measure_next[1].findings.emplace_back("gap@frame.shell");
  plan.measure_next[1].tool_label.clear();
  EXPECT_EQ(
      measure_next_lines(plan),
      (Lines{"frame, bore: 37 % chance that it changes something, 74 min lost when that is found out late, 4.5 min "
             "to measure with bore gauge 35 to 60 (0.005 mm). Decides cup_in_shell@frame.shell.",
             "frame, width: under 1 % chance that it changes something, 74 min lost when that is found out late, "
             "4.5 min to measure with bore_gauge, of which there is none in this shop. Decides "
             "cup_in_shell@frame.shell and 1 more."}));
  EXPECT_EQ(other_measurements(plan),
            "To be measured as well before the plan can close, though by their stated limits none of them changes a "
            "verdict: fork, length.");
}

TEST(BenchWords, SayHowLongAllOfItTakes) {
  model::Plan plan;
  plan.measure_next = {next("frame, bore", 0.4)};
  EXPECT_EQ(measure_next_total(plan), "One value, 4.5 min to measure.");
  plan.measure_next.push_back(next("frame, width", 0));
  EXPECT_EQ(measure_next_total(plan), "2 values, 9 min to measure all of them.");
}

TEST(BenchWords, SayThatNothingIsLeftToMeasure) {
  model::Plan plan;
  plan.title = "Road";
  plan.job = "road";
  plan.bicycle_label = "road bicycle";
  EXPECT_EQ(bench_list_text(plan),
            "Road (road)\nroad bicycle\nBrakes: left hand front, right hand rear by custom only; ask the "
            "rider.\n\nNothing is left to measure.\n");
}

TEST(BenchWords, NearlyCertainIsNotCalledCertain) {
  model::Plan plan;
  plan.measure_next = {next("frame, bore", 0.9999)};
  EXPECT_NE(measure_next_lines(plan).at(0).find(" 99 % chance"), std::string::npos);
  EXPECT_EQ(other_measurements(plan), "");
}

TEST(BenchWords, SayWhatNothingJudges) {
  model::Plan plan;
  plan.unchecked = {{"bell", "bell", "small bell", "it goes where there is room"}, {"tape", "bar tape", "tape", ""}};
  EXPECT_EQ(unchecked_lines(plan), (Lines{"bell (small bell): it goes where there is room.",
                                          "bar tape (tape): nothing judges it, and the template does not say why."}));
}

}  // namespace
}  // namespace cotter::words
