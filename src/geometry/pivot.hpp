#pragma once
// How far apart two marks get while one of them turns about a pivot, as on a sprung frame.
//
// Frame: that of the skeleton (x forward, y up, z to the rider's right); the pivot's axis runs along z. Angles are
// positive when what lies behind the pivot rises: clockwise, seen from the right. 0 is the frame as drawn.

#include "geometry/skeleton.hpp"

namespace cotter::geometry {

struct Pivot {
  quantity::Length x, y;
  quantity::Angle from, to;  ///< ends of the travel, from <= to
};

/// Straight distances of two marks, each rounded up to whole micrometres.
struct Reach {
  quantity::Length drawn;    ///< at angle 0, wherever the travel lies
  quantity::Length at_from;  ///< at the two ends of the travel
  quantity::Length at_to;
  quantity::Length longest;    ///< anywhere in the travel, both ends among it
  quantity::Angle longest_at;  ///< to the nearest millionth of a degree; the first of several
};

/// Distances between a mark that stands and one that turns.
///
/// **Method** with r, s the distances of the two marks from the axis and h their difference along it, the squared
/// distance at angle t is r² + s² + h² - 2 r s cos(t - t0), with t0 the angle at which both lie on one side of the
/// axis. It is greatest where they lie on opposite sides, t0 ± 180°; where the travel does not get there, at one of its
/// ends.
/// **Accuracy** never less than the true distance by more than 1 nm; dense sampling never exceeds `longest`
/// (`Pivot.NoSampleIsLonger`). **Valid for** a travel of at most a full turn. **Source** law of cosines.
Reach reach_over_travel(const Pivot& pivot, const Point3& standing, const Point3& turning);

}  // namespace cotter::geometry
