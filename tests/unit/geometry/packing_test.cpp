#include "geometry/packing.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace cotter::geometry {
namespace {

using quantity::Length;
using quantity::micrometres;
using quantity::millimetres;
using quantity::nanometres;

PackingAnswer answer(const std::vector<Length>& diameters, Length opening) {
  return judge_packing(diameters, opening).answer;
}

constexpr Length k_nanometre = nanometres(1);

TEST(Packing, OneCircleFitsItsOwnSize) {
  EXPECT_EQ(judge_packing({millimetres(5)}, millimetres(5)),
            (PackingJudgement{PackingAnswer::fits, PackingBound::single}));
  EXPECT_EQ(answer({millimetres(5) + k_nanometre}, millimetres(5)), PackingAnswer::cannot);
  EXPECT_EQ(answer({}, millimetres(5)), PackingAnswer::fits);
}

TEST(Packing, TwoCirclesNeedTheSumOfTheirDiameters) {
  const std::vector<Length> two = {millimetres(5), millimetres(3)};
  EXPECT_EQ(judge_packing(two, millimetres(8)), (PackingJudgement{PackingAnswer::fits, PackingBound::pair}));
  EXPECT_EQ(judge_packing(two, millimetres(8) - k_nanometre),
            (PackingJudgement{PackingAnswer::cannot, PackingBound::pair}));
}

// Source: circle inscribed in an arbelos, r1 r2 (r1 + r2) / (r1^2 + r1 r2 + r2^2): for radii 3 and 2 the third may have
// up to 1.5789 beside them, so radius 1 needs 5, where the circle around three touching circles would say 6.
TEST(Packing, SmallThirdCircleLiesBesideTheFirstTwo) {
  const std::vector<Length> three = {millimetres(6), millimetres(4), millimetres(2)};
  EXPECT_EQ(opening_for_three(three[0], three[1], three[2]), millimetres(10));
  EXPECT_EQ(answer(three, millimetres(10)), PackingAnswer::fits);
  EXPECT_EQ(answer(three, millimetres(10) - k_nanometre), PackingAnswer::cannot);
  EXPECT_EQ(opening_for_three(millimetres(5), millimetres(4), micrometres(2800)), millimetres(9));
}

// Source: Descartes' circle theorem, radii 2.5, 2.5, 2 in a circle of radius 5.0848417358 (recomputed in closed form).
TEST(Packing, LargeThirdCircleNeedsTheCircleAroundAllThree) {
  const std::vector<Length> three = {millimetres(5), millimetres(4), millimetres(5)};
  const double needed_nm = 2 * 5.0848417358e6;
  EXPECT_NEAR(static_cast<double>(opening_for_three(three[0], three[1], three[2]).base()), needed_nm, 1.5);
  EXPECT_EQ(answer(three, nanometres(static_cast<std::int64_t>(std::ceil(needed_nm)) + 1)), PackingAnswer::fits);
  EXPECT_EQ(judge_packing(three, nanometres(static_cast<std::int64_t>(std::floor(needed_nm)) - 1)),
            (PackingJudgement{PackingAnswer::cannot, PackingBound::triple}));
}

// Source: table of circle packings in a circle, n = 1..7 (optimality proved); closed forms recomputed:
// 1, 2, 1 + 2/sqrt 3, 1 + sqrt 2, 1 + sqrt(2 (1 + 1/sqrt 5)), 3, 3.
TEST(Packing, EqualCirclesUpToSeven) {
  const double ratios[] = {
      1, 2, 1 + 2 / std::sqrt(3.0), 1 + std::sqrt(2.0), 1 + std::sqrt(2 * (1 + 1 / std::sqrt(5.0))), 3, 3};
  for (std::size_t n = 1; n <= 7; ++n) {
    const std::vector<Length> circles(n, millimetres(10));
    const auto needed = static_cast<std::int64_t>(std::ceil(ratios[n - 1] * 1e7 - 1e-6));
    EXPECT_EQ(answer(circles, nanometres(needed + 2)), PackingAnswer::fits) << n;
    EXPECT_EQ(answer(circles, nanometres(needed - 2)), PackingAnswer::cannot) << n;
    // With one a little smaller the bound of equal circles no longer says no, and must not say yes either.
    std::vector<Length> nearly = circles;
    nearly.back() -= micrometres(100);
    if (n > 3) {
      EXPECT_NE(answer(nearly, nanometres(needed) - micrometres(1)), PackingAnswer::fits) << n;
    }
  }
}

TEST(Packing, UnequalCirclesBetweenTheBoundsAreUndecided) {
  const std::vector<Length> four = {millimetres(5), millimetres(5), millimetres(3), millimetres(3)};
  EXPECT_EQ(judge_packing(four, millimetres(12)), (PackingJudgement{PackingAnswer::fits, PackingBound::half_area}));
  EXPECT_EQ(answer(four, millimetres(10)), PackingAnswer::undecided);
  EXPECT_EQ(answer(four, millimetres(9)), PackingAnswer::cannot);
}

// 0.70 and 0.33 of the opening fill 0.599 of its area, but lie 1.03 wide side by side.
TEST(Packing, SixtyPercentOfTheAreaIsNotEnough) {
  EXPECT_EQ(answer({millimetres(70), millimetres(33)}, millimetres(100)), PackingAnswer::cannot);
}

double overlap(const std::vector<Length>& diameters, Length opening, const std::vector<Centre>& centres) {
  double worst = -1e9;
  for (std::size_t i = 0; i < centres.size(); ++i) {
    const double ri = in_millimetres(diameters[i]) / 2;
    worst = std::max(worst, std::hypot(centres[i].x_mm, centres[i].y_mm) + ri - in_millimetres(opening) / 2);
    for (std::size_t j = 0; j < i; ++j)
      worst = std::max(worst, ri + in_millimetres(diameters[j]) / 2 -
                                  std::hypot(centres[i].x_mm - centres[j].x_mm, centres[i].y_mm - centres[j].y_mm));
  }
  return worst;
}

std::vector<Length> random_circles(int most) {
  const auto sizes = *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(500, 6000)));
  std::vector<Length> circles;
  for (std::size_t i = 0; i < sizes.size() && i < static_cast<std::size_t>(most); ++i)
    circles.push_back(micrometres(sizes[i]));
  return circles;
}

