#pragma once
// Dimension lines with their arrows, extension lines and values. **Source** brackets for auxiliary sizes, underline for
// a size not to scale, arrows outside where they do not fit: ISO 129-1 (from memory).

#include "draw/scene.hpp"
#include "draw/style.hpp"
#include "draw/svg_writer.hpp"

namespace cotter::draw {

/// Every dimension carries `data-id`, `data-nm` (the value in nanometres, an angle in millionths of a degree; left out
/// while unknown), `data-span`, and `data-from` and `data-to`, the ends of its line as drawn. Enters all of it among
/// the obstacles.
void draw_dimensions(SvgWriter& svg, const model::Plan& plan, const Scene& scene, const Style& style,
                     Obstacles& obstacles);

/// "622 × 40" on a leader, from the circles `rim` and `tyre` of one wheel.
void draw_tyre_note(SvgWriter& svg, const Scene& scene, Obstacles& obstacles);

}  // namespace cotter::draw
