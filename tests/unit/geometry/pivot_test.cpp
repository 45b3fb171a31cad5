#include "geometry/pivot.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>
#include <rapidcheck/gtest.h>

namespace cotter::geometry {
namespace {

using quantity::Length;
using quantity::microdegrees;
using quantity::millimetres;

Point3 mark(std::int64_t x, std::int64_t y, std::int64_t z = 0) {
  return {millimetres(x), millimetres(y), millimetres(z)};
}
Pivot pivot(std::int64_t from_degrees, std::int64_t to_degrees) {
  return {Length{}, Length{}, microdegrees(from_degrees * 1'000'000), microdegrees(to_degrees * 1'000'000)};
}

// A right triangle with legs 300 and 400: 500, by Pythagoras. After 90 degrees the mark that lay 400 behind lies 400
// above, on one line with the other: 100 between them.
TEST(Pivot, EndsByHand) {
  const Reach reach = reach_over_travel(pivot(0, 90), mark(0, 300), mark(-400, 0));
  EXPECT_EQ(reach.drawn, millimetres(500));
  EXPECT_EQ(reach.at_from, millimetres(500));
  EXPECT_EQ(reach.at_to, millimetres(100));
  EXPECT_EQ(reach.longest, millimetres(500));
  EXPECT_EQ(reach.longest_at, microdegrees(0));
}

// 300 ahead and 400 behind, turned through the straight line between them: 700 there, less at both ends.
TEST(Pivot, WorstPointLiesBetweenTheEnds) {
  const Reach reach = reach_over_travel(pivot(-10, 20), mark(300, 0), mark(-400, 0));
  EXPECT_EQ(reach.longest, millimetres(700));
  EXPECT_EQ(reach.longest_at, microdegrees(0));
  EXPECT_LT(reach.at_from, reach.longest);
  EXPECT_LT(reach.at_to, reach.at_from);
}

// The same with the marks 240 apart along the axis: 740, since 700² + 240² = 740².
TEST(Pivot, SidesCount) {
  const Reach reach = reach_over_travel(pivot(-10, 20), mark(300, 0, 120), mark(-400, 0, -120));
  EXPECT_EQ(reach.longest, millimetres(740));
}

// Positive raises what lies behind: the mark comes nearer to one above the pivot.
TEST(Pivot, PositiveRaisesWhatLiesBehind) {
  const Reach reach = reach_over_travel(pivot(-5, 5), mark(0, 300), mark(-400, 0));
  EXPECT_LT(reach.at_to, reach.drawn);
  EXPECT_GT(reach.at_from, reach.drawn);
  EXPECT_EQ(reach.longest, reach.at_from);
  EXPECT_EQ(reach.longest_at, microdegrees(-5'000'000));
}

TEST(Pivot, NothingMovesWithoutTravelOrOnTheAxis) {
  const Reach still = reach_over_travel(pivot(0, 0), mark(0, 300), mark(-400, 0));
  EXPECT_EQ(still.longest, still.drawn);
  const Reach on_axis = reach_over_travel(pivot(-90, 90), mark(0, 300), mark(0, 0));
  EXPECT_EQ(on_axis.longest, millimetres(300));
  EXPECT_EQ(on_axis.at_from, millimetres(300));
  EXPECT_EQ(on_axis.at_to, millimetres(300));
}

TEST(Pivot, ItsPlaceCounts) {
  Pivot moved = pivot(-10, 20);
  moved.x = millimetres(-30);
  moved.y = millimetres(70);
  const Reach reach = reach_over_travel(moved, mark(270, 70), mark(-430, 70));
  EXPECT_EQ(reach.longest, millimetres(700));
}

/// Turns the mark itself, by the matrix of a turn, and measures.
double sampled(const Pivot& p, const Point3& standing, const Point3& turning, double degrees) {
  const double t = degrees / 180 * std::numbers::pi, c = std::cos(t), s = std::sin(t);
  const double bx = quantity::in_millimetres(turning.x - p.x), by = quantity::in_millimetres(turning.y - p.y);
  const double x = c * bx + s * by, y = -s * bx + c * by;
  return std::hypot(quantity::in_millimetres(standing.x - p.x) - x, quantity::in_millimetres(standing.y - p.y) - y,
                    quantity::in_millimetres(standing.z - turning.z));
}

RC_GTEST_PROP(Pivot, NoSampleIsLonger, ()) {
  const auto coordinate = [] { return *rc::gen::inRange(-900, 901); };
  Pivot p = pivot(-*rc::gen::inRange(0, 180), *rc::gen::inRange(0, 180));
  p.x = millimetres(coordinate());
  p.y = millimetres(coordinate());
  const Point3 standing = mark(coordinate(), coordinate(), coordinate());
  const Point3 turning = mark(coordinate(), coordinate(), coordinate());
  const Reach reach = reach_over_travel(p, standing, turning);
  const double from = quantity::in_degrees(p.from), to = quantity::in_degrees(p.to);
  constexpr int k_samples = 400;
  double most = 0;
  for (int i = 0; i <= k_samples; ++i) {
    const double distance = sampled(p, standing, turning, from + (to - from) * i / k_samples);
    RC_ASSERT(quantity::in_millimetres(reach.longest) > distance - 1e-6);
    most = std::max(most, distance);
  }
  // Half a step beside the worst point the distance is short by at most radius² (step / 2)² / (2 distance), here
  // less than 1300² x 0.008² / 2 x 1/1000 of a millimetre a metre; a whole millimetre is generous.
  RC_ASSERT(quantity::in_millimetres(reach.longest) < most + 1.0);
  RC_ASSERT(quantity::in_millimetres(reach.at_from) < sampled(p, standing, turning, from) + 0.002);
  RC_ASSERT(quantity::in_millimetres(reach.at_to) < sampled(p, standing, turning, to) + 0.002);
  RC_ASSERT(std::abs(quantity::in_millimetres(reach.longest) -
                     sampled(p, standing, turning, quantity::in_degrees(reach.longest_at))) < 0.002);
}

}  // namespace
}  // namespace cotter::geometry
