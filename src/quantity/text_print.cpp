#include <cstdlib>
#include <fmt/format.h>

#include "quantity/text.hpp"
#include "quantity/written_number.hpp"

namespace cotter::quantity {
namespace {

/// The unit that a dimension is printed in. Not every whole number of base units is a finite decimal of an inch or of a
/// minute; with `naming_decimals` every whole number still has a decimal of its own.
struct PrintUnit {
  std::string_view symbol;
  std::int64_t base_units;
  int naming_decimals;
};

PrintUnit print_unit(Dimension dimension, LengthUnit length) {
  switch (dimension) {
    case Dimension::length:
      return length == LengthUnit::inch ? PrintUnit{"in", 25'400'000, 8} : PrintUnit{"mm", 1'000'000, 6};
    case Dimension::angle:
      return {"°", 1'000'000, 6};
    case Dimension::torque:
      return {"N·m", 1'000'000, 6};
    case Dimension::force:
      return {"N", 1'000, 3};
    case Dimension::mass:
      return {"g", 1'000, 3};
    case Dimension::pressure:
      return {"bar", 100'000, 5};
    case Dimension::duration:
      return {"min", 60'000, 5};
    case Dimension::count:
      break;
  }
  return {"", 1, 0};
}

/// For amounts that the first unit does not hold exactly.
PrintUnit exact_unit(Dimension dimension) {
  if (dimension == Dimension::duration) return {"s", 1'000, 3};
  return print_unit(dimension, LengthUnit::millimetre);
}

constexpr int k_most_decimals = 9;

Int128 power_of_ten(int exponent) {
  Int128 power = 1;
  for (int i = 0; i < exponent; ++i) power *= 10;
  return power;
}

/// Fewest decimals that hold the amount exactly, or nothing when there are none.
std::optional<int> exact_decimals(std::int64_t base_units, const PrintUnit& unit) {
  for (int decimals = 0; decimals <= k_most_decimals; ++decimals)
    if (Int128(base_units) * power_of_ten(decimals) % unit.base_units == 0) return decimals;
  return std::nullopt;
}

/// The amount with a fixed number of decimals, rounded half away from zero.
std::string decimal_text(std::int64_t base_units, const PrintUnit& unit, int decimals, DecimalMark mark) {
  const Int128 scale = power_of_ten(decimals);
  const Int128 magnitude = base_units < 0 ? -Int128(base_units) : Int128(base_units);
  const Int128 scaled = (2 * magnitude * scale + unit.base_units) / (2 * Int128(unit.base_units));
  const auto whole = static_cast<std::uint64_t>(scaled / scale);
  const auto part = static_cast<std::uint64_t>(scaled % scale);
  const std::string_view sign = base_units < 0 && scaled > 0 ? "-" : "";
  if (decimals == 0) return fmt::format("{}{}", sign, whole);
  return fmt::format("{}{}{}{:0{}}", sign, whole, mark == DecimalMark::comma ? ',' : '.', part, decimals);
}

std::string number_text(std::int64_t base_units, const PrintUnit& unit, DecimalMark mark) {
  if (const auto decimals = exact_decimals(base_units, unit)) return decimal_text(base_units, unit, *decimals, mark);
  return decimal_text(base_units, unit, unit.naming_decimals, mark);
}

/// As number_text, with a fourth decimal where a reader might take a comma before three for a thousands separator.
std::string unmistakable_text(std::int64_t base_units, const PrintUnit& unit, DecimalMark mark) {
  const std::string text = number_text(base_units, unit, mark);
  const std::size_t comma = text.find(',');
  return comma != std::string::npos && comma + 4 == text.size() ? text + "0" : text;
}

std::string with_unit(const std::string& number, const PrintUnit& unit) {
  const bool joined = unit.symbol.empty() || unit.symbol == "°";
  return fmt::format("{}{}{}", number, joined ? "" : " ", unit.symbol);
}

/// The first unit if it holds all the amounts exactly, else the finer one.
PrintUnit unit_holding(std::initializer_list<std::int64_t> amounts, Dimension dimension, LengthUnit length) {
  const PrintUnit unit = print_unit(dimension, length);
  for (const std::int64_t amount : amounts)
    if (!exact_decimals(amount, unit)) return exact_unit(dimension);
  return unit;
}

std::string signed_text(std::int64_t base_units, std::string_view sign_of_zero, const PrintUnit& unit,
                        DecimalMark mark) {
  const std::string number = unmistakable_text(base_units, unit, mark);
  if (base_units == 0) return fmt::format("{}{}", sign_of_zero, number);
  return base_units > 0 ? "+" + number : number;
}

std::string deviation_text(const Value& value, const PrintUnit& unit, DecimalMark mark) {
  if (value.lower == 0 && value.upper == 0 && value.deviations == Deviations::unstated) return {};
  if (value.upper >= 0 && value.lower == -value.upper)
    return fmt::format(" ±{}", unmistakable_text(value.upper, unit, mark));
  return fmt::format(" {}/{}", signed_text(value.upper, "+", unit, mark), signed_text(value.lower, "-", unit, mark));
}

std::string unknown_text(const Value& value, const NumberStyle& style) {
  if (!value.range_known) return "?";
  const Range range = value.range();
  const PrintUnit unit = unit_holding({range.low().base(), range.high().base()}, value.dimension, style.length);
  return fmt::format("? ({} to {})", number_text(range.low().base(), unit, style.mark),
                     with_unit(number_text(range.high().base(), unit, style.mark), unit));
}

}  // namespace

std::string print_number(std::int64_t base_units, Dimension dimension, const NumberStyle& style) {
  return number_text(base_units, print_unit(dimension, style.length), style.mark);
}

std::string print_rounded(std::int64_t base_units, Dimension dimension, int decimals, const NumberStyle& style) {
  ensure(decimals >= 0 && decimals <= k_most_decimals, "a number is rounded to 0..9 decimals");
  return decimal_text(base_units, print_unit(dimension, style.length), decimals, style.mark);
}

std::string print_amount(std::int64_t base_units, Dimension dimension, const NumberStyle& style) {
  const PrintUnit unit = unit_holding({base_units}, dimension, style.length);
  return with_unit(number_text(base_units, unit, style.mark), unit);
}

std::string print_value(const Value& value, const NumberStyle& style) {
  if (value.origin.kind == OriginKind::unknown) return unknown_text(value, style);
  const PrintUnit unit = unit_holding({value.nominal, value.lower, value.upper}, value.dimension, style.length);
  const std::string number = unmistakable_text(value.nominal, unit, style.mark);
  const std::string amount = with_unit(number + deviation_text(value, unit, style.mark), unit);
  if (value.origin.kind == OriginKind::assumed) return fmt::format("≈ {}", amount);
  return fmt::format("{} {}", amount, word_for(value.origin.kind));
}

std::string_view unit_for(Dimension dimension, const NumberStyle& style) {
  return print_unit(dimension, style.length).symbol;
}

}  // namespace cotter::quantity
