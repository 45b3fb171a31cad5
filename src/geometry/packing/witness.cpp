// Places in half nanometres: rounding a layout to them, and checking them.
#include "geometry/packing/witness.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/wide.hpp"

namespace cotter::geometry {

namespace {

using packing::Vector;

/// In half nanometres; far beyond what doubles lose at 0.2 m.
constexpr double k_safe = 2e-4;
constexpr double k_safe_share = 1e-12;
constexpr int k_halvings = 100;

Wide square(std::int64_t n) {
  return static_cast<Wide>(n) * n;
}

Vector real(Place p) {
  return {static_cast<double>(p.x), static_cast<double>(p.y)};
}

/// A ball of radius r at p lies in the ellipse when r^2/m + x^2/(a^2 - m) + y^2/(b^2 - m) <= 1 for some m below b^2:
/// any m proves it, and the best is found by halving, for the sum is convex in m.
bool circle_in_oval(const Opening& opening, std::int64_t d, Place at) {
  const std::int64_t w = opening.width.base();
  const std::int64_t l = opening.length.base();
  if (at == Place{}) return d <= w;
  if (at.y == 0 && static_cast<Wide>(d) * l <= square(w)) return std::abs(at.x) + d <= l;
  const double r = static_cast<double>(d) / static_cast<double>(l);
  const double b2 = std::pow(static_cast<double>(w) / static_cast<double>(l), 2);
  const Vector p = (1 / static_cast<double>(l)) * real(at);
  double low = 0;
  double high = b2;
  for (int i = 0; i < k_halvings; ++i) {
    const double m = (low + high) / 2;
    const double x = p.x / (1 - m);
    const double y = at.y == 0 ? 0 : p.y / (b2 - m);
    if (r * r / m + p.x * x + p.y * y <= 1 - k_safe_share) return true;
    (x * x + y * y > r * r / (m * m) ? high : low) = m;
  }
  return false;
}

bool circle_inside(const Opening& opening, std::int64_t d, Place at) {
  const bool round = opening.width == opening.length;
  if (opening.shape == Shape::oval && !round) return circle_in_oval(opening, d, at);
  const std::int64_t spare = opening.width.base() - d;
  const std::int64_t past = std::max<std::int64_t>(0, std::abs(at.x) - (opening.length - opening.width).base());
  return spare >= 0 && square(past) + square(at.y) <= square(spare);
}

bool point_inside(const Opening& opening, Vector at) {
  const auto w = static_cast<double>(opening.width.base());
  const auto l = static_cast<double>(opening.length.base());
  if (opening.shape == Shape::oval) return at.x * at.x / (l * l) + at.y * at.y / (w * w) <= 1 - k_safe_share;
  return std::hypot(std::max(0.0, std::abs(at.x) - (l - w)), at.y) <= w - k_safe;
}

/// Exact for a plug along or across the opening, for then its corners are whole numbers.
bool square_on_inside(const Opening& opening, Wide x, Wide y) {
  const Wide w = opening.width.base();
  const Wide l = opening.length.base();
  if (opening.shape == Shape::oval) return x * x * (w * w) + y * y * (l * l) <= w * w * (l * l);
  const Wide past = std::max<Wide>(0, x - (l - w));
  return past * past + y * y <= w * w;
}

bool plug_inside(const Opening& opening, const Rectangle& plug, const PackingWitness& witness) {
  const std::int64_t w = plug.width.base();
  const std::int64_t h = plug.height.base();
  const std::int64_t x = std::abs(witness.plug.x);
  const std::int64_t y = std::abs(witness.plug.y);
  if (witness.turn == quantity::Angle{}) return square_on_inside(opening, x + w, y + h);
  if (witness.turn == quantity::microdegrees(90'000'000)) return square_on_inside(opening, x + h, y + w);
  const Vector turn = packing::at_angle(quantity::in_degrees(witness.turn) * std::numbers::pi / 180);
  const Vector half{static_cast<double>(w), static_cast<double>(h)};
  for (int k = 0; k < 4; ++k)
    if (!point_inside(opening, real(witness.plug) + packing::turned(packing::corner(half, k), turn))) return false;
  return true;
}

bool circle_beside_plug(std::int64_t d, Place at, const Rectangle& plug, const PackingWitness& witness) {
  const Vector turn = packing::at_angle(quantity::in_degrees(witness.turn) * std::numbers::pi / 180);
  const Vector half{static_cast<double>(plug.width.base()), static_cast<double>(plug.height.base())};
  const Vector seen = packing::turned_back(real(at) - real(witness.plug), turn);
  return packing::approach(half, seen).distance >= static_cast<double>(d) + k_safe;
}

Place rounded(Vector v, double unit) {
  return {std::llround(v.x * unit), std::llround(v.y * unit)};
}

quantity::Angle rounded_turn(double angle) {
  double degrees = std::remainder(angle * 180 / std::numbers::pi, 180.0);
  if (degrees < 0) degrees += 180;
  return quantity::microdegrees(std::llround(degrees * 1e6));
}

}  // namespace

bool witness_holds(const Opening& opening, const Bodies& bodies, const PackingWitness& witness) {
  const auto& d = bodies.diameters;
  if (witness.circles.size() != d.size()) return false;
  if (bodies.plug && !plug_inside(opening, *bodies.plug, witness)) return false;
  for (std::size_t i = 0; i < d.size(); ++i) {
    const Place at = witness.circles[i];
    if (!circle_inside(opening, d[i].base(), at)) return false;
    if (bodies.plug && !circle_beside_plug(d[i].base(), at, *bodies.plug, witness)) return false;
    for (std::size_t j = 0; j < i; ++j) {
      const Place other = witness.circles[j];
      if (square(at.x - other.x) + square(at.y - other.y) < square((d[i] + d[j]).base())) return false;
    }
  }
  return true;
}

namespace packing {

PackingWitness rounded_witness(const Layout& layout, const std::vector<std::size_t>& order, const Opening& opening) {
  const double unit = 2 * static_cast<double>(opening.length.base());
  PackingWitness witness;
  witness.circles.resize(order.size());
  for (std::size_t i = 0; i < order.size(); ++i) witness.circles[order[i]] = rounded(layout.circles[i], unit);
  witness.plug = rounded(layout.plug, unit);
  witness.turn = rounded_turn(layout.angle);
  return witness;
}

}  // namespace packing

}  // namespace cotter::geometry
