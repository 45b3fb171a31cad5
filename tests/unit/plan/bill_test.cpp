// The bill of parts, and the places that are still open.
#include "plan/bill.hpp"

#include <gtest/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

quantity::Value grams(std::int64_t count) {
  quantity::Value value = length(0);
  value.dimension = quantity::Dimension::mass;
  value.nominal = count * 1000;
  return value;
}

TEST(Bill, OneRowAPlaceInTheTemplatesOrderThenTheLines) {
  SmallBicycle small;
  std::reverse(small.job.sheet.places.begin(), small.job.sheet.places.end());
  const std::vector<model::BillRow> bill = small.plan().bill;
  std::vector<std::string> places;
  for (const model::BillRow& row : bill) places.push_back(row.place);
  EXPECT_EQ(places, (std::vector<std::string>{"frame", "bracket", "crank", "lever", "brake", "saddle", "hose"}));
  for (std::size_t i = 0; i < bill.size(); ++i) EXPECT_EQ(bill[i].item, static_cast<std::int64_t>(i) + 1);
}

TEST(Bill, CarriesMassPriceAndWhetherItIsAtHand) {
  SmallBicycle small;
  small.part("frame").mass = grams(1080);
  small.part("frame").price = model::Price{145000, "EUR"};
  small.job.sheet.places[0].ordered = true;
  const model::BillRow frame = small.plan().bill[0];
  EXPECT_EQ(frame.mass->nominal, 1'080'000);
  EXPECT_EQ(frame.price->hundredths, 145000);
  EXPECT_FALSE(frame.to_order);
  EXPECT_TRUE(small.plan().bill[1].to_order);
  EXPECT_FALSE(small.plan().bill[1].mass);
}

TEST(Bill, AnOpenPlaceIsARowWithoutAPartAndAnOptionalOneIsLeftOut) {
  SmallBicycle small;
  small.empty("saddle");
  const model::BillRow saddle = small.plan().bill[5];
  EXPECT_EQ(saddle.place, "saddle");
  EXPECT_TRUE(saddle.open);
  EXPECT_FALSE(saddle.to_order);
  for (const model::BillRow& row : small.plan().bill) EXPECT_NE(row.place, "bell");
}

TEST(Bill, AnOpenPlaceIsAnAddWithItsCountAndWhatItsNeighboursAsk) {
  SmallBicycle small;
  small.empty("bracket");
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "place_filled@bracket");
  EXPECT_EQ(finding.verdict, model::Verdict::add);
  ASSERT_EQ(finding.additions.size(), 1u);
  EXPECT_EQ(finding.additions[0].count, 1);
  EXPECT_EQ(finding.additions[0].dimension, "to meet frame, shell: bore 46.05 mm, width 86.5 mm");
  EXPECT_EQ(finding.additions[0].where, "in its place");
}

TEST(Bill, AnUnknownValueOfANeighbourAsksNothing) {
  SmallBicycle small;
  small.empty("bracket");
  small.part("frame").interfaces["shell"].values["bore"] = length(46'050, 5, quantity::OriginKind::unknown);
  EXPECT_EQ(finding_in(small.plan(), "place_filled@bracket").additions[0].dimension,
            "to meet frame, shell: width 86.5 mm");
}

TEST(Bill, AStackOverAnOpenPlaceCannotBeComputedAndSaysWhichPlace) {
  SmallBicycle small;
  small.empty("bracket");
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "spindle.gap@bracket.cup");
  EXPECT_EQ(finding.verdict, model::Verdict::measure);
  EXPECT_EQ(finding.facts[0].first, "finding.stack_open_place");
  EXPECT_EQ(finding.facts[1].second, "bracket");
}

}  // namespace
}  // namespace cotter::plan
