#include "geometry/packing.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "packing_checker.hpp"

namespace cotter::geometry {
namespace {

using quantity::Length;
using quantity::micrometres;
using quantity::millimetres;
using quantity::nanometres;

Opening round_of(Length diameter) {
  return {diameter, diameter};
}

Length mm(double n) {
  return nanometres(std::llround(n * 1e6));
}

PackingAnswer answer(const std::vector<Length>& diameters, Length opening) {
  return judge_packing(round_of(opening), {diameters, {}}).answer;
}

PackingBound bound(const Opening& opening, const Bodies& bodies) {
  return judge_packing(opening, bodies).bound;
}

constexpr Length k_nanometre = nanometres(1);

TEST(Packing, OneCircleFitsItsOwnSize) {
  EXPECT_EQ(answer({millimetres(5)}, millimetres(5)), PackingAnswer::fits);
  EXPECT_EQ(bound(round_of(millimetres(5)), {{millimetres(5)}, {}}), PackingBound::single);
  EXPECT_EQ(answer({millimetres(5) + k_nanometre}, millimetres(5)), PackingAnswer::cannot);
  EXPECT_EQ(answer({}, millimetres(5)), PackingAnswer::fits);
}

TEST(Packing, TwoCirclesNeedTheSumOfTheirDiameters) {
  const std::vector<Length> two = {millimetres(5) + k_nanometre, millimetres(3)};
  EXPECT_EQ(bound(round_of(millimetres(8) + k_nanometre), {two, {}}), PackingBound::pair);
  EXPECT_EQ(answer(two, millimetres(8) + k_nanometre), PackingAnswer::fits);
  const PackingJudgement no = judge_packing(round_of(millimetres(8)), {two, {}});
  EXPECT_EQ(no.answer, PackingAnswer::cannot);
  EXPECT_EQ(no.bound, PackingBound::pair);
  EXPECT_EQ(no.needed, millimetres(8) + k_nanometre);
  EXPECT_EQ(no.offered, millimetres(8));
  // Touching each other and the wall, with odd diameters: the places are whole half nanometres.
  const auto witness = packing_witness(round_of(millimetres(8) + k_nanometre), {two, {}});
  ASSERT_TRUE(witness);
  EXPECT_EQ(witness->circles, (std::vector<Place>{{-3'000'000, 0}, {5'000'001, 0}}));
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
  const Opening small = round_of(nanometres(static_cast<std::int64_t>(std::floor(needed_nm)) - 1));
  EXPECT_EQ(judge_packing(small, {three, {}}).answer, PackingAnswer::cannot);
  EXPECT_EQ(bound(small, {three, {}}), PackingBound::triple);
}

TEST(Packing, RowFillsASlotExactly) {
  const Opening slot{millimetres(5), millimetres(13) + k_nanometre};
  const Bodies three{{millimetres(4), millimetres(5), millimetres(4) + k_nanometre}, {}};
  EXPECT_EQ(bound(slot, three), PackingBound::row);
  const auto witness = packing_witness(slot, three);
  ASSERT_TRUE(witness);
  EXPECT_GE(checker::least_gap(slot, three, *witness), -1e-6L);
  // Circles as wide as the slot cannot go past each other.
  const Bodies wide{std::vector<Length>(3, millimetres(5)), {}};
  EXPECT_EQ(judge_packing({millimetres(5), mm(14.99)}, wide).answer, PackingAnswer::cannot);
}

// Two of 4 in a slot 4 wide need all of its length; judged in the circle of its width they would not fit at all.
TEST(Packing, SlotIsMoreThanTheCircleOfItsWidth) {
  EXPECT_EQ(judge_packing({millimetres(4), millimetres(8)}, {{millimetres(4), millimetres(4)}, {}}).answer,
            PackingAnswer::fits);
  EXPECT_EQ(answer({millimetres(4), millimetres(4)}, millimetres(4)), PackingAnswer::cannot);
}

TEST(Packing, UnequalCirclesAreSearchedFor) {
  const std::vector<Length> four = {millimetres(5), millimetres(5), millimetres(3), millimetres(3)};
  EXPECT_EQ(bound(round_of(millimetres(12)), {four, {}}), PackingBound::half_area);
  EXPECT_EQ(answer(four, millimetres(9)), PackingAnswer::cannot);
  // Two of 5 side by side need 10; the two of 3 lie above and below: radius of the arbelos' circle is 10/3 / 2.
  EXPECT_EQ(answer(four, millimetres(10)), PackingAnswer::fits);
  EXPECT_EQ(answer({millimetres(5), millimetres(5), mm(3.4), millimetres(3)}, millimetres(10)), PackingAnswer::cannot);
}

TEST(Packing, WithoutEffortNothingIsSearched) {
  const Bodies four{{mm(5), mm(4.8), mm(3.7), mm(3.6)}, {}};
  const PackingJudgement quick = judge_packing(round_of(mm(10.1)), four, {0});
  EXPECT_EQ(quick.answer, PackingAnswer::undecided);
  EXPECT_EQ(quick.bound, PackingBound::none);
  EXPECT_EQ(judge_packing(round_of(mm(10.1)), four).bound, PackingBound::search);
}

TEST(Packing, MoreThanTwelveCirclesAreJudgedByBoundsAndPushedApart) {
  const Bodies twenty{std::vector<Length>(20, millimetres(2)), {}};
  EXPECT_EQ(judge_packing(round_of(millimetres(13)), twenty).answer, PackingAnswer::fits);
  EXPECT_EQ(judge_packing(round_of(mm(10.3)), twenty).answer, PackingAnswer::undecided);
  EXPECT_EQ(judge_packing(round_of(millimetres(9)), twenty).answer, PackingAnswer::cannot);
}

TEST(Packing, ForgedWitnessesAreRefused) {
  const Opening slot{millimetres(5), millimetres(10)};
  const Bodies bodies{{millimetres(5)}, Rectangle{millimetres(4), millimetres(2)}};
  const auto witness = packing_witness(slot, bodies);
  ASSERT_TRUE(witness);
  EXPECT_TRUE(witness_holds(slot, bodies, *witness));
  PackingWitness forged = *witness;
  forged.circles[0].y += 2;
  EXPECT_FALSE(witness_holds(slot, bodies, forged));
  forged = *witness;
  forged.plug = forged.circles[0];
  EXPECT_FALSE(witness_holds(slot, bodies, forged));
  forged = *witness;
  forged.circles.clear();
  EXPECT_FALSE(witness_holds(slot, bodies, forged));
}

TEST(Packing, RoomBesideIsWhatIsLeft) {
  EXPECT_EQ(room_beside(round_of(millimetres(10)), {{millimetres(7)}, {}}), millimetres(3));
  EXPECT_EQ(room_beside(round_of(millimetres(10)), {}), millimetres(10));
  EXPECT_EQ(room_beside({millimetres(7), millimetres(15)}, {{millimetres(6)}, {}}), millimetres(7));
  EXPECT_EQ(room_beside(round_of(millimetres(10)), {{millimetres(11)}, {}}), Length{});
  // Beside 5 and 5 in 10: the arbelos' circle, 10/3, to a nanometre downwards.
  EXPECT_EQ(room_beside(round_of(millimetres(10)), {{millimetres(5), millimetres(5)}, {}}), nanometres(3'333'333));
}

TEST(Packing, WitnessOfTheTightestThree) {
  const Bodies three{{millimetres(4), millimetres(5), millimetres(5)}, {}};
  const Opening opening = round_of(opening_for_three(millimetres(4), millimetres(5), millimetres(5)));
  EXPECT_EQ(judge_packing(opening, three).answer, PackingAnswer::fits);
  const auto witness = packing_witness(round_of(opening.width + nanometres(2)), three);
  ASSERT_TRUE(witness);
  EXPECT_GE(checker::least_gap(round_of(opening.width + nanometres(2)), three, *witness), -1e-6L);
}

Opening random_opening() {
  const Length width = micrometres(*rc::gen::inRange(2000, 12000));
  const Length length = width + micrometres(*rc::gen::element(0, 1) * *rc::gen::inRange(0, 9000));
  return {width, length, *rc::gen::element(Shape::slot, Shape::oval)};
}

Bodies random_bodies(std::size_t most) {
  Bodies bodies;
  const auto sizes = *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(500, 6000)));
  for (std::size_t i = 0; i < sizes.size() && i < most; ++i) bodies.diameters.push_back(micrometres(sizes[i]));
  if (*rc::gen::inRange(0, 3) == 0)
    bodies.plug = Rectangle{micrometres(*rc::gen::inRange(500, 8000)), micrometres(*rc::gen::inRange(500, 8000))};
  return bodies;
}

