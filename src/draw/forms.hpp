#pragma once
// Outlines that have no numbers behind them: saddle, brake hood with lever, pedal. They are forms, drawn at the place
// and to the scale of the bicycle so that it reads as one; nothing may be measured from them.

#include <string_view>
#include <vector>

#include "draw/plane.hpp"

namespace cotter::draw {

/// One stroke of a form: a start and cubic pieces, millimetres from the form's point, x forward, y up.
struct FormStroke {
  Spot start;
  std::vector<std::array<Spot, 3>> pieces;
  bool closed = true;
};

/// Strokes of the form that belongs to a named point (`saddle`, `hood_right`, `pedal_right`); none for other names.
std::vector<FormStroke> form_strokes(std::string_view point);

/// Corners around a form, in order; none when the point has no form.
std::vector<Spot> form_corners(std::string_view point);

}  // namespace cotter::draw
