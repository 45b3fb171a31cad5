#pragma once
// Do these circles fit side by side in a round opening? Three answers: they do, they cannot, or it is not known.
//
// "Fits" and "cannot" are certain: whole-number comparisons, or bounds rounded against the answer. "Undecided" is
// for four or more unequal circles between the two, where no proof at hand speaks either way; who asks counts it
// as not fitting and says so.

#include <string_view>
#include <vector>

#include "quantity/amount.hpp"

namespace cotter::geometry {

enum class PackingAnswer { fits, cannot, undecided };

/// What settled the answer.
enum class PackingBound {
  single,         ///< the largest circle against the opening
  pair,           ///< the two largest side by side
  triple,         ///< the three largest, each touching the other two
  equal_circles,  ///< as many equal circles: the largest (fits) or the smallest of the first m (cannot)
  half_area,      ///< areas at most half of the opening's always fit
  whole_area,     ///< areas beyond the opening's never do
  none,
};

struct PackingJudgement {
  PackingAnswer answer = PackingAnswer::undecided;
  PackingBound bound = PackingBound::none;

  bool operator==(const PackingJudgement&) const = default;
};

/// Judges circles of the given diameters (each > 0) in a circular opening.
///
/// **Method** one circle, two circles and the area bounds in whole numbers. Three circles: when the third is at most
/// d1 d2 (d1 + d2) / (d1^2 + d1 d2 + d2^2) it lies beside the first two and does not matter; otherwise the opening is
/// the circle around three that touch each other. Up to seven: by the best packings of equal circles, whose ratios are
/// known exactly. Otherwise by area.
/// **Accuracy** the three-circle diameter is taken 1e-14 (1 + d1/d3) of itself larger for "fits" and smaller for
/// "cannot". Fewer or smaller circles, or a larger opening, never turn "fits" into another answer.
/// **Valid for** diameters up to 0.2 m.
/// **Source** three circles: Descartes' circle theorem and the circle inscribed in an arbelos; equal circles up to
/// seven: R. L. Graham, Sets of points with given minimum separation, 1968 (from memory); half area: S. P. Fekete, P.
/// Keldenich, C. Scheffer, Packing Disks into Disks with Optimal Worst-Case Density, SoCG 2019 (from memory).
PackingJudgement judge_packing(const std::vector<quantity::Length>& diameters, quantity::Length opening);

/// Smallest diameter of an opening for three circles, rounded up to a whole nanometre beyond the stated accuracy.
quantity::Length opening_for_three(quantity::Length a, quantity::Length b, quantity::Length c);

/// Centre of a circle, from the centre of the opening.
struct Centre {
  double x_mm = 0;
  double y_mm = 0;
};

/// Centres that show the fit, in the order of `diameters`; empty when the circles do not fit for certain, or fit by the
/// half-area theorem alone, which proves places without naming them.
///
/// **Accuracy** overlaps and overhangs stay below 1e-6 mm.
std::vector<Centre> packing_witness(const std::vector<quantity::Length>& diameters, quantity::Length opening);

/// `pair`, `half_area` and so on: stable words for files.
std::string_view word_for(PackingBound bound);

}  // namespace cotter::geometry
