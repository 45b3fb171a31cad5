#include "geometry/point.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace cotter::geometry {
namespace {

TEST(GridPoint, DistanceIsRoundedToTheNearestMillimetre) {
  EXPECT_EQ(rounded_distance_mm({0, 0, 0}, {3, 4, 12}), 13);
  EXPECT_EQ(rounded_distance_mm({0, 0, 0}, {1, 1, 0}), 1);  // 1.414
  EXPECT_EQ(rounded_distance_mm({0, 0, 0}, {1, 1, 1}), 2);  // 1.732
  EXPECT_EQ(rounded_distance_mm({5, 5, 5}, {5, 5, 5}), 0);
}

TEST(GridPoint, TurnsAtTheLimitsOfTheirClasses) {
  EXPECT_EQ(turn_between({1, 0, 0}, {1, 0, 0}), Turn::to_30_degrees);
  EXPECT_EQ(turn_between({1, 1, 2}, {0, 1, 1}), Turn::to_30_degrees);  // exactly 30
  EXPECT_EQ(turn_between({1, 1, 0}, {1, 0, 0}), Turn::to_60_degrees);  // 45 degrees
  EXPECT_EQ(turn_between({1, 1, 0}, {1, 0, 1}), Turn::to_60_degrees);  // exactly 60
  EXPECT_EQ(turn_between({1, 0, 0}, {0, 1, 0}), Turn::to_90_degrees);
  EXPECT_EQ(turn_between({1, 1, 0}, {-1, 0, 1}), Turn::to_120_degrees);  // exactly 120
  EXPECT_EQ(turn_between({1, 0, 0}, {-1, 0, 0}), Turn::sharper);
  EXPECT_EQ(turn_between({0, 0, 0}, {-1, 0, 0}), Turn::to_30_degrees);
}

RC_GTEST_PROP(GridPointProperty, WholeRoot, ()) {
  const auto n = *rc::gen::inRange<std::int64_t>(0, std::int64_t{1} << 60);
  const auto root = whole_root(n);
  RC_ASSERT(root * root <= n);
  RC_ASSERT((root + 1) * (root + 1) > n);
}

RC_GTEST_PROP(GridPointProperty, TurnOfTheLargestVectorsStaysExact, ()) {
  const auto coordinate = [] { return *rc::gen::inRange<std::int64_t>(-20'000, 20'001); };
  const GridPoint u{coordinate(), coordinate(), coordinate()};
  const GridPoint v{coordinate(), coordinate(), coordinate()};
  RC_PRE(dot(u, u) > 0 && dot(v, v) > 0);
  const long double cosine = static_cast<long double>(dot(u, v)) /
                             std::sqrt(static_cast<long double>(dot(u, u)) * static_cast<long double>(dot(v, v)));
  const long double limits[] = {std::sqrt(0.75L), 0.5L, 0.0L, -0.5L};
  for (const long double limit : limits) RC_PRE(std::abs(cosine - limit) > 1e-12L);
  int expected = 0;
  while (expected < 4 && cosine < limits[expected]) ++expected;
  RC_ASSERT(static_cast<int>(turn_between(u, v)) == expected);
  RC_ASSERT(turn_between(u, v) == turn_between(v, u));
}

}  // namespace
}  // namespace cotter::geometry
