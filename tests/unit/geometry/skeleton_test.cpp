#include "geometry/skeleton.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace cotter::geometry {
namespace {

using quantity::in_millimetres;
using quantity::microdegrees;
using quantity::micrometres;
using quantity::millimetres;

FrameNumbers fork_of_the_trade() {
  FrameNumbers n;
  n.reach = millimetres(380);
  n.stack = millimetres(530);
  n.head_tube_angle = microdegrees(72'000'000);
  n.head_tube_length = millimetres(110);
  n.lower_stack = millimetres(8);
  n.axle_to_crown = millimetres(375);
  n.fork_offset = millimetres(45);
  return n;
}

// Source: trade notes of this project, part 7.3, derived there by hand: reach 380, stack 530, head angle 72, head tube
// 110, lower stack 8, axle to crown 375, offset 45.
TEST(Skeleton, FrontAxleOfTheWorkedExample) {
  const Skeleton skeleton = skeleton_from(fork_of_the_trade());
  const Point3 axle = skeleton.points.at("front_axle");
  EXPECT_NEAR(in_millimetres(axle.x), 574.3, 0.05);
  EXPECT_NEAR(in_millimetres(axle.y), 77.6, 0.05);
  EXPECT_NEAR(std::hypot(in_millimetres(axle.x), in_millimetres(axle.y)), 579.5, 0.05);
}

// Source: trade notes of this project, part 7.2: reach 385, stack 550, head angle 73, 55 up the axis, stem 110.
TEST(Skeleton, BarOfTheWorkedExample) {
  FrameNumbers n;
  n.reach = millimetres(385);
  n.stack = millimetres(550);
  n.head_tube_angle = microdegrees(73'000'000);
  n.head_tube_length = millimetres(140);
  n.cover = millimetres(15);
  n.spacers = millimetres(20);
  n.stem_height = millimetres(40);
  n.stem_length = millimetres(110);
  n.stem_angle = microdegrees(-6'000'000);
  const Point3 low = skeleton_from(n).points.at("bar_centre");
  EXPECT_NEAR(in_millimetres(low.x), 476.9, 0.05);
  EXPECT_NEAR(in_millimetres(low.y), 623.6, 0.05);

  n.stem_angle = microdegrees(6'000'000);
  const Point3 high = skeleton_from(n).points.at("bar_centre");
  EXPECT_NEAR(in_millimetres(high.x), 470.2, 0.05);
  EXPECT_NEAR(in_millimetres(high.y), 645.6, 0.05);
}

TEST(Skeleton, StaysSpreadFromShellToAxle) {
  FrameNumbers n;
  n.chainstay = millimetres(425);
  n.bottom_bracket_drop = millimetres(255);  // 425 and 255 make the third side 340, five times 85, 51 and 68
  n.shell_width = millimetres(68);
  n.rear_axle_width = millimetres(142);
  const Skeleton skeleton = skeleton_from(n);
  EXPECT_EQ(skeleton.points.at("rear_axle"), (Point3{millimetres(-340), millimetres(255), {}}));
  const Axis stay = skeleton.tubes.at("chainstay_left");
  EXPECT_EQ(stay.start, (Point3{{}, {}, millimetres(-34)}));
  EXPECT_EQ(stay.end, (Point3{millimetres(-340), millimetres(255), millimetres(-71)}));
  EXPECT_EQ(skeleton.tubes.at("chainstay_right").end.z, millimetres(71));
}

TEST(Skeleton, WhatIsNotKnownIsNotThere) {
  const Skeleton nothing = skeleton_from({});
  EXPECT_EQ(nothing.points.size(), 1u);
  EXPECT_TRUE(nothing.tubes.empty());

  FrameNumbers n = fork_of_the_trade();
  n.fork_offset.reset();
  const Skeleton no_offset = skeleton_from(n);
  EXPECT_TRUE(no_offset.points.contains("crown"));
  EXPECT_FALSE(no_offset.points.contains("front_axle"));
  EXPECT_FALSE(no_offset.tubes.contains("down_tube"));
  EXPECT_FALSE(no_offset.points.contains("saddle"));
}

TEST(Skeleton, AForkShorterThanItsOffsetHasNoAxle) {
  FrameNumbers n = fork_of_the_trade();
  n.axle_to_crown = millimetres(40);
  EXPECT_FALSE(skeleton_from(n).points.contains("front_axle"));
}

TEST(Skeleton, LyingTubesAndTubesOfNoLengthAreLeftOut) {
  FrameNumbers n = fork_of_the_trade();
  n.head_tube_length = millimetres(0);
  EXPECT_FALSE(skeleton_from(n).tubes.contains("head_tube"));
  n.seat_tube_angle = microdegrees(0);
  n.seat_tube_length = millimetres(500);
  EXPECT_FALSE(skeleton_from(n).points.contains("seat_top"));
}

TEST(Skeleton, TopTubeFallsByItsRise) {
  FrameNumbers n = fork_of_the_trade();
  n.seat_tube_angle = microdegrees(73'000'000);
  n.top_tube_offset = millimetres(30);
  n.top_tube_rise = millimetres(60);
  const Axis tube = skeleton_from(n).tubes.at("top_tube");
  EXPECT_EQ(tube.start.y - tube.end.y, millimetres(60));
  const double slope = in_millimetres(tube.end.y) / -in_millimetres(tube.end.x);
  EXPECT_NEAR(std::atan(slope) * 180 / std::acos(-1.0), 73.0, 1e-4);
}

TEST(Skeleton, AFlushTubeSitsHalfItsDiameterIn) {
  FrameNumbers n = fork_of_the_trade();
  n.down_tube_diameter = millimetres(40);
  const Skeleton skeleton = skeleton_from(n);
  const Point3 end = skeleton.tubes.at("down_tube").start, bottom = skeleton.points.at("head_bottom");
  EXPECT_NEAR(std::hypot(in_millimetres(end.x - bottom.x), in_millimetres(end.y - bottom.y)), 20.0, 0.002);
}

TEST(TubePoints, SidesOfALeaningTube) {
  const Axis down{{}, {millimetres(300), millimetres(-400), {}}};
  const auto side = [&](Side s) { return on_surface(down, End::start, millimetres(250), s, millimetres(20)); };
  EXPECT_EQ(at(down, End::start, millimetres(250)), (Point3{millimetres(150), millimetres(-200), {}}));
  EXPECT_EQ(at(down, End::end, millimetres(500)), Point3{});
  EXPECT_EQ(side(Side::left), (Point3{millimetres(150), millimetres(-200), millimetres(-20)}));
  EXPECT_EQ(side(Side::right), (Point3{millimetres(150), millimetres(-200), millimetres(20)}));
  EXPECT_EQ(side(Side::top), (Point3{millimetres(166), millimetres(-188), {}}));
  EXPECT_EQ(side(Side::front), side(Side::top));
  EXPECT_EQ(side(Side::bottom), (Point3{millimetres(134), millimetres(-212), {}}));
  EXPECT_EQ(side(Side::back), side(Side::bottom));
  EXPECT_EQ(side(Side::end), at(down, End::start, millimetres(250)));
}

TEST(TubePoints, SidesOfAPlumbTubeAndOfTheShell) {
  const Axis plumb{{}, {{}, millimetres(100), {}}};
  EXPECT_EQ(on_surface(plumb, End::start, {}, Side::front, millimetres(5)).x, millimetres(5));
  EXPECT_EQ(on_surface(plumb, End::start, {}, Side::back, millimetres(5)).x, millimetres(-5));
  EXPECT_EQ(on_surface(plumb, End::start, {}, Side::top, millimetres(5)).x, millimetres(-5));
  const Axis level{{}, {millimetres(-100), {}, {}}};
  EXPECT_EQ(on_surface(level, End::start, {}, Side::front, millimetres(5)).y, millimetres(5));
  EXPECT_EQ(on_surface(level, End::start, {}, Side::bottom, millimetres(5)).y, millimetres(-5));
  const Axis shell{{{}, {}, millimetres(-34)}, {{}, {}, millimetres(34)}};
  EXPECT_EQ(on_surface(shell, End::end, millimetres(34), Side::bottom, millimetres(20)),
            (Point3{{}, millimetres(-20), {}}));
}

TEST(TubePoints, WordsForSides) {
  EXPECT_EQ(side_from("bottom"), Side::bottom);
  EXPECT_EQ(side_from("under"), std::nullopt);
}

RC_GTEST_PROP(TubePoints, SkinLiesARadiusFromTheAxis, ()) {
  const auto in_mm = [](int low, int high) { return millimetres(*rc::gen::inRange(low, high)); };
  const Axis axis{{}, {in_mm(50, 500), in_mm(-500, 500), in_mm(-80, 80)}};
  const auto radius = in_mm(5, 40), distance = in_mm(0, 600);
  const Side side = *rc::gen::element(Side::left, Side::right, Side::top, Side::bottom, Side::front, Side::back);
  const Point3 middle = at(axis, End::start, distance);
  const Point3 skin = on_surface(axis, End::start, distance, side, radius);
  const double found = std::hypot(in_millimetres(skin.x - middle.x), in_millimetres(skin.y - middle.y),
                                  in_millimetres(skin.z - middle.z));
  RC_ASSERT(std::abs(found - in_millimetres(radius)) < 0.002);
}

}  // namespace
}  // namespace cotter::geometry