constexpr Effort k_little{20'000};

RC_GTEST_PROP(PackingProperty, WitnessShowsTheFit, ()) {
  const Bodies bodies = random_bodies(9);
  const Opening opening = random_opening();
  const auto witness = packing_witness(opening, bodies, k_little);
  if (judge_packing(opening, bodies, k_little).answer == PackingAnswer::fits) {
    RC_ASSERT(witness.has_value());
    RC_ASSERT(witness_holds(opening, bodies, *witness));
    RC_ASSERT(checker::least_gap(opening, bodies, *witness) >= -1e-6L);
  } else {
    RC_ASSERT(!witness.has_value());
  }
}

RC_GTEST_PROP(PackingProperty, FewerSmallerOrMoreRoomNeverTurnsFitsIntoCannot, ()) {
  const Bodies bodies = random_bodies(6);
  const Opening opening = random_opening();
  RC_PRE(judge_packing(opening, bodies, k_little).answer == PackingAnswer::fits);
  const auto judged = [](const Opening& o, const Bodies& b) { return judge_packing(o, b, k_little).answer; };
  const Length more = micrometres(*rc::gen::inRange(0, 3000));
  RC_ASSERT(judged({opening.width + more, opening.length + more, opening.shape}, bodies) != PackingAnswer::cannot);
  const auto which = *rc::gen::inRange<std::size_t>(0, bodies.diameters.size());
  Bodies smaller = bodies;
  smaller.diameters[which] = nanometres(smaller.diameters[which].base() / 2);
  RC_ASSERT(judged(opening, smaller) != PackingAnswer::cannot);
  Bodies fewer = bodies;
  fewer.diameters.erase(fewer.diameters.begin() + static_cast<std::ptrdiff_t>(which));
  RC_ASSERT(judged(opening, fewer) != PackingAnswer::cannot);
  fewer = bodies;
  fewer.plug.reset();
  RC_ASSERT(judged(opening, fewer) != PackingAnswer::cannot);
}

RC_GTEST_PROP(PackingProperty, OrderAndSideDecideNothing, ()) {
  const Bodies bodies = random_bodies(5);
  const Opening opening = random_opening();
  Bodies other = bodies;
  std::reverse(other.diameters.begin(), other.diameters.end());
  RC_ASSERT(judge_packing(opening, bodies, k_little).answer == judge_packing(opening, other, k_little).answer);
  if (other.plug) std::swap(other.plug->width, other.plug->height);
  const PackingAnswer a = judge_packing(opening, bodies, k_little).answer;
  const PackingAnswer b = judge_packing(opening, other, k_little).answer;
  RC_ASSERT(a == b || a == PackingAnswer::undecided || b == PackingAnswer::undecided);
}

}  // namespace
}  // namespace cotter::geometry
