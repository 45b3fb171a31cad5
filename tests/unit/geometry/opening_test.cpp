#include "geometry/opening.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace cotter::geometry {
namespace {

using quantity::Length;
using quantity::millimetres;
using quantity::nanometres;

// Source: closed form, w = (L - W) + 2 sqrt((W/2)^2 - (h/2)^2): slot 12 x 7, plug 4 thick, at most 10.74456265 wide.
TEST(Opening, WidestPlugThroughASlot) {
  const Opening slot{millimetres(7), millimetres(12)};
  EXPECT_TRUE(passes({nanometres(10'744'562), millimetres(4)}, slot));
  EXPECT_FALSE(passes({nanometres(10'744'563), millimetres(4)}, slot));
  EXPECT_TRUE(passes({millimetres(4), nanometres(10'744'562)}, slot));
}

// Source: Pythagoras, 6 x 8 has the diagonal 10.
TEST(Opening, RectangleThroughARoundHoleNeedsItsDiagonal) {
  EXPECT_TRUE(passes({millimetres(6), millimetres(8)}, {millimetres(10), millimetres(10)}));
  EXPECT_FALSE(passes({millimetres(6), millimetres(8)}, {nanometres(9'999'999), nanometres(9'999'999)}));
  EXPECT_EQ(diagonal({millimetres(6), millimetres(8)}), millimetres(10));
  EXPECT_EQ(diagonal({nanometres(1), nanometres(1)}), nanometres(2));
}

TEST(Opening, ThickPlugIsStoppedByTheWidthOfTheSlot) {
  EXPECT_FALSE(passes({millimetres(8), millimetres(8)}, {millimetres(7), millimetres(30)}));
  EXPECT_TRUE(passes({millimetres(23), millimetres(7)}, {millimetres(7), millimetres(30)}));
  EXPECT_TRUE(passes(millimetres(7), {millimetres(7), millimetres(30)}));
  EXPECT_FALSE(passes(nanometres(7'000'001), {millimetres(7), millimetres(30)}));
}

RC_GTEST_PROP(OpeningProperty, RoundHoleTakesExactlyThePlugsOfItsDiagonal, ()) {
  const Rectangle plug{nanometres(*rc::gen::inRange(1, 20'000'000)), nanometres(*rc::gen::inRange(1, 20'000'000))};
  const Length enough = diagonal(plug);
  RC_ASSERT(passes(plug, {enough, enough}));
  RC_ASSERT(!passes(plug, {enough - nanometres(1), enough - nanometres(1)}));
}

}  // namespace
}  // namespace cotter::geometry
