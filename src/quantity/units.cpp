#include "quantity/units.hpp"

#include <algorithm>

#include "quantity/edit_distance.hpp"
#include "quantity/written_number.hpp"

namespace cotter::quantity {
namespace {

constexpr std::int64_t k_inch = 25'400'000;  // nanometres; exact by definition (international inch)
// 1 psi in 1e-9 Pa, from the pound-force and the inch, rounded in the tenth digit.
constexpr std::int64_t k_psi = 6'894'757'293'168;

using enum Dimension;
using enum UnitRule;

constexpr Unit k_units[] = {
    {"mm", length, exact, 1'000'000, 1},
    {"cm", length, exact, 10'000'000, 1},
    {"m", length, exact, 1'000'000'000, 1},
    {"\u00B5m", length, exact, 1'000, 1},  // micro sign
    {"\u03BCm", length, exact, 1'000, 1},  // Greek mu
    {"um", length, exact, 1'000, 1},
    {"nm", length, exact, 1, 1},
    {"in", length, inch, k_inch, 1},
    {"inch", length, inch, k_inch, 1},
    {"\"", length, inch, k_inch, 1},
    {"\u2033", length, inch, k_inch, 1},  // double prime
    {"tpi", length, per_inch, k_inch, 1},
    {"TPI", length, per_inch, k_inch, 1},
    {"°", angle, exact, 1'000'000, 1},
    {"deg", angle, exact, 1'000'000, 1},
    {"degree", angle, exact, 1'000'000, 1},
    {"degrees", angle, exact, 1'000'000, 1},
    {"N\u00B7m", torque, exact, 1'000'000, 1},  // middle dot
    {"N\u22C5m", torque, exact, 1'000'000, 1},  // dot operator
    {"Nm", torque, exact, 1'000'000, 1},
    {"N*m", torque, exact, 1'000'000, 1},
    {"N m", torque, exact, 1'000'000, 1},
    {"N.m", torque, exact, 1'000'000, 1},
    {"N", force, exact, 1'000, 1},
    {"kN", force, exact, 1'000'000, 1},
    {"g", mass, exact, 1'000, 1},
    {"kg", mass, exact, 1'000'000, 1},
    {"mg", mass, exact, 1, 1},
    {"bar", pressure, exact, 100'000, 1},
    {"kPa", pressure, exact, 1'000, 1},
    {"MPa", pressure, exact, 1'000'000, 1},
    {"Pa", pressure, exact, 1, 1},
    {"psi", pressure, enclosed, k_psi, 1'000'000'000},
    {"s", duration, exact, 1'000, 1},
    {"min", duration, exact, 60'000, 1},
    {"h", duration, exact, 3'600'000, 1},
};

}  // namespace

Unit unit_of_counts() {
  return {"", count, exact, 1, 1};
}

std::optional<Unit> leading_unit(std::string_view text) {
  std::optional<Unit> longest;
  for (const Unit& unit : k_units) {
    if (text.substr(0, unit.spelling.size()) != unit.spelling) continue;
    const std::string_view rest = text.substr(unit.spelling.size());
    const bool ends = rest.empty() || leading_space(rest) > 0;
    if (ends && (!longest || unit.spelling.size() > longest->spelling.size())) longest = unit;
  }
  return longest;
}

std::string_view accepted_units(Dimension dimension) {
  switch (dimension) {
    case length:
      return "mm, cm, m, µm, nm, in or tpi";
    case angle:
      return "° or deg";
    case torque:
      return "N·m";
    case force:
      return "N or kN";
    case mass:
      return "g, kg or mg";
    case pressure:
      return "bar, kPa, MPa, Pa or psi";
    case duration:
      return "s, min or h";
    case count:
      break;
  }
  return "no unit: a count is a bare number";
}

std::string_view example_of(Dimension dimension) {
  switch (dimension) {
    case length:
      return "a length such as 41.5 mm or 1-1/8 in";
    case angle:
      return "an angle such as 73.5°";
    case torque:
      return "a torque such as 5 N·m";
    case force:
      return "a force such as 50 N";
    case mass:
      return "a mass such as 320 g";
    case pressure:
      return "a pressure such as 2.5 bar";
    case duration:
      return "a duration such as 12 min";
    case count:
      break;
  }
  return "a whole number such as 32";
}

std::string_view finest_step(Dimension dimension) {
  switch (dimension) {
    case length:
      return "whole nanometres (steps of 0.000001 mm)";
    case angle:
      return "steps of 0.000001°";
    case torque:
      return "steps of 0.000001 N·m";
    case force:
      return "steps of 0.001 N";
    case mass:
      return "steps of 0.001 g";
    case pressure:
      return "whole pascals (steps of 0.00001 bar)";
    case duration:
      return "steps of 0.001 s";
    case count:
      break;
  }
  return "a whole number";
}

std::string nearest_unit(std::string_view word, Dimension dimension, Guess guess) {
  constexpr std::size_t k_longest_unit = 12;
  if (word.empty() || word.size() > k_longest_unit) return {};
  const std::string typed = lower_case(word);
  std::string nearest;
  // Units are short, so one slip is allowed in any of two letters or more; the same letters in the wrong case and the
  // beginning of a unit count as nearer.
  std::size_t least = guess == Guess::far ? 4 : 2;
  for (const Unit& unit : k_units) {
    if (unit.dimension != dimension) continue;
    const std::size_t longest = std::max(word.size(), unit.spelling.size());
    const std::size_t distance = edit_distance(typed, lower_case(unit.spelling));
    std::size_t rank = least;
    if (distance == 0) {
      rank = 0;
    } else if (unit.spelling.substr(0, word.size()) == word) {
      rank = 1;
    } else if (3 * distance <= longest) {
      rank = 2;
    } else if (distance == 1 && longest > 1 && word.size() > 1) {
      rank = 3;
    }
    if (rank < least) {
      least = rank;
      nearest = unit.spelling;
    }
  }
  return nearest;
}

}  // namespace cotter::quantity
