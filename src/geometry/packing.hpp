#pragma once
// Do these bodies lie side by side in this opening? Circles of any sizes and at most one rectangular plug, in a round,
// oval or slotted opening. Three answers: they do, they cannot, or it is not known.
//
// "Fits" is certain: by a closed form in whole numbers, by a theorem, or by places that were checked in whole numbers.
// "Cannot" is certain: by a bound or by a search that rounds against itself. "Undecided" is left when the effort ends
// first; who asks counts it as not fitting and says so. docs/packing.md has the method, the bounds and the tests.

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "geometry/opening.hpp"
#include "quantity/amount.hpp"

namespace cotter::geometry {

enum class PackingAnswer { fits, cannot, undecided };

/// What settled the answer.
enum class PackingBound {
  single,         ///< the largest circle against the width
  plug,           ///< the plug alone
  pair,           ///< two circles along the opening
  row,            ///< all circles in one row along the opening
  triple,         ///< the three largest in a round opening
  equal_circles,  ///< as many equal circles: the largest (fits) or the smallest of the first m (cannot)
  half_area,      ///< areas at most half of a round opening's always fit
  whole_area,     ///< areas beyond the opening's never do
  spread,         ///< more centres than can keep their distance in the part of the opening that is open to them
  places,         ///< places were found
  search,         ///< all places were ruled out
  none,
};

/// What is to lie in the opening. Each diameter and side > 0; at most 12 circles are searched for.
struct Bodies {
  std::vector<quantity::Length> diameters;
  std::optional<Rectangle> plug;
};

/// Effort in steps of the search, never in time; a step costs about a microsecond. Zero leaves bounds and a quick try.
struct Effort {
  std::int64_t steps = 2'000'000;
};

/// From the middle of the opening, x along its length, in half nanometres: so that an exact fit has whole numbers.
struct Place {
  std::int64_t x = 0;
  std::int64_t y = 0;

  bool operator==(const Place&) const = default;
};

/// Places that show a fit.
struct PackingWitness {
  std::vector<Place> circles;  ///< in the order of `Bodies::diameters`
  Place plug;
  quantity::Angle turn;  ///< of the plug's width from the opening's length
};

struct PackingJudgement {
  PackingAnswer answer = PackingAnswer::undecided;
  PackingBound bound = PackingBound::none;
  /// What the bound compares, where it compares lengths: `needed` against `offered`. For areas: the diameters of
  /// circles of those areas. Rounded to whole nanometres for reading; the comparison itself was not.
  quantity::Length needed;
  quantity::Length offered;
  std::int64_t steps = 0;                 ///< effort spent
  std::optional<PackingWitness> witness;  ///< with `places`
};

/// Judges the bodies in the opening.
///
/// **Method** bounds first (one circle, one plug, two circles, a row, three circles, equal circles, areas, spread);
/// then bodies pushed apart from fixed starts and improved by linear programs; then branch and bound over the
/// directions between bodies.
/// **Accuracy** one body, two circles and a row are exact. Three circles in a round opening: 1e-14 (1 + d1/d3) of the
/// diameter. Otherwise layouts with less than some nanometres to spare, or to miss, may stay undecided.
/// Fewer or smaller bodies, or a larger opening, never turn "fits" into "cannot".
/// **Valid for** openings up to 0.2 m.
/// **Source** see docs/packing.md.
PackingJudgement judge_packing(const Opening& opening, const Bodies& bodies, Effort effort = {});

/// Places for bodies that fit: also where a bound alone gave the answer. Empty when none were found, as may be for fits
/// with less than a nanometre or two to spare.
std::optional<PackingWitness> packing_witness(const Opening& opening, const Bodies& bodies, Effort effort = {});

/// Whether the places show the fit: every body inside, no two overlapping. Circles in round and slotted openings in
/// whole numbers; ovals and plugs with a tenth of a picometre on the safe side.
bool witness_holds(const Opening& opening, const Bodies& bodies, const PackingWitness& witness);

/// Largest round body that certainly fits beside those bodies, to a hundredth of a millimetre downwards; exact beside
/// one circle in a round or slotted opening. Zero when the bodies themselves do not certainly fit.
quantity::Length room_beside(const Opening& opening, Bodies bodies, Effort effort = {0});

/// Smallest diameter of an opening for three circles, rounded up to a whole nanometre beyond the stated accuracy.
quantity::Length opening_for_three(quantity::Length a, quantity::Length b, quantity::Length c);

/// `pair`, `half_area` and so on: stable words for files.
std::string_view word_for(PackingBound bound);

}  // namespace cotter::geometry
