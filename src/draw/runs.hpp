#pragma once
// Wires, hoses and housings over the bicycle, and their legend. Hue tells the kind, dashes and number tell which line;
// outside the frame every run is unbroken. Between its points a run outside the frame is a form: only its ends and way
// are computed.

#include "draw/scene.hpp"
#include "draw/style.hpp"
#include "draw/svg_writer.hpp"

namespace cotter::draw {

/// Draws the runs side by side where several share a tube, and enters them among the obstacles.
void draw_runs(SvgWriter& svg, const model::Plan& plan, const Scene& scene, Obstacles& obstacles);

/// Their numbers, each on a clear part of its run.
void draw_run_numbers(SvgWriter& svg, const model::Plan& plan, const Scene& scene, Obstacles& obstacles);

/// Upper right corner of the drawing; as tall as the number of runs needs. A line is named by its two ends, or by its
/// part where the plan does not name them.
Box legend_box(const model::Plan& plan);
void draw_legend(SvgWriter& svg, const model::Plan& plan, const Style& style);

/// Class names of a run's colour.
std::string kind_class(model::LineForm::Kind kind);
/// Class of the dash pattern of the run with this place in the plan; patterns repeat after five.
std::string dash_class(std::size_t index);

}  // namespace cotter::draw
