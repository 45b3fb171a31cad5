#include <algorithm>
#include <cmath>

#include "draw/bicycle_outline.hpp"

namespace cotter::draw {
namespace {

constexpr double k_beyond = 9;          // px: how far a centre line passes its circle
constexpr double k_ground_beyond = 14;  // px
constexpr double k_axle_radius = 5;     // px: forms, axles have no number of their own
constexpr double k_rim_gap = 3;         // px between bead seat and its companion line

void draw_ground(SvgWriter& svg, const Scene& scene) {
  const auto ground = scene.ground();
  if (!ground) return;
  double left = 1e9, right = -1e9;
  for (const SheetCircle& c : scene.circles) {
    if (c.role != "tyre") continue;
    left = std::min(left, c.centre.x - c.radius);
    right = std::max(right, c.centre.x + c.radius);
  }
  svg.line("n", {left - k_ground_beyond, *ground}, {right + k_ground_beyond, *ground});
}

void draw_circle(SvgWriter& svg, const SheetCircle& c) {
  const bool tyre = c.role == "tyre";
  svg.leaf("circle", {{"class", tyre ? "w" : "n"},
                      {"data-circle", c.shape->id},
                      {"cx", number_text(c.centre.x)},
                      {"cy", number_text(c.centre.y)},
                      {"r", number_text(c.radius)}});
  if (c.role == "rim") svg.circle("m", c.centre, c.radius - k_rim_gap);
}

void draw_cross(SvgWriter& svg, const SheetCircle& c) {
  const double reach = c.radius + k_beyond;
  svg.line("ct", c.centre - Spot{reach, 0}, c.centre + Spot{reach, 0});
  svg.line("ct", c.centre - Spot{0, reach}, c.centre + Spot{0, reach});
}

/// The two outer lines that touch both circles.
void draw_chain(SvgWriter& svg, const Scene& scene) {
  const SheetCircle* ring = scene.circle("ring");
  const SheetCircle* sprocket = scene.circle("sprocket");
  if (ring == nullptr || sprocket == nullptr) return;
  const Spot way = ring->centre - sprocket->centre;
  const double distance = length_of(way);
  const double difference = ring->radius - sprocket->radius;
  if (distance <= std::abs(difference)) return;
  const Spot along = unit(way), across = turned(along);
  const double back = -difference / distance, out = std::sqrt(1 - back * back);
  for (const double side : {-1.0, 1.0}) {
    const Spot normal = back * along + (side * out) * across;
    svg.line("hd", sprocket->centre + sprocket->radius * normal, ring->centre + ring->radius * normal);
  }
}

}  // namespace

void draw_wheels(SvgWriter& svg, const Scene& scene) {
  svg.open("g", {{"class", "wheels"}});
  draw_ground(svg, scene);
  for (const SheetCircle& c : scene.circles) {
    if (c.role == "tyre") draw_cross(svg, c);
  }
  for (const SheetCircle& c : scene.circles) draw_circle(svg, c);
  draw_chain(svg, scene);
  svg.close();
}

void draw_axes(SvgWriter& svg, const Scene& scene) {
  svg.open("g", {{"class", "axes"}});
  constexpr double k_above = 34;
  if (const SheetTube* head = scene.tube("head_tube")) {
    const Spot up = unit(head->a - head->b);
    const SheetTube* steerer = scene.tube("steerer");
    const Spot top = steerer != nullptr ? steerer->a : head->a;
    svg.line("ct", top + k_above * up, scene.point("steering_ground").value_or(head->b - 60 * up));
  }
  if (const SheetTube* seat = scene.tube("seat_tube")) {
    const Spot up = unit(seat->a - seat->b);
    svg.line("ct", scene.point("saddle").value_or(seat->a) + k_above * up, seat->b);
  }
  for (const model::Shape* axis : scene.axes) {
    svg.line("ct", scene.view(axis->points[0]), scene.view(axis->points[1]));
  }
  svg.circle("w", scene.view({}), 1.6);
  for (const char* axle : {"rear_axle", "front_axle"}) {
    if (const auto p = scene.point(axle)) {
      svg.circle("bw", *p, k_axle_radius);
      svg.circle("n", *p, k_axle_radius / 2);
    }
  }
  svg.close();
}

}  // namespace cotter::draw
