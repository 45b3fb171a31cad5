#include "draw/dimensions.hpp"

#include <cmath>
#include <numbers>
#include <string>

#include "draw/dimension_layout.hpp"
#include "draw/lettering.hpp"

namespace cotter::draw {
namespace {

constexpr double k_arrow_half = 1.7;

/// A filled arrow with its tip at `tip`, pointing along `direction`.
void draw_arrow(SvgWriter& svg, Spot tip, Spot direction) {
  const Spot back = tip - k_arrow * unit(direction), side = k_arrow_half * turned(unit(direction));
  svg.path("arr", Path().move(tip).line(back + side).line(back - side).close());
}

void draw_extension(SvgWriter& svg, Spot point, Spot end) {
  const Spot way = end - point;
  if (length_of(way) < k_off_point + 1) return;
  svg.line("n", point + k_off_point * unit(way), end + k_beyond_line * unit(way));
}

void draw_linear(SvgWriter& svg, const DimensionLayout& d) {
  const Spot along = unit(d.to - d.from);
  draw_extension(svg, d.a, d.from);
  draw_extension(svg, d.b, d.to);
  if (!d.arrows_outside) {
    draw_arrow(svg, d.from, -1 * along);
    draw_arrow(svg, d.to, along);
    svg.line("n", d.from, d.to);
    return;
  }
  svg.line("n", d.from - k_outside_tail * along, d.to + k_outside_tail * along);
  draw_arrow(svg, d.from, along);
  draw_arrow(svg, d.to, -1 * along);
}

void draw_angle(SvgWriter& svg, const DimensionLayout& d) {
  const Spot leg = unit(d.to - d.from), level = unit(d.level_end - d.from);
  const bool clockwise = cross(level, leg) > 0;
  svg.path("n", Path().move(d.level_end).arc(d.radius, clockwise ? 1 : 0, d.to));
  svg.line("n", d.from, d.level_end + k_beyond_line * level);
  svg.line("n", d.from, d.to + k_beyond_line * leg);
  const double half = k_arrow / d.radius / 2;  // a straight arrow on an arc: turned by half its own angle
  const auto tangent = [&](Spot end, double turn) {
    const Spot t = turned(unit(end - d.from));
    const Spot way = turn * t;
    return unit(way + half * unit(end - d.from));
  };
  draw_arrow(svg, d.to, tangent(d.to, clockwise ? 1 : -1));
  draw_arrow(svg, d.level_end, tangent(d.level_end, clockwise ? -1 : 1));
}

void draw_value(SvgWriter& svg, const DimensionLayout& d) {
  const double degrees = std::atan2(d.text_along.y, d.text_along.x) * 180 / std::numbers::pi;
  const Spot down = turned(d.text_along);
  const Spot base = d.text_at + 6 * down;
  Attributes attributes = {{"class", d.dimension->derived ? "dim drv mid" : "dim mid"},
                           {"x", number_text(base.x)},
                           {"y", number_text(base.y)}};
  if (std::abs(degrees) > 0.005) {
    attributes.push_back(
        {"transform", "rotate(" + number_text(degrees) + " " + number_text(base.x) + " " + number_text(base.y) + ")"});
  }
  svg.text("text", attributes, d.text);
  if (!d.to_scale) {
    const Spot half = (d.text_width / 2) * d.text_along;
    svg.line("w", base + 3 * down - half, base + 3 * down + half);
  }
}

const char* word_for(Span span) {
  switch (span) {
    case Span::level:
      return "level";
    case Span::plumb:
      return "plumb";
    case Span::along:
      return "along";
    case Span::angle:
      break;
  }
  return "angle";
}

}  // namespace

void draw_dimensions(SvgWriter& svg, const model::Plan& plan, const Scene& scene, const Style& style,
                     Obstacles& obstacles) {
  for (const DimensionLayout& d : lay_out_dimensions(plan, scene, style, obstacles)) {
    Attributes attributes = {{"class", "dimension"}, {"data-id", d.dimension->id}};
    if (d.dimension->value.origin.kind != quantity::OriginKind::unknown) {
      attributes.push_back({"data-nm", std::to_string(d.dimension->value.nominal)});
    }
    attributes.push_back({"data-span", word_for(d.span)});
    attributes.push_back({"data-from", spot_text(d.from)});
    attributes.push_back({"data-to", spot_text(d.to)});
    svg.open("g", attributes);
    svg.text("title", {}, d.dimension->label);
    if (d.span == Span::angle) {
      draw_angle(svg, d);
    } else {
      draw_linear(svg, d);
    }
    draw_value(svg, d);
    svg.close();
  }
}

void draw_tyre_note(SvgWriter& svg, const Scene& scene, Obstacles& obstacles) {
  const SheetCircle *tyre = scene.circle("tyre"), *rim = nullptr;
  if (tyre == nullptr) return;
  for (const SheetCircle& c : scene.circles) {
    if (c.role == "rim" && length_of(c.centre - tyre->centre) < 0.1) rim = &c;
  }
  if (rim == nullptr) return;
  const std::int64_t height = (tyre->shape->diameter - rim->shape->diameter) / 2;
  const auto print = [](std::int64_t micrometres) {
    return quantity::print_number(micrometres * 1000, quantity::Dimension::length);
  };
  const std::string text = print(rim->shape->diameter) + " × " + print(height);
  const double width = text_width(text, Face::technical, k_dimension_size);
  double best_cost = 1e18;
  Spot best_tip, best_knee;
  for (int step = 0; step <= 16; ++step) {
    const double angle = std::numbers::pi * (1.02 + 0.02 * step);
    const Spot out{std::cos(angle), std::sin(angle)};
    for (const double away : {20.0, 30.0, 42.0}) {
      const Spot tip = tyre->centre + tyre->radius * out, knee = tip + away * Spot{-0.5, -0.87};
      const Quad quad = quad_around(knee + Spot{-width / 2, -9}, {1, 0}, width + 6, 17);
      const double cost = obstacles.cost_of_lettering(quad) + obstacles.cost_of_line(knee, tip, 0.5) + away;
      if (cost < best_cost) {
        best_cost = cost;
        best_tip = tip;
        best_knee = knee;
      }
    }
  }
  svg.open("g", {{"class", "note"}});
  svg.line("n", best_knee - Spot{width + 4, 0}, best_knee);
  svg.line("n", best_knee, best_tip);
  draw_arrow(svg, best_tip, best_tip - best_knee);
  svg.text("text", {{"class", "dim end"}, {"x", number_text(best_knee.x - 2)}, {"y", number_text(best_knee.y - 5)}},
           text);
  svg.close();
  obstacles.add_lettering(quad_around(best_knee + Spot{-width / 2, -9}, {1, 0}, width + 6, 17));
  obstacles.add_line(best_knee, best_tip, 10);
}

}  // namespace cotter::draw
