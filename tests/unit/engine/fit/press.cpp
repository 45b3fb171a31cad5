// Press fits: a case by hand, what has no pressure, what is refused, and random samples against Lamé's equations set up
// another way.

#include "engine/fit/press.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>
#include <rapidcheck/gtest.h>

#include "checks.hpp"

namespace cotter::engine::fit {
namespace {

using namespace testing;
using Kind = PressFault::Kind;

Range exactly(std::int64_t base) {
  return Range(Mixed::from_base(base));
}

Range between(std::int64_t low, std::int64_t high) {
  return {Mixed::from_base(low), Mixed::from_base(high)};
}

Elastic material(std::int64_t megapascals, std::int64_t poisson_millionths) {
  return {exactly(megapascals * 1'000'000), exactly(poisson_millionths), true, "stated"};
}

std::pair<Kind, std::string> named(Kind kind, std::string name) {
  return {kind, std::move(name)};
}

/// A steel pin of 25.025 in a hub 25 x 50, 20 long, friction 0.1.
PressFit pin_in_hub() {
  PressFit fit;
  fit.id = "pin";
  fit.bore = um("bore", 25'000);
  fit.shaft = um("shaft", 25'025);
  fit.outer = um("outer", 50'000);
  fit.inner = um("inner", 0);
  fit.length = um("length", 20'000);
  fit.hub_material = fit.shaft_material = material(200'000, 300'000);
  fit.friction = exactly(100'000);
  return fit;
}

/// Within one base unit a side, which is what rounding outward may add.
void expect_about(const Range& range, double value) {
  EXPECT_LE(static_cast<double>(range.low().base()), value);
  EXPECT_GE(static_cast<double>(range.high().base()), value);
  EXPECT_NEAR(static_cast<double>(range.low().base()), value, 1.001 + std::abs(value) * 1e-11);
  EXPECT_NEAR(static_cast<double>(range.high().base()), value, 1.001 + std::abs(value) * 1e-11);
}

TEST(Press, PinInHubByHand) {
  // One material, solid: p = E/2 x interference/bore x (1 - (bore/outer)^2) = 100 000 x 0.001 x 3/4 = 75 MPa.
  const PressResult result = press(pin_in_hub());
  EXPECT_EQ(result.range(PressNumber::interference), exactly(25'000));
  expect_about(result.range(PressNumber::pressure), 75e6);
  expect_about(result.range(PressNumber::hub_hoop), 125e6);   // x (4 + 1) / (4 - 1)
  expect_about(result.range(PressNumber::shaft_hoop), 75e6);  // the same everywhere in a solid shaft
  const double newtons = 0.1 * 75e6 * std::numbers::pi * 0.025 * 0.020;
  expect_about(result.range(PressNumber::force), newtons * 1e3);
  expect_about(result.range(PressNumber::torque), newtons * 0.0125 * 1e6);
  expect_about(result.range(PressNumber::inner_shrinks), 0);
  expect_about(result.range(PressNumber::outer_grows), 50e6 * 75e6 * (2.0 / 3) / 200e9);
  EXPECT_EQ(result.must, Certainty::holds);
  EXPECT_TRUE(result.bounds.empty());
}

TEST(Press, ClearanceHasNoPressure) {
  PressFit fit = pin_in_hub();
  fit.shaft = um("shaft", 24'990, 25'000);
  const PressResult result = press(fit);
  EXPECT_EQ(result.range(PressNumber::interference), between(-10'000, 0));
  for (std::size_t i = 1; i < k_press_numbers; ++i) EXPECT_EQ(result.steps[i].range, exactly(0)) << i;

  fit.shaft = um("shaft", 24'990, 25'025);
  EXPECT_EQ(press(fit).range(PressNumber::pressure).low(), Mixed::from_base(0));
  expect_about(exactly(press(fit).range(PressNumber::pressure).high().base()), 75'000'001);
}

TEST(Press, WindowsHoldFailOrStayOpen) {
  PressFit fit = pin_in_hub();
  const auto most = [&](std::int64_t megapascals) {
    fit.hub_hoop = {{}, Mixed::from_base(megapascals * 1'000'000)};
    return press(fit);
  };
  EXPECT_EQ(most(126).must, Certainty::holds);
  EXPECT_EQ(most(126).bounds.at(0).governs, Edge::to);
  EXPECT_EQ(most(126).bounds.at(0).margin, 999'999);  // rounded outward by one pascal
  EXPECT_EQ(most(124).must, Certainty::fails);
  fit.shaft = um("shaft", 25'020, 25'025);
  EXPECT_EQ(most(124).must, Certainty::open);
  fit.hub_hoop = {};
  fit.pressure = {Mixed::from_base(10'000'000), {}};
  EXPECT_EQ(press(fit).must, Certainty::holds);
  EXPECT_EQ(press(fit).bounds.at(0).number, PressNumber::pressure);
  fit.pressure = {Mixed::from_base(80'000'000), {}};
  EXPECT_EQ(press(fit).must, Certainty::fails);
}

TEST(Press, ATinyHoleDoublesTheStressOfASolidShaft) {
  PressFit fit = pin_in_hub();
  fit.inner = um("inner", 1);
  expect_about(exactly(press(fit).range(PressNumber::shaft_hoop).low().base()), 150e6);
}

TEST(Press, SaysWhatIsWrong) {
  const auto fault_of = [](auto change) {
    PressFit fit = pin_in_hub();
    change(fit);
    const auto found = faults(fit);
    return found.size() == 1 ? named(found[0].kind, found[0].name) : named(Kind::wall, "none or many");
  };
  EXPECT_TRUE(faults(pin_in_hub()).empty());
  EXPECT_EQ(fault_of([](PressFit& fit) { fit.outer = um("outer", 25'000); }), named(Kind::wall, "outer"));
  EXPECT_EQ(fault_of([](PressFit& fit) { fit.inner = um("inner", 25'000); }), named(Kind::wall, "inner"));
  EXPECT_EQ(fault_of([](PressFit& fit) { fit.inner = um("inner", 0, 1); }), named(Kind::solid_or_not, "inner"));
  EXPECT_EQ(fault_of([](PressFit& fit) { fit.shaft = um("shaft", 27'501); }), named(Kind::too_much, "shaft"));
  EXPECT_EQ(fault_of([](PressFit& fit) { fit.bore = um("bore", 0); }), named(Kind::out_of_bounds, "bore"));
  EXPECT_EQ(fault_of([](PressFit& fit) { fit.length = um("length", 1'000'001); }),
            named(Kind::out_of_bounds, "length"));
  EXPECT_EQ(fault_of([](PressFit& fit) { fit.hub_material.poisson = exactly(500'001); }),
            named(Kind::out_of_bounds, "hub_material"));
  EXPECT_EQ(fault_of([](PressFit& fit) { fit.shaft_material.modulus = exactly(0); }),
            named(Kind::out_of_bounds, "shaft_material"));
  EXPECT_EQ(fault_of([](PressFit& fit) { fit.friction = exactly(-1); }), named(Kind::out_of_bounds, "friction"));
  EXPECT_EQ(fault_of([](PressFit& fit) { fit.pressure = {Mixed::from_base(2), Mixed::from_base(1)}; }),
            named(Kind::window_swapped, "pressure"));
  EXPECT_EQ(fault_of([](PressFit& fit) { fit.length.dimension = Dimension::force; }),
            named(Kind::wrong_dimension, "length"));
}

TEST(Press, RestsOnWhatNobodyVouchesFor) {
  PressFit fit = pin_in_hub();
  fit.outer.attested = false;
  fit.hub_material = *elastic_constants("composite");
  EXPECT_EQ(press(fit).rests_on, (std::vector<std::string>{"outer", "hub_material"}));
}

TEST(Elastic, RowsAreInOrderAndCarryASource) {
  EXPECT_EQ(elastic_materials(), (std::vector<std::string>{"steel", "aluminium", "titanium", "plastic", "composite"}));
  EXPECT_EQ(elastic_constants("wood"), std::nullopt);
  // Table of elastic constants after Gere and Ashby: steels 190 to 210 GPa, 0.27 to 0.30.
  EXPECT_EQ(elastic_constants("steel")->modulus, between(190'000'000'000, 210'000'000'000));
  EXPECT_EQ(elastic_constants("steel")->poisson, between(270'000, 300'000));
  EXPECT_TRUE(elastic_constants("steel")->attested);
  EXPECT_FALSE(elastic_constants("composite")->attested);
  for (const std::string& name : elastic_materials()) EXPECT_NE(elastic_constants(name)->source, "");
}

/// Lamé with the two constants of each cylinder, radial stress A - B / r^2, hoop A + B / r^2; metres and pascals.
struct Cylinder {
  double inside, outside, modulus, poisson, a, b;

  Cylinder(double in, double out, double e, double nu, double pressure_inside, double pressure_outside)
      : inside(in), outside(out), modulus(e), poisson(nu) {
    if (in == 0) {
      b = 0;
      a = -pressure_outside;
      return;
    }
    b = (pressure_inside - pressure_outside) / (1 / (in * in) - 1 / (out * out));
    a = b / (in * in) - pressure_inside;
  }
  double hoop(double r) const { return a + b / (r * r); }
  double moves(double r) const { return ((1 - poisson) * a * r + (1 + poisson) * b / r) / modulus; }
};

struct Sample {
  double bore, shaft, outer, inner, length, hub_modulus, hub_poisson, shaft_modulus, shaft_poisson, friction;
};

std::array<double, k_press_numbers> by_constants(const Sample& in) {
  const double r = in.bore / 2e9;
  const Cylinder hub_at_one(r, in.outer / 2e9, in.hub_modulus, in.hub_poisson, 1, 0);
  const Cylinder shaft_at_one(in.inner / 2e9, r, in.shaft_modulus, in.shaft_poisson, 0, 1);
  const double gap = (in.shaft - in.bore) / 2e9;
  const double pressure = std::max(gap, 0.0) / (hub_at_one.moves(r) - shaft_at_one.moves(r));
  const double inner = in.inner / 2e9;
  const double shaft_hoop = -shaft_at_one.hoop(inner == 0 ? r : inner) * pressure;
  const double shrinks = inner == 0 ? 0 : -2e9 * shaft_at_one.moves(inner) * pressure;
  const double force = in.friction / 1e6 * pressure * 2 * std::numbers::pi * r * in.length / 1e9;
  return {in.shaft - in.bore,
          pressure,
          hub_at_one.hoop(r) * pressure,
          shaft_hoop,
          force * 1e3,
          force * r * 1e6,
          shrinks,
          2e9 * hub_at_one.moves(in.outer / 2e9) * pressure};
}

Range some(std::int64_t low, std::int64_t high) {
  const auto a = *rc::gen::inRange(low, high + 1);
  const auto b = *rc::gen::inRange(low, high + 1);
  return between(std::min(a, b), std::max(a, b));
}

Operand some_length(const char* role, std::int64_t low, std::int64_t high) {
  const Range range = some(low, high);
  return base(role, range.low().base(), range.high().base(), Dimension::length);
}

PressFit some_fit() {
  constexpr std::int64_t k_um = 1'000;
  PressFit fit;
  fit.id = "some";
  const std::int64_t nominal = *rc::gen::inRange<std::int64_t>(10'000, 60'000) * k_um;
  fit.bore = some_length("bore", nominal - 50 * k_um, nominal + 50 * k_um);
  fit.shaft = some_length("shaft", nominal - 50 * k_um, nominal + 150 * k_um);
  fit.outer = some_length("outer", nominal + 3'000 * k_um, nominal + 30'000 * k_um);
  fit.inner = *rc::gen::inRange(0, 4) == 0 ? um("inner", 0) : some_length("inner", k_um, nominal - 3'000 * k_um);
  fit.length = some_length("length", 1'000 * k_um, 30'000 * k_um);
  fit.hub_material = {some(1'000'000'000, 210'000'000'000), some(0, 500'000), true, ""};
  fit.shaft_material = {some(1'000'000'000, 210'000'000'000), some(0, 500'000), true, ""};
  fit.friction = some(0, 400'000);
  return fit;
}

/// A point of the range, at thousandths of the way.
double inside(const Range& range, std::int64_t thousandths) {
  const auto low = static_cast<double>(range.low().base());
  return low + static_cast<double>(range.width().base()) * static_cast<double>(thousandths) / 1000;
}

Sample some_sample(const PressFit& fit) {
  const auto at = [](const Range& range) {
    const int where = *rc::gen::inRange(0, 4);  // the ends matter most
    return inside(range, where == 0 ? 0 : where == 1 ? 1000 : *rc::gen::inRange(0, 1001));
  };
  Sample in{};
  in.bore = at(fit.bore.range);
  in.shaft = at(fit.shaft.range);
  in.outer = at(fit.outer.range);
  in.inner = at(fit.inner.range);
  in.length = at(fit.length.range);
  in.hub_modulus = at(fit.hub_material.modulus);
  in.hub_poisson = at(fit.hub_material.poisson) / 1e6;
  in.shaft_modulus = at(fit.shaft_material.modulus);
  in.shaft_poisson = at(fit.shaft_material.poisson) / 1e6;
  in.friction = at(fit.friction);
  return in;
}

RC_GTEST_PROP(Press, EnclosesEverySampleOfItsInputs, ()) {
  const PressFit fit = some_fit();
  RC_PRE(faults(fit).empty());
  const PressResult result = press(fit);
  for (int i = 0; i < 40; ++i) {
    const auto numbers = by_constants(some_sample(fit));
    for (std::size_t n = 0; n < k_press_numbers; ++n) {
      const double low = static_cast<double>(result.steps[n].range.low().base());
      const double high = static_cast<double>(result.steps[n].range.high().base());
      // 1e-9: the sample's own arithmetic subtracts numbers that are nearly equal.
      const double slack = 1e-9 * std::max(std::abs(low), std::abs(high)) + 1e-6;
      RC_ASSERT(std::isfinite(numbers[n]));
      RC_ASSERT(low - slack <= numbers[n] && numbers[n] <= high + slack);
    }
  }
}

RC_GTEST_PROP(Press, ExactInputsGiveOneNumber, ()) {
  PressFit fit = some_fit();
  for (Range* range :
       {&fit.bore.range, &fit.shaft.range, &fit.outer.range, &fit.inner.range, &fit.length.range, &fit.friction,
        &fit.hub_material.modulus, &fit.hub_material.poisson, &fit.shaft_material.modulus, &fit.shaft_material.poisson})
    *range = Range(range->low());
  RC_PRE(faults(fit).empty());
  const PressResult result = press(fit);
  for (const PressStep& step : result.steps) {
    const double width = static_cast<double>(step.range.width().base());
    RC_ASSERT(width <= 2 + 1e-11 * std::abs(static_cast<double>(step.range.high().base())));
  }
}

// A thin ring in a stiff hub: with the inside diameter the shrinkage first grows, then falls.
TEST(Press, TheCrestOfTheShrinkageIsInTheRange) {
  PressFit fit = pin_in_hub();
  fit.shaft_material = material(3'000, 400'000);
  const auto shrinks = [&](std::int64_t from, std::int64_t to) {
    fit.inner = um("inner", from, to);
    return press(fit).range(PressNumber::inner_shrinks);
  };
  const std::int64_t thin = shrinks(12'000, 12'000).high().base();
  const std::int64_t mid = shrinks(17'000, 17'000).high().base();
  const std::int64_t wide = shrinks(24'000, 24'000).high().base();
  ASSERT_GT(mid, thin);
  ASSERT_GT(mid, wide);
  EXPECT_GE(shrinks(12'000, 24'000).high().base(), mid);
  EXPECT_LE(shrinks(12'000, 24'000).low().base(), std::min(thin, wide));
}

}  // namespace
}  // namespace cotter::engine::fit
