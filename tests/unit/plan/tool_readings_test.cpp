// Nobody reads finer than the tool, and flat jaws cannot decide a press fit.
#include "plan/tool_readings.hpp"

#include <algorithm>
#include <gtest/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using model::Verdict;
using quantity::Deviations;

/// The guide asks for a bore gauge; shop has one of 0.005 mm and a caliper of 0.05 mm.
SmallBicycle bench() {
  SmallBicycle small;
  for (model::KindDimension& dimension : small.catalog.kinds["shell"].dimensions)
    if (dimension.id == "bore") dimension.measure.tool = "bore_gauge";
  model::ToolSubstitute jaws{"caliper", "flat jaws", "bore_gauge", "a bore gauge", {}, {}};
  jaws.reads_low = {quantity::Mixed::from_base(20'000), quantity::Mixed::from_base(100'000)};
  small.catalog.substitutes = {jaws};
  small.job.sheet.shop.tools.push_back({"gauge_1", "bore gauge", "bore_gauge", "0.005 mm"});
  return small;
}

void read_bore(SmallBicycle& small, std::int64_t um, std::int64_t plus_minus_um, const std::string& tool) {
  quantity::Value value = length(um, plus_minus_um, quantity::OriginKind::measured);
  value.origin.tool = tool;
  small.part("frame").interfaces["shell"].values["bore"] = value;
}

quantity::Value bore_of(const model::Finding& finding) {
  return std::ranges::find(finding.values, "bore", &model::NamedValue::symbol)->value;
}

TEST(ToolReadings, WhatIsStatedFinerThanTheToolReadsIsWidened) {
  SmallBicycle small = bench();
  read_bore(small, 46'050, 1, "gauge_1");
  const model::Plan plan = small.plan();
  const quantity::Value bore = bore_of(finding_in(plan, "cup_in_shell@"));
  EXPECT_EQ(bore.upper, 5'000);
  EXPECT_EQ(bore.lower, -5'000);
  EXPECT_EQ(bore.deviations, Deviations::widened);
}

TEST(ToolReadings, WiderDeviationsAndUnnamedToolsStayAsTheyAre) {
  SmallBicycle small = bench();
  read_bore(small, 46'050, 8, "gauge_1");
  EXPECT_EQ(bore_of(finding_in(small.plan(), "cup_in_shell@")).deviations, Deviations::stated);
  read_bore(small, 46'050, 1, "");
  EXPECT_EQ(bore_of(finding_in(small.plan(), "cup_in_shell@")).upper, 1'000);
}

// By hand: 46.00 read, resolution 0.05: 45.95 to 46.05; the true size is 0.02 to 0.10 above: 45.97 to 46.15.
TEST(ToolReadings, JawsInABoreMoveTheReadingToWhereTheTrueSizeCanLie) {
  SmallBicycle small = bench();
  read_bore(small, 46'000, 0, "caliper_1");
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "cup_in_shell@");
  EXPECT_EQ(bore_of(finding).range().low().base(), 45'970'000);
  EXPECT_EQ(bore_of(finding).range().high().base(), 46'150'000);
  EXPECT_EQ(bore_of(finding).deviations, Deviations::shifted);
  EXPECT_EQ(finding.verdict, Verdict::measure);
  const auto fact = std::ranges::find(finding.facts, "measure.wrong_tool", &std::pair<std::string, std::string>::first);
  ASSERT_NE(fact, finding.facts.end());
  EXPECT_EQ((fact + 2)->second, "flat jaws");
  EXPECT_EQ((fact + 3)->second, "a bore gauge");
  EXPECT_EQ(finding.measurements.at(0).tool_label, "bore gauge");
}

TEST(ToolReadings, TheGaugeDecidesWhatTheJawsCannot) {
  SmallBicycle small = bench();
  read_bore(small, 46'050, 0, "gauge_1");
  EXPECT_EQ(finding_in(small.plan(), "cup_in_shell@").verdict, Verdict::ok);
  EXPECT_TRUE(finding_in(small.plan(), "cup_in_shell@").facts.empty());
}

TEST(ToolReadings, WhereEvenTheJawsDecideNothingIsAsked) {
  SmallBicycle small = bench();
  read_bore(small, 47'000, 0, "caliper_1");
  EXPECT_EQ(finding_in(small.plan(), "cup_in_shell@").verdict, Verdict::stop);
}

}  // namespace
}  // namespace cotter::plan
