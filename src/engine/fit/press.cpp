#include "engine/fit/press.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "quantity/ensure.hpp"

namespace cotter::engine::fit {
namespace {

constexpr double k_millionth = 1e-6;
/// More than any error of the arithmetic below: some twenty operations without cancellation.
constexpr double k_slack = 1e-12;

constexpr std::size_t k_inputs = 8;
enum Input : std::size_t { bore, shaft, outer, inner, hub_modulus, hub_poisson, shaft_modulus, shaft_poisson };
/// Lengths in nanometres, moduli in pascals.
using Corner = std::array<double, k_inputs>;
using Box = std::array<std::pair<double, double>, k_inputs>;
/// In the order of PressNumber; force and torque for one metre of length and a coefficient of 1.
using Numbers = std::array<double, k_press_numbers>;

double& at(Numbers& numbers, PressNumber number) {
  return numbers[static_cast<std::size_t>(number)];
}

/// (a^2 + b^2) / (a^2 - b^2), the difference taken exactly.
double ratio(double a, double b) {
  return (a * a + b * b) / ((a - b) * (a + b));
}

Numbers numbers_at(const Corner& in) {
  const double hub_ratio = ratio(in[outer], in[bore]);
  const double shaft_ratio = ratio(in[bore], in[inner]);
  const double give =
      (hub_ratio + in[hub_poisson]) / in[hub_modulus] + (shaft_ratio - in[shaft_poisson]) / in[shaft_modulus];
  const double pressure = std::max(in[shaft] - in[bore], 0.0) / in[bore] / give;
  const double shaft_hoop = pressure * (in[inner] > 0 ? shaft_ratio + 1 : 1);
  const double metres = in[bore] * 1e-9;
  Numbers out{};
  at(out, PressNumber::interference) = in[shaft] - in[bore];
  at(out, PressNumber::pressure) = pressure;
  at(out, PressNumber::hub_hoop) = pressure * hub_ratio;
  at(out, PressNumber::shaft_hoop) = shaft_hoop;
  at(out, PressNumber::force) = std::numbers::pi * metres * pressure;
  at(out, PressNumber::torque) = std::numbers::pi * metres * pressure * metres / 2;
  at(out, PressNumber::inner_shrinks) = in[inner] * shaft_hoop / in[shaft_modulus];
  at(out, PressNumber::outer_grows) = in[outer] * pressure * (hub_ratio - 1) / in[hub_modulus];
  return out;
}

/// The inside diameter at which `inner_shrinks` has its crest, while the others stand still; infinite: it has none.
double crest(const Corner& in) {
  const double relative = in[shaft_modulus] * (ratio(in[outer], in[bore]) + in[hub_poisson]) / in[hub_modulus];
  const double falls = 1 + in[shaft_poisson] - relative;
  if (falls <= 0) return std::numeric_limits<double>::infinity();
  return in[bore] * std::sqrt((1 - in[shaft_poisson] + relative) / falls);
}

Box box_of(const PressFit& fit) {
  const auto ends = [](const Range& range, double unit) {
    return std::pair(static_cast<double>(range.low().base()) * unit, static_cast<double>(range.high().base()) * unit);
  };
  return {ends(fit.bore.range, 1),
          ends(fit.shaft.range, 1),
          ends(fit.outer.range, 1),
          ends(fit.inner.range, 1),
          ends(fit.hub_material.modulus, 1),
          ends(fit.hub_material.poisson, k_millionth),
          ends(fit.shaft_material.modulus, 1),
          ends(fit.shaft_material.poisson, k_millionth)};
}

class Extremes {
 public:
  explicit Extremes(const Box& box) {
    low_.fill(std::numeric_limits<double>::infinity());
    high_.fill(-std::numeric_limits<double>::infinity());
    for (std::size_t corner = 0; corner < (std::size_t{1} << k_inputs); ++corner) take(box, corner);
  }

  double low(PressNumber number) const { return low_[static_cast<std::size_t>(number)]; }
  double high(PressNumber number) const { return high_[static_cast<std::size_t>(number)]; }

 private:
  void take(const Box& box, std::size_t corner) {
    Corner in{};
    for (std::size_t i = 0; i < k_inputs; ++i) in[i] = (corner >> i & 1) != 0 ? box[i].second : box[i].first;
    const Numbers numbers = numbers_at(in);
    for (std::size_t i = 0; i < k_press_numbers; ++i) {
      low_[i] = std::min(low_[i], numbers[i]);
      high_[i] = std::max(high_[i], numbers[i]);
    }
    const double top = crest(in);
    if (top <= box[inner].first || box[inner].second <= top) return;
    in[inner] = top;
    double& highest = at(high_, PressNumber::inner_shrinks);
    Numbers crested = numbers_at(in);
    highest = std::max(highest, at(crested, PressNumber::inner_shrinks));
  }

