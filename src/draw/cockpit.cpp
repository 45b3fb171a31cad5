#include <string>

#include "draw/bicycle_outline.hpp"
#include "draw/forms.hpp"

namespace cotter::draw {
namespace {

constexpr double k_crank_root = 34, k_crank_tip = 22;  // mm: form
constexpr double k_bar_grip = 0.75;                    // of the clamp's diameter, where no grip diameter is given
constexpr double k_bar_form = 24;                      // mm: where no diameter is given at all

void draw_form(SvgWriter& svg, const Scene& scene, const std::string& point) {
  const auto where = scene.point(point);
  if (!where) return;
  const auto on_sheet = [&](Spot mm) { return *where + Spot{scene.view.px(mm.x), -scene.view.px(mm.y)}; };
  const bool open = scene.open_roles.contains(point);
  svg.open("g", {{"data-form", point}});
  for (const FormStroke& stroke : form_strokes(point)) {
    Path path;
    path.move(on_sheet(stroke.start));
    for (const auto& piece : stroke.pieces) path.cubic(on_sheet(piece[0]), on_sheet(piece[1]), on_sheet(piece[2]));
    if (stroke.closed) path.close();
    svg.path(open ? "ph" : stroke.closed ? "bw" : "m", path);
  }
  svg.close();
}

void draw_crank(SvgWriter& svg, const Scene& scene) {
  const auto pedal = scene.point("pedal_right");
  if (!pedal) return;
  const Spot root = scene.view({});
  const double a = scene.view.px(k_crank_root) / 2, b = scene.view.px(k_crank_tip) / 2;
  const Spot across = turned(unit(*pedal - root));
  Path path;
  path.move(root - a * across).line(*pedal - b * across).arc(b, 1, *pedal + b * across);
  path.line(root + a * across).arc(a, 1, root - a * across).close();
  svg.path("bw", path);
  draw_form(svg, scene, "pedal_right");
  svg.circle("n", *pedal, b / 2);
  svg.circle("bw", root, a);
}

/// A dropped bar: foremost at the reach, lowest at the drop; between them a smooth form.
void draw_dropped_bar(SvgWriter& svg, const Scene& scene, Spot centre, Spot hood, Spot end) {
  const SheetTube* bar = scene.tube("bar");
  double size = scene.view.px(k_bar_form);
  if (bar != nullptr && bar->shape->diameter > 0) {
    size = bar->shape->diameter_end > 0 ? bar->size_b : bar->size_a * k_bar_grip;
  }
  const double reach = hood.x - centre.x, drop = end.y - centre.y;
  const auto at = [&](double forward, double down) { return centre + Spot{forward * reach, down * drop}; };
  Path path;
  path.move(centre).line(at(0.3, 0));
  path.cubic(at(0.75, 0), at(1, 0.08), at(1, 0.34));
  path.cubic(at(1, 0.68), at(0.72, 1), at(0.3, 1));
  path.line(at(-0.25, 1));
  const auto stroke = [&](const char* kind, double width) {
    svg.leaf("path", {{"class", kind}, {"stroke-width", number_text(width)}, {"d", path.text()}});
  };
  stroke("bar-edge", size + 2);
  stroke("bar-body", size - 2);
  const Spot tail = at(-0.25, 1);
  svg.line("w", tail - Spot{0, size / 2}, tail + Spot{0, size / 2});
}

void draw_bar(SvgWriter& svg, const Scene& scene) {
  const auto centre = scene.point("bar_centre");
  if (!centre) return;
  const auto hood = scene.point("hood_right"), end = scene.point("bar_end_right");
  if (hood && end && hood->x - centre->x > 4 && end->y - centre->y > 4) {
    draw_dropped_bar(svg, scene, *centre, *hood, *end);
    draw_form(svg, scene, "hood_right");
  }
  const SheetTube* bar = scene.tube("bar");
  const double radius = bar != nullptr && bar->size_a > 0 ? bar->size_a / 2 : scene.view.px(k_bar_form) / 2;
  svg.circle("bw", *centre, radius + 1);
  svg.circle("n", *centre, radius - 2);
}

}  // namespace

void draw_cockpit_and_crank(SvgWriter& svg, const Scene& scene) {
  svg.open("g", {{"class", "fitted"}});
  draw_form(svg, scene, "saddle");
  draw_bar(svg, scene);
  draw_crank(svg, scene);
  svg.close();
}

}  // namespace cotter::draw
