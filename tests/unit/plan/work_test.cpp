// Findings in order, steps of the work, pulls, and by when an open choice must be made.
#include <gtest/gtest.h>

#include "plan/sequence/work_operations.hpp"
#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using Names = std::vector<std::string>;

Names steps(const model::Plan& plan) {
  Names names;
  for (const model::WorkStep& step : plan.work) names.push_back(step.operation);
  return names;
}

std::size_t place_of(const Names& names, const std::string& name) {
  const auto found = std::find(names.begin(), names.end(), name);
  EXPECT_NE(found, names.end()) << name;
  return static_cast<std::size_t>(found - names.begin());
}

TEST(Findings, StandWorstFirstAndOtherwiseInTheOrderTheyWereMade) {
  SmallBicycle small;
  small.empty("saddle");
  small.part("frame").interfaces["shell"].values["bore"] = length(46'200, 5);
  small.form().should = {length(450), std::nullopt};
  const model::Plan plan = small.plan();
  Names ids;
  for (std::size_t i = 0; i < plan.findings.size(); ++i) {
    ids.push_back(plan.findings[i].id.substr(0, plan.findings[i].id.find('@')));
    EXPECT_TRUE(i == 0 || plan.findings[i - 1].verdict >= plan.findings[i].verdict) << ids.back();
  }
  EXPECT_EQ(ids, (Names{"cup_in_shell", "hands", "place_filled", "spindle.gap", "network", "route.all_lines",
                        "sequence.order"}));
}

TEST(Work, AStepThatDoesNotApplyHandsItsOrderOn) {
  SmallBicycle small;
  const model::Plan plan = small.plan();
  const Names names = steps(plan);
  EXPECT_EQ(std::count(names.begin(), names.end(), "ream_shell"), 0);
  const model::WorkStep& press = plan.work[place_of(names, "press_cups")];
  EXPECT_EQ(press.after, Names{"measure"});
}

TEST(Work, TheOrderIsHandedOnThroughSeveralDroppedSteps) {
  SmallBicycle small;
  model::Operation second = small.catalog.work.operations[1];
  second.id = "face_shell";
  second.after = {"ream_shell"};
  small.catalog.work.operations.insert(small.catalog.work.operations.begin() + 2, second);
  small.catalog.work.operations[3].after = {"face_shell"};
  const model::Plan plan = small.plan();
  EXPECT_EQ(plan.work[place_of(steps(plan), "press_cups")].after, Names{"measure"});
}

TEST(Work, OnePullALineAndWhatFollowsWaitsForAllOfThem) {
  SmallBicycle small;
  for (model::Opening& opening : small.part("frame").openings) {
    opening.shared = true;
    opening.shape = {length(11'000), length(11'000), model::ClearShape::Outline::round};
  }
  small.job.sheet.lines.push_back({"second", "hose", "lever", "hose", "brake", "hose", 0, 0, 0});
  const model::Plan plan = small.plan();
  const Names names = steps(plan);
  EXPECT_EQ(std::count(names.begin(), names.end(), "pull_lines"), 0);
  EXPECT_EQ(plan.work[place_of(names, "fit_saddle")].after, (Names{"press_cups", "pull:hose", "pull:second"}));
  EXPECT_NE(plan.work[place_of(names, "pull:hose")].label.find("L1, hose, lever to brake."), std::string::npos);
}

TEST(Work, WithoutLinesThePatternIsDroppedToo) {
  SmallBicycle small;
  small.job.sheet.lines.clear();
  const model::Plan plan = small.plan();
  const Names names = steps(plan);
  EXPECT_EQ(std::count(names.begin(), names.end(), "pull_lines"), 0);
  EXPECT_EQ(plan.work[place_of(names, "fit_saddle")].after, (Names{"measure", "press_cups"}));
}

TEST(Work, ANeededOrderOfPullsIsAnOrderOfSteps) {
  SmallBicycle small;
  small.job.sheet.lines.push_back({"second", "hose", "lever", "hose", "brake", "hose", 0, 0, 0});
  const Assembly assembly(small.job, small.catalog);
  PullPlan pulls;
  pulls.pulls = {"hose", "second"};
  for (const std::string& line : pulls.pulls) {
    model::Run run;
    run.line = line;
    run.number = line == "hose" ? "L1" : "L2";
    pulls.runs.push_back(run);
  }
  pulls.needed = {{"L2", "L1", "entry"}};
  std::map<std::string, Names> after;
  for (const model::Operation& operation : work_operations(assembly, pulls)) after[operation.id] = operation.after;
  EXPECT_EQ(after["pull:hose"], (Names{"measure", "pull:second"}));
  EXPECT_EQ(after["pull:second"], Names{"measure"});
}

TEST(Work, HousingFollowsItsOwnPatternWhereTheCatalogHasOne) {
  SmallBicycle small;
  model::Operation late = small.catalog.work.operations.front();
  late.id = "pull_housing";
  late.after = {"fit_saddle"};
  small.catalog.work.operations.push_back(late);
  const Assembly assembly(small.job, small.catalog);
  PullPlan pulls;
  pulls.pulls = {"hose", "cable"};
  for (const std::string& line : pulls.pulls) {
    model::Run run;
    run.line = line;
    run.number = line;
    run.kind = line == "cable" ? model::LineForm::Kind::housing : model::LineForm::Kind::hose;
    pulls.runs.push_back(run);
  }
  std::map<std::string, Names> after;
  for (const model::Operation& operation : work_operations(assembly, pulls)) after[operation.id] = operation.after;
  EXPECT_EQ(after["fit_saddle"], (Names{"press_cups", "pull:hose"}));
  EXPECT_EQ(after["pull:cable"], Names{"fit_saddle"});
  EXPECT_FALSE(after.contains("pull_housing"));
}

TEST(Work, AStepForUsedPartsComesWithTheFirstOfThem) {
  SmallBicycle small;
  model::Operation look = small.catalog.work.operations.front();
  look.id = "look_over";
  look.when = {"used_parts"};
  small.catalog.work.operations.push_back(look);
  const Names without = steps(small.plan());
  EXPECT_EQ(std::count(without.begin(), without.end(), "look_over"), 0);
  small.part("frame").used = true;
  const Names with = steps(small.plan());
  EXPECT_EQ(std::count(with.begin(), with.end(), "look_over"), 1);
}

TEST(Work, APlaceThatIsOpenMustBeChosenBeforeItsStep) {
  SmallBicycle small;
  small.empty("saddle");
  const model::Plan plan = small.plan();
  ASSERT_EQ(plan.choices.size(), 1u);
  EXPECT_EQ(plan.choices[0].place, "saddle");
  EXPECT_EQ(plan.choices[0].before_label, "Step fit_saddle.");
  EXPECT_EQ(plan.choices[0].before_mark, plan.work[place_of(steps(plan), "fit_saddle")].mark);
}

TEST(Work, APlaceDecidedBeforeThePullsIsChosenBeforeTheFirstOfThem) {
  SmallBicycle small;
  small.catalog.bicycles["small"].places[5].decide_before = "pull_lines";
  small.empty("saddle");
  const model::Plan plan = small.plan();
  ASSERT_EQ(plan.choices.size(), 1u);
  EXPECT_EQ(plan.choices[0].before_mark, plan.work[place_of(steps(plan), "pull:hose")].mark);
}

TEST(Work, AFilledOrOptionalPlaceIsNoChoice) {
  EXPECT_TRUE(SmallBicycle().plan().choices.empty());
}

TEST(Work, ACircleIsAStopThatNamesEveryDemand) {
  SmallBicycle small;
  small.catalog.work.operations[0].after = {"press_cups"};
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "sequence.order@work");
  EXPECT_EQ(finding.verdict, model::Verdict::stop);
  std::size_t demands = 0;
  for (const auto& [key, text] : finding.facts) demands += key == "sequence.after" ? 1 : 0;
  EXPECT_EQ(demands, 2u);
  EXPECT_TRUE(plan.work.empty());
}

