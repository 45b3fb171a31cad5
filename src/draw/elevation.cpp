#include "draw/elevation.hpp"

#include <algorithm>

#include "draw/balloons.hpp"
#include "draw/bicycle_outline.hpp"
#include "draw/dimensions.hpp"
#include "draw/findings_list.hpp"
#include "draw/runs.hpp"
#include "draw/sheet.hpp"
#include "draw/stylesheet.hpp"

namespace cotter::draw {
namespace {

constexpr double k_side_room = 64, k_top_room = 36, k_bottom_room = 142;  // px for dimensions around the bicycle
constexpr double k_edge = 10;                                             // px kept clear along the frame

/// Where the bicycle goes: under heading and legend, above the scale bar, with room for dimensions all around.
Box bicycle_area(const model::Plan& plan) {
  const double top = std::max(heading_box().bottom, plan.runs.empty() ? 0.0 : legend_box(plan).bottom);
  return {k_drawing.left + k_side_room, top + k_top_room, k_drawing.right - k_side_room,
          k_drawing.bottom - k_bottom_room};
}

Obstacles empty_sheet(const model::Plan& plan) {
  Obstacles obstacles(
      {k_drawing.left + k_edge, k_drawing.top + k_edge, k_drawing.right - k_edge, k_drawing.bottom - k_edge});
  obstacles.add_lettering(quad_of(heading_box()));
  obstacles.add_lettering(quad_of(foot_box()));
  if (!plan.runs.empty()) obstacles.add_lettering(quad_of(legend_box(plan)));
  return obstacles;
}

void draw_bicycle(SvgWriter& svg, const model::Plan& plan, const Scene& scene, const FindingsList& list,
                  const Style& style) {
  Obstacles obstacles = empty_sheet(plan);
  add_outlines(scene, obstacles);
  draw_wheels(svg, scene);
  draw_tubes(svg, scene);
  draw_rim_brakes(svg, scene);
  draw_cockpit_and_crank(svg, scene);
  draw_axes(svg, scene);
  draw_runs(svg, plan, scene, obstacles);
  draw_openings(svg, plan, scene);
  draw_dimensions(svg, plan, scene, style, obstacles);
  draw_tyre_note(svg, scene, obstacles);
  draw_run_numbers(svg, plan, scene, obstacles);
  std::vector<Balloon> balloons = balloons_of(plan, scene, list);
  place_balloons(balloons, obstacles);
  draw_balloons(svg, balloons, style.selected);
  draw_foot(svg, scene.view, style);
}

}  // namespace

std::string elevation_svg(const model::Plan& plan, const Style& style) {
  const Scene scene = scene_of(plan, bicycle_area(plan));
  const FindingsList list = lay_out_findings(plan, style);
  SvgWriter svg;
  svg.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                   {"class", "cotter-sheet"},
                   {"width", number_text(k_sheet_width)},
                   {"height", number_text(k_sheet_height)},
                   {"viewBox", "0 0 " + number_text(k_sheet_width) + " " + number_text(k_sheet_height)},
                   {"role", "img"},
                   {"data-scale", scale_text(scene.view)},
                   {"data-origin", spot_text(scene.view({}))}});
  svg.text("title", {}, plan.title + ", " + style.captions.heading);
  svg.open("style");
  svg.raw(stylesheet(style));
  svg.close();
  draw_frame(svg);
  draw_heading(svg, style);
  if (!plan.runs.empty()) draw_legend(svg, plan, style);
  if (scene.empty()) {
    svg.text("text", {{"class", "plain mid"}, {"x", "468"}, {"y", "400"}}, style.captions.nothing_to_draw);
  } else {
    draw_bicycle(svg, plan, scene, list, style);
  }
  draw_findings(svg, list, style);
  draw_title_block(svg, plan, style);
  svg.close();
  return svg.take();
}

}  // namespace cotter::draw
