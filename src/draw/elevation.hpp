#pragma once
// The side elevation of a plan as one SVG sheet: the bicycle from its drive side with its dimensions, runs, openings
// and findings, the list of findings and the title block. docs/drawing.md says what it expects in the plan's picture
// and which data its elements carry.

#include <string>

#include "draw/style.hpp"
#include "model/plan.hpp"

namespace cotter::draw {

/// A whole SVG document, 1280 x 800, without a date or anything else that is not in `plan` and `style`: the same input
/// gives the same bytes.
///
/// **Accuracy** every drawn end of a dimension is within 0.005 px of its place, and the scale (attribute `data-scale`,
/// pixels for a millimetre) is written in full, so that a length measured in the text is right to 0.05 mm wherever the
/// scale is 0.29 or more, that is for anything up to 2.7 m long.
std::string elevation_svg(const model::Plan& plan, const Style& style = {});

}  // namespace cotter::draw
