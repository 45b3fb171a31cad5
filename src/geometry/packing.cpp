#include "geometry/packing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <numeric>

#include "geometry/wide.hpp"

namespace cotter::geometry {

namespace {

using quantity::Length;
using Diameters = std::vector<std::int64_t>;  // nanometres, largest first

constexpr std::size_t k_most_equal = 7;
constexpr Wide k_ratio_unit = 10'000'000'000;
// Opening over diameter for n equal circles, in units of 1e-10, rounded up and down:
// 1, 2, 1 + 2/sqrt 3, 1 + sqrt 2, 1 + sqrt(2 (1 + 1/sqrt 5)), 3, 3.
constexpr std::array<std::int64_t, k_most_equal> k_equal_enough = {
    10'000'000'000, 20'000'000'000, 21'547'005'384, 24'142'135'624, 27'013'016'167, 30'000'000'000, 30'000'000'000};
constexpr std::array<std::int64_t, k_most_equal> k_equal_least = {
    10'000'000'000, 20'000'000'000, 21'547'005'383, 24'142'135'623, 27'013'016'166, 30'000'000'000, 30'000'000'000};

Wide wide(std::int64_t n) {
  return n;
}

/// True when the third circle lies beside the first two in the circle that just holds those.
bool third_lies_beside(std::int64_t a, std::int64_t b, std::int64_t c) {
  return wide(c) * (wide(a) * a + wide(a) * b + wide(b) * b) <= wide(a) * b * (wide(a) + b);
}

struct Enclosure {
  double below;
  double above;
};

/// Diameter of the circle around three that touch each other; a >= b >= c, third not beside the others.
Enclosure enclosing_three(std::int64_t a, std::int64_t b, std::int64_t c) {
  const auto [da, db, dc] = std::array{static_cast<double>(a), static_cast<double>(b), static_cast<double>(c)};
  const double product = da * db * dc;
  const double diameter = product / (2 * std::sqrt(product * (da + db + dc)) - (da * db + db * dc + dc * da));
  // The denominator is a difference whose terms exceed it by about da/dc at most.
  const double error = diameter * 1e-14 * (1 + da / dc);
  return {diameter - error, diameter + error};
}

PackingJudgement judge_three(const Diameters& d, std::int64_t opening) {
  if (third_lies_beside(d[0], d[1], d[2])) return {PackingAnswer::fits, PackingBound::pair};
  const Enclosure needed = enclosing_three(d[0], d[1], d[2]);
  const auto offered = static_cast<double>(opening);
  if (offered >= needed.above) return {PackingAnswer::fits, PackingBound::triple};
  if (offered < needed.below) return {PackingAnswer::cannot, PackingBound::triple};
  return {};
}

bool equal_fit(const Diameters& d, std::int64_t opening) {
  return d.size() <= k_most_equal && wide(opening) * k_ratio_unit >= wide(k_equal_enough[d.size() - 1]) * d.front();
}

PackingJudgement judge_many(const Diameters& d, std::int64_t opening) {
  if (judge_three(d, opening).answer == PackingAnswer::cannot) return {PackingAnswer::cannot, PackingBound::triple};
  for (std::size_t m = 4; m <= std::min(d.size(), k_most_equal); ++m) {
    if (wide(opening) * k_ratio_unit < wide(k_equal_least[m - 1]) * d[m - 1])
      return {PackingAnswer::cannot, PackingBound::equal_circles};
  }
  if (equal_fit(d, opening)) return {PackingAnswer::fits, PackingBound::equal_circles};
  return {};
}

PackingJudgement judge(const Diameters& d, std::int64_t opening) {
  if (d.empty()) return {PackingAnswer::fits, PackingBound::single};
  if (d[0] > opening) return {PackingAnswer::cannot, PackingBound::single};
  if (d.size() == 1) return {PackingAnswer::fits, PackingBound::single};
  if (d[0] + d[1] > opening) return {PackingAnswer::cannot, PackingBound::pair};
  if (d.size() == 2) return {PackingAnswer::fits, PackingBound::pair};
  Wide area = 0;
  for (const std::int64_t diameter : d) area += wide(diameter) * diameter;
  const Wide whole = wide(opening) * opening;
  if (area > whole) return {PackingAnswer::cannot, PackingBound::whole_area};
  if (2 * area <= whole) return {PackingAnswer::fits, PackingBound::half_area};
  return d.size() == 3 ? judge_three(d, opening) : judge_many(d, opening);
}

/// Indices of `diameters`, largest first.
std::vector<std::size_t> largest_first(const std::vector<Length>& diameters) {
  std::vector<std::size_t> order(diameters.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return diameters[a] > diameters[b]; });
  return order;
}

Diameters sorted(const std::vector<Length>& diameters) {
  Diameters d;
  for (const Length diameter : diameters) d.push_back(diameter.base());
  std::sort(d.begin(), d.end(), std::greater<>());
  return d;
}

Centre on_ring(double ring, double angle) {
  return {ring * std::cos(angle), ring * std::sin(angle)};
}

/// Angle between two circles that touch the rim of the opening and each other; radii in millimetres.
double angle_between(double opening, double a, double b) {
  const double p = opening - a;
  const double q = opening - b;
  if (p <= 0 || q <= 0) return std::numbers::pi;
  return std::acos(std::clamp((p * p + q * q - (a + b) * (a + b)) / (2 * p * q), -1.0, 1.0));
}

/// Three circles on the rim, the second and third each touching the first; radii largest first.
std::vector<Centre> three_on_the_rim(double opening, const std::vector<double>& r) {
  return {on_ring(opening - r[0], 0), on_ring(opening - r[1], angle_between(opening, r[0], r[1])),
          on_ring(opening - r[2], -angle_between(opening, r[0], r[2]))};
}

/// Places of n <= 7 equal circles of radius `radius`, or of smaller ones in their stead.
std::vector<Centre> equal_places(double opening, double radius, std::size_t n) {
  std::vector<Centre> places;
  if (n == k_most_equal) places.push_back({0, 0});
  const std::size_t around = n - places.size();
  for (std::size_t i = 0; i < around; ++i)
    places.push_back(
        on_ring(opening - radius, 2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(around)));
  return places;
}

std::vector<Centre> places_for(const Diameters& d, double opening) {
  std::vector<double> radii;
  for (const std::int64_t diameter : d) radii.push_back(static_cast<double>(diameter) / 2e6);
  if (d.size() == 1) return {{0, 0}};
  if (d.size() == 2) return {{opening - radii[0], 0}, {radii[1] - opening, 0}};
  if (d.size() == 3) return three_on_the_rim(opening, radii);
  return equal_places(opening, radii[0], d.size());
}

}  // namespace

PackingJudgement judge_packing(const std::vector<Length>& diameters, Length opening) {
  return judge(sorted(diameters), opening.base());
}

Length opening_for_three(Length a, Length b, Length c) {
  const Diameters d = sorted({a, b, c});
  if (third_lies_beside(d[0], d[1], d[2])) return quantity::nanometres(d[0] + d[1]);
  return quantity::nanometres(static_cast<std::int64_t>(std::ceil(enclosing_three(d[0], d[1], d[2]).above)));
}

std::vector<Centre> packing_witness(const std::vector<Length>& diameters, Length opening) {
  const Diameters d = sorted(diameters);
  if (d.empty() || judge(d, opening.base()).answer != PackingAnswer::fits) return {};
  if (d.size() > 3 && !equal_fit(d, opening.base())) return {};
  const std::vector<Centre> places = places_for(d, quantity::in_millimetres(opening) / 2);
  std::vector<Centre> centres(d.size());
  const std::vector<std::size_t> order = largest_first(diameters);
  for (std::size_t i = 0; i < order.size(); ++i) centres[order[i]] = places[i];
  return centres;
}

std::string_view word_for(PackingBound bound) {
  switch (bound) {
    case PackingBound::single:
      return "single";
    case PackingBound::pair:
      return "pair";
    case PackingBound::triple:
      return "triple";
    case PackingBound::equal_circles:
      return "equal_circles";
    case PackingBound::half_area:
      return "half_area";
    case PackingBound::whole_area:
      return "whole_area";
    case PackingBound::none:
      return "none";
  }
  return "none";
}

}  // namespace cotter::geometry
