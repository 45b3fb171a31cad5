#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>

#include "draw/dimension_layout.hpp"

namespace cotter::draw {
namespace {

constexpr std::int64_t k_tenth_of_a_millimetre = 100'000;
constexpr std::int64_t k_tenth_of_a_degree = 100'000;

std::int64_t rounded_to(std::int64_t amount, std::int64_t step) {
  const std::int64_t half = amount < 0 ? -step / 2 : step / 2;
  return (amount + half) / step * step;
}

}  // namespace

std::string dimension_text(const model::DrawnDimension& dimension, const quantity::NumberStyle& numbers) {
  const quantity::Value& value = dimension.value;
  std::string text;
  if (value.origin.kind == quantity::OriginKind::unknown) {
    text = "?";
  } else if (value.dimension == quantity::Dimension::angle) {
    text = quantity::print_number(rounded_to(value.nominal, k_tenth_of_a_degree), value.dimension, numbers) + "°";
  } else if (numbers.length == quantity::LengthUnit::inch) {
    text = quantity::print_rounded(value.nominal, value.dimension, 2, numbers);
  } else {
    text = quantity::print_number(rounded_to(value.nominal, k_tenth_of_a_millimetre), value.dimension, numbers);
  }
  if (value.origin.kind == quantity::OriginKind::assumed) text = "≈" + text;
  return dimension.derived ? "(" + text + ")" : text;
}

Span direction_of(const model::DrawnDimension& dimension) {
  if (dimension.value.dimension == quantity::Dimension::angle) return Span::angle;
  const double dx = std::abs(static_cast<double>(dimension.b.x - dimension.a.x)) / 1000;
  const double dy = std::abs(static_cast<double>(dimension.b.y - dimension.a.y)) / 1000;
  const double value = std::abs(static_cast<double>(dimension.value.nominal)) / 1e6;
  const double off_along = std::abs(std::hypot(dx, dy) - value);
  const double off_level = std::abs(dx - value), off_plumb = std::abs(dy - value);
  constexpr double k_same = 0.01;
  if (dimension.value.origin.kind == quantity::OriginKind::unknown) return Span::along;
  if (off_along <= std::min(off_level, off_plumb) + k_same) return Span::along;
  return off_level <= off_plumb ? Span::level : Span::plumb;
}

}  // namespace cotter::draw