  Numbers low_, high_;
};

/// What a unit of the number is in base units, and for force and torque what length and friction make of it.
std::pair<double, double> factors_of(PressNumber number, const PressFit& fit) {
  if (number != PressNumber::force && number != PressNumber::torque) return {1, 1};
  const auto product = [](quantity::Mixed length, quantity::Mixed friction) {
    return static_cast<double>(length.base()) * 1e-9 * static_cast<double>(friction.base()) * k_millionth;
  };
  const double unit = number == PressNumber::force ? 1e3 : 1e6;
  return {unit * product(fit.length.range.low(), fit.friction.low()),
          unit * product(fit.length.range.high(), fit.friction.high())};
}

Range outward(double low, double high) {
  const double below = std::floor(low - std::abs(low) * k_slack);
  const double above = std::ceil(high + std::abs(high) * k_slack);
  return {quantity::Mixed::from_base(static_cast<std::int64_t>(below)),
          quantity::Mixed::from_base(static_cast<std::int64_t>(above))};
}

void judge_window(PressNumber number, const Window& window, PressResult& result) {
  if (!window.low && !window.high) return;
  const Range& range = result.range(number);
  PressBound bound{number};
  const auto take = [&](std::int64_t margin, bool fails, Edge edge) {
    bound.must = both(bound.must, fails ? Certainty::fails : margin >= 0 ? Certainty::holds : Certainty::open);
    if (bound.governs != Edge::none && bound.margin <= margin) return;
    bound.margin = margin;
    bound.governs = edge;
  };
  if (window.low) take((range.low() - *window.low).base(), range.high() < *window.low, Edge::from);
  if (window.high) take((*window.high - range.high()).base(), *window.high < range.low(), Edge::to);
  result.must = both(result.must, bound.must);
  result.bounds.push_back(bound);
}

void list_unattested(const PressFit& fit, std::vector<std::string>& names) {
  for (const auto& [operand, name] :
       {std::pair(&fit.bore, "bore"), std::pair(&fit.shaft, "shaft"), std::pair(&fit.outer, "outer"),
        std::pair(&fit.inner, "inner"), std::pair(&fit.length, "length")})
    if (!operand->attested) names.emplace_back(name);
  if (!fit.hub_material.attested) names.emplace_back("hub_material");
  if (!fit.shaft_material.attested) names.emplace_back("shaft_material");
}

}  // namespace

PressResult press(const PressFit& fit) {
  quantity::ensure(faults(fit).empty(), "a press fit was computed that has faults");
  PressResult result;
  result.id = fit.id;
  const Extremes extremes(box_of(fit));
  for (std::size_t i = 0; i < k_press_numbers; ++i) {
    const auto number = static_cast<PressNumber>(i);
    const auto [least, most] = factors_of(number, fit);
    result.steps[i] = {number, outward(extremes.low(number) * least, extremes.high(number) * most)};
  }
  // Whole nanometres: nothing to round.
  result.steps.front().range = {fit.shaft.range.low() - fit.bore.range.high(),
                                fit.shaft.range.high() - fit.bore.range.low()};
  judge_window(PressNumber::pressure, fit.pressure, result);
  judge_window(PressNumber::hub_hoop, fit.hub_hoop, result);
  list_unattested(fit, result.rests_on);
  return result;
}

std::string_view word_for(PressNumber number) {
  constexpr std::array<std::string_view, k_press_numbers> k_words = {
      "interference", "pressure", "hub_hoop", "shaft_hoop", "force", "torque", "inner_shrinks", "outer_grows"};
  return k_words[static_cast<std::size_t>(number)];
}

Dimension dimension_of(PressNumber number) {
  constexpr std::array<Dimension, k_press_numbers> k_dimensions = {
      Dimension::length, Dimension::pressure, Dimension::pressure, Dimension::pressure,
      Dimension::force,  Dimension::torque,   Dimension::length,   Dimension::length};
  return k_dimensions[static_cast<std::size_t>(number)];
}

std::string_view formula_of(PressNumber number) {
  constexpr std::array<std::string_view, k_press_numbers> k_formulas = {
      "shaft - bore",
      "interference / bore / ((H + hub's Poisson) / hub's modulus + (S - shaft's Poisson) / shaft's modulus), "
      "H = (outer² + bore²) / (outer² - bore²), S = (bore² + inner²) / (bore² - inner²)",
      "pressure x H",
      "pressure x (S + 1); a solid shaft: pressure",
      "friction x pressure x pi x bore x length",
      "force x bore / 2",
      "inner x hoop stress of the shaft / shaft's modulus",
      "outer x pressure x (H - 1) / hub's modulus"};
  return k_formulas[static_cast<std::size_t>(number)];
}

}  // namespace cotter::engine::fit
