#include "geometry/bend.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace cotter::geometry {
namespace {

TEST(Bend, TangentLengthsByPlaneGeometry) {
  EXPECT_EQ(tangent_length_mm({100, 0, 0}, {100, 0, 0}, 30), 0);
  EXPECT_EQ(tangent_length_mm({100, 0, 0}, {0, 0, 0}, 30), 0);
  // A quarter turn takes its radius of each side.
  EXPECT_NEAR(tangent_length_mm({100, 0, 0}, {0, 70, 0}, 30), 30, 1e-9);
  // A regular hexagon turns by 60 degrees at each corner: tan 30 = 1 / sqrt 3. Directions (1000, 0) and (500, 866)
  // are 60 degrees within 1e-4.
  EXPECT_NEAR(tangent_length_mm({1000, 0, 0}, {500, 866, 0}, 30), 30 / std::sqrt(3.0), 1e-3);
  EXPECT_TRUE(std::isinf(tangent_length_mm({10, 0, 0}, {-20, 0, 0}, 30)));
}

TEST(Bend, TwoQuarterTurnsShareTheStretchBetweenThem) {
  const auto step = [](std::int64_t between) {
    return std::vector<GridPoint>{{0, 0, 0}, {100, 0, 0}, {100, between, 0}, {200, between, 0}};
  };
  EXPECT_FALSE(corners_take_radius(step(59), 30));
  EXPECT_TRUE(corners_take_radius(step(61), 30));
  EXPECT_TRUE(corners_take_radius(step(1), 0));
}

TEST(Bend, TheEndsLeaveRoomForTheirOwnArcOnly) {
  EXPECT_FALSE(corners_take_radius({{0, 0, 0}, {29, 0, 0}, {29, 100, 0}}, 30));
  EXPECT_TRUE(corners_take_radius({{0, 0, 0}, {31, 0, 0}, {31, 31, 0}}, 30));
  EXPECT_TRUE(corners_take_radius({{0, 0, 0}, {5, 0, 0}}, 500));
  EXPECT_FALSE(corners_take_radius({{0, 0, 0}, {50, 0, 0}, {0, 0, 0}}, 1));
}

}  // namespace
}  // namespace cotter::geometry