RC_GTEST_PROP(PackingProperty, WitnessShowsTheFit, ()) {
  const auto circles = random_circles(7);
  const Length opening = micrometres(*rc::gen::inRange(1000, 20000));
  const auto centres = packing_witness(circles, opening);
  const PackingJudgement judgement = judge_packing(circles, opening);
  if (judgement.answer != PackingAnswer::fits) RC_ASSERT(centres.empty());
  if (judgement.answer == PackingAnswer::fits && judgement.bound != PackingBound::half_area)
    RC_ASSERT(centres.size() == circles.size());
  // The stated accuracy of a witness.
  if (!centres.empty()) RC_ASSERT(overlap(circles, opening, centres) < 1e-6);
}

TEST(Packing, WitnessOfTheTightestThree) {
  const std::vector<Length> three = {millimetres(4), millimetres(5), millimetres(5)};
  const Length opening = opening_for_three(three[0], three[1], three[2]);
  const auto centres = packing_witness(three, opening);
  ASSERT_EQ(centres.size(), 3U);
  EXPECT_LT(overlap(three, opening, centres), 1e-6);
}

RC_GTEST_PROP(PackingProperty, FewerSmallerOrMoreRoomNeverHurts, ()) {
  auto circles = random_circles(8);
  const Length opening = micrometres(*rc::gen::inRange(1000, 20000));
  RC_PRE(answer(circles, opening) == PackingAnswer::fits);
  RC_ASSERT(answer(circles, opening + micrometres(*rc::gen::inRange(0, 3000))) == PackingAnswer::fits);
  const auto which = *rc::gen::inRange<std::size_t>(0, circles.size());
  auto smaller = circles;
  smaller[which] = nanometres(smaller[which].base() / 2);
  RC_ASSERT(answer(smaller, opening) == PackingAnswer::fits);
  circles.erase(circles.begin() + static_cast<std::ptrdiff_t>(which));
  RC_ASSERT(answer(circles, opening) == PackingAnswer::fits);
}

}  // namespace
}  // namespace cotter::geometry