TEST(Work, ALineWithoutAWayIsAStopWithTheMissingAmountAndNoPulls) {
  SmallBicycle small;
  for (model::Opening& opening : small.part("frame").openings)
    opening.shape = {length(4'500), length(4'500), model::ClearShape::Outline::round};
  small.catalog.bicycles["small"].seats[1] = {"", "brake", "frame.down_tube", "rear_axle", 0, 50, 0, "", {}, 0};
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "route.all_lines@lines");
  EXPECT_EQ(finding.verdict, model::Verdict::stop);
  EXPECT_EQ(finding.margin, -500'000);
  EXPECT_EQ(finding_in(plan, "sequence.order@work").verdict, model::Verdict::measure);
}

TEST(Work, AHoseWithFittedEndsIsHeldAgainstItsEndsEvenWhereItsBodyIsTooLargeAlready) {
  // Went wrong: the opening of 4.5 was said to lack 0.5 mm for a hose of 5, whose ends of 9 could not pass it either.
  SmallBicycle small;
  for (model::Opening& opening : small.part("frame").openings)
    opening.shape = {length(4'500), length(4'500), model::ClearShape::Outline::round};
  model::Part& hose = small.job.sheet.parts.back();
  hose.line->connector_a = hose.line->connector_b = {length(9'000), length(9'000), model::ClearShape::Outline::round};
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "route.all_lines@lines");
  EXPECT_EQ(finding.margin, -4'500'000);
  using Fact = std::pair<std::string, std::string>;
  EXPECT_EQ(std::count(finding.facts.begin(), finding.facts.end(), Fact("needs", "9 mm")), 2);
}

TEST(Work, WhatAnOpeningLacksIsCountedFromItsSizeNow) {
  // Went wrong: "must pass 9, is 5: 3.4 too large", because 0.6 that the maker permits had been taken off unsaid.
  SmallBicycle small;
  for (model::Opening& opening : small.part("frame").openings) {
    opening.shape = {length(4'500), length(4'500), model::ClearShape::Outline::round};
    opening.enlarge_most = 400'000;
    opening.enlarge_paper = "sheet 4";
  }
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "route.all_lines@lines");
  EXPECT_EQ(finding.verdict, model::Verdict::stop);
  EXPECT_EQ(finding.margin, -500'000);
}

TEST(Work, ALineToAnOpenPlaceWaitsAndSaysForWhich) {
  SmallBicycle small;
  small.empty("brake");
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "route.ends@hose");
  EXPECT_EQ(finding.verdict, model::Verdict::measure);
  EXPECT_EQ(finding.facts[1].second, "brake");
}

}  // namespace
}  // namespace cotter::plan
