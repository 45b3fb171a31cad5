// Values as printed, and where dimension lines and balloons lie.

#include <gtest/gtest.h>

#include "demonstration_plan.hpp"
#include "draw/balloons.hpp"
#include "draw/dimension_layout.hpp"
#include "draw/lettering.hpp"
#include "draw/sheet.hpp"

namespace cotter::draw {
namespace {

using quantity::Dimension;
using quantity::OriginKind;

model::DrawnDimension dimension_of(std::int64_t nominal, OriginKind kind, Dimension dimension = Dimension::length) {
  model::DrawnDimension d;
  d.value = test::value_of(dimension, nominal, kind);
  return d;
}

TEST(DimensionText, SaysWhereTheValueComesFrom) {
  EXPECT_EQ(dimension_text(dimension_of(430'000'000, OriginKind::measured), {}), "430");
  EXPECT_EQ(dimension_text(dimension_of(172'500'000, OriginKind::maker), {}), "172.5");
  EXPECT_EQ(dimension_text(dimension_of(48'000'000, OriginKind::assumed), {}), "≈48");
  EXPECT_EQ(dimension_text(dimension_of(0, OriginKind::unknown), {}), "?");
  model::DrawnDimension wheelbase = dimension_of(1'031'449'000, OriginKind::maker);
  wheelbase.derived = true;
  EXPECT_EQ(dimension_text(wheelbase, {}), "(1031.4)");
  EXPECT_EQ(dimension_text(dimension_of(73'500'000, OriginKind::maker, Dimension::angle), {}), "73.5°");
}

TEST(DimensionText, FollowsTheNumberStyle) {
  const quantity::NumberStyle comma{quantity::LengthUnit::millimetre, quantity::DecimalMark::comma};
  EXPECT_EQ(dimension_text(dimension_of(172'500'000, OriginKind::maker), comma), "172,5");
  const quantity::NumberStyle inch{quantity::LengthUnit::inch, quantity::DecimalMark::point};
  EXPECT_EQ(dimension_text(dimension_of(25'400'000, OriginKind::maker), inch), "1.00");
}

TEST(DimensionDirection, IsTheOneThatAgreesWithTheValue) {
  model::DrawnDimension d = dimension_of(300'000'000, OriginKind::maker);
  d.b = {300'000, 400'000, 0};
  EXPECT_EQ(direction_of(d), Span::level);
  d.value.nominal = 400'000'000;
  EXPECT_EQ(direction_of(d), Span::plumb);
  d.value.nominal = 500'000'000;
  EXPECT_EQ(direction_of(d), Span::along);
}

TEST(DimensionLayout, AValueThatDisagreesWithTheDrawingIsNotToScale) {
  model::Plan plan = test::demonstration_plan();
  plan.picture.dimensions.resize(1);
  plan.picture.dimensions[0].value.nominal += 3'000'000;
  const Scene scene = scene_of(plan, {100, 150, 850, 650});
  Obstacles obstacles(k_drawing);
  const auto layouts = lay_out_dimensions(plan, scene, {}, obstacles);
  ASSERT_EQ(layouts.size(), 1u);
  EXPECT_FALSE(layouts[0].to_scale);
}

class BothPlans : public testing::TestWithParam<model::Plan (*)()> {};
INSTANTIATE_TEST_SUITE_P(Drawing, BothPlans, testing::Values(&test::demonstration_plan, &test::crowded_plan));

TEST_P(BothPlans, NoTwoValuesOverlap) {
  const model::Plan plan = GetParam()();
  const Scene scene = scene_of(plan, {100, 160, 850, 640});
  Obstacles obstacles(k_drawing);
  const auto layouts = lay_out_dimensions(plan, scene, {}, obstacles);
  ASSERT_EQ(layouts.size(), plan.picture.dimensions.size());
  const auto quad = [](const DimensionLayout& l) { return quad_around(l.text_at, l.text_along, l.text_width, 13); };
  for (std::size_t i = 0; i < layouts.size(); ++i) {
    EXPECT_TRUE(k_drawing.contains(layouts[i].text_at)) << layouts[i].text;
    for (std::size_t j = 0; j < i; ++j) {
      EXPECT_FALSE(overlap(quad(layouts[i]), quad(layouts[j]))) << layouts[i].text << " on " << layouts[j].text;
    }
  }
}

TEST_P(BothPlans, BalloonsKeepApart) {
  const model::Plan plan = GetParam()();
  const Scene scene = scene_of(plan, {100, 160, 850, 640});
  Obstacles obstacles(k_drawing);
  add_outlines(scene, obstacles);
  std::vector<Balloon> balloons = balloons_of(plan, scene, lay_out_findings(plan, {}));
  place_balloons(balloons, obstacles);
  ASSERT_GE(balloons.size(), 11u);
  for (std::size_t i = 0; i < balloons.size(); ++i) {
    EXPECT_TRUE(k_drawing.contains(balloons[i].at, balloons[i].radius)) << balloons[i].mark;
    for (std::size_t j = 0; j < i; ++j) {
      EXPECT_GE(length_of(balloons[i].at - balloons[j].at), 0.95 * k_apart)
          << balloons[i].mark << " " << balloons[j].mark;
    }
  }
}

TEST(Balloons, AFindingOnAnOpeningPointsToThatOpening) {
  const model::Plan plan = test::demonstration_plan();
  const Scene scene = scene_of(plan, {100, 160, 850, 640});
  const FindingsList list = lay_out_findings(plan, {});
  const std::vector<Balloon> balloons = balloons_of(plan, scene, list);
  ASSERT_EQ(plan.openings[3].opening, "frame.stay_exit");
  EXPECT_NEAR(balloons[0].target.x, scene.view(plan.openings[3].at).x, 1e-9);
  EXPECT_NEAR(balloons[0].target.y, scene.view(plan.openings[3].at).y, 1e-9);
}

TEST(Balloons, AnAnchorOfTheFeatureGoesBeforeThatOfItsPlace) {
  model::Plan plan = test::demonstration_plan();
  plan.findings[1].about = {{"frame", "hanger"}, {"rear_derailleur", "bolt"}};
  plan.picture.anchors["frame.hanger"] = plan.picture.anchors.at("rear_derailleur");
  const Scene scene = scene_of(plan, {100, 160, 850, 640});
  const FindingsList list = lay_out_findings(plan, {});
  const std::vector<Balloon> balloons = balloons_of(plan, scene, list);
  EXPECT_NEAR(balloons[1].target.x, scene.view(plan.picture.anchors.at("rear_derailleur")).x, 1e-9);
}

TEST(Balloons, AFindingWithoutAPlaceOnTheDrawingHasNone) {
  model::Plan plan = test::demonstration_plan();
  plan.openings.clear();
  plan.picture.anchors.clear();
  const Scene scene = scene_of(plan, {100, 160, 850, 640});
  EXPECT_TRUE(balloons_of(plan, scene, lay_out_findings(plan, {})).empty());
}

}  // namespace
}  // namespace cotter::draw
