#include "geometry/opening.hpp"

#include <cmath>
#include <numbers>

#include "geometry/wide.hpp"

namespace cotter::geometry {

namespace {

using quantity::Length;

Wide square(Length length) {
  return static_cast<Wide>(length.base()) * length.base();
}

bool passes_with(Length along, Length across, Opening opening) {
  if (across > opening.width) return false;
  if (opening.shape == Shape::oval) {
    const Wide whole = square(opening.width) * square(opening.length);
    return square(along) * square(opening.width) + square(across) * square(opening.length) <= whole;
  }
  const Length beyond_the_flat = along - (opening.length - opening.width);
  return beyond_the_flat <= Length{} || square(beyond_the_flat) <= square(opening.width) - square(across);
}

}  // namespace

Length equal_round(const Opening& opening) {
  if (opening.width == opening.length) return opening.width;
  const auto width = static_cast<double>(opening.width.base());
  const auto length = static_cast<double>(opening.length.base());
  const double squares =
      opening.shape == Shape::oval ? width * length : width * width + width * (length - width) * 4 / std::numbers::pi;
  return quantity::nanometres(static_cast<std::int64_t>(std::sqrt(squares)));
}

Length diagonal(Rectangle rectangle) {
  const Wide sum = square(rectangle.width) + square(rectangle.height);
  auto root = static_cast<std::int64_t>(std::sqrt(static_cast<double>(sum)));
  while (static_cast<Wide>(root) * root < sum) ++root;
  while (root > 0 && static_cast<Wide>(root - 1) * (root - 1) >= sum) --root;
  return quantity::nanometres(root);
}

bool passes(Rectangle plug, Opening opening) {
  return passes_with(plug.width, plug.height, opening) || passes_with(plug.height, plug.width, opening);
}

bool passes(Length diameter, Opening opening) {
  return diameter <= opening.width;
}

}  // namespace cotter::geometry
