#include <algorithm>
#include <string>
#include <vector>

#include "draw/bicycle_outline.hpp"

namespace cotter::draw {
namespace {

constexpr double k_half_line = 1;  // px: half of a wide line

/// Tubes joined without a visible seam, farthest group first.
struct Group {
  std::vector<std::string_view> roles;
};
const std::vector<Group>& groups() {
  static const std::vector<Group> k_groups = {
      {{"seatpost"}},
      {{"steerer"}},
      {{"fork_blade_left", "fork_blade_right"}},
      {{"chainstay_left", "seatstay_left", "chainstay_right", "seatstay_right", "top_tube", "down_tube", "seat_tube",
        "head_tube"}},
      {{"cover"}},
      {{"spacers"}},
      {{"stem", "stem_clamp"}},
  };
  return k_groups;
}

/// Tubes whose far end runs into an axle or a shell and is drawn round.
bool round_at_end(std::string_view role) {
  static constexpr std::string_view k_round[] = {"chainstay_left", "chainstay_right", "seatstay_left",
                                                 "seatstay_right", "fork_blade_left", "fork_blade_right",
                                                 "down_tube",      "seat_tube"};
  return std::find(std::begin(k_round), std::end(k_round), role) != std::end(k_round);
}

bool drawn_elsewhere(const SheetTube& tube) {
  return tube.end_on() || tube.role == "crank" || tube.role == "bar";
}

bool covered_by_right(const Scene& scene, const SheetTube& tube) {
  const std::string_view role = tube.role;
  if (!role.ends_with("_left")) return false;
  return scene.tube(std::string(role.substr(0, role.size() - 4)) + "right") != nullptr;
}

/// Outline, made smaller by `inset` on every side.
Path outline(const SheetTube& tube, double inset) {
  const Spot along = unit(tube.b - tube.a), across = turned(along);
  const double a = std::max(tube.size_a / 2 - inset, 0.3), b = std::max(tube.size_b / 2 - inset, 0.3);
  const Spot from = tube.a + inset * along;
  const bool round = round_at_end(tube.role);
  const Spot to = round ? tube.b : tube.b - inset * along;
  Path path;
  path.move(from - a * across).line(to - b * across);
  if (round) {
    path.arc(b, 1, to + b * across);
  } else {
    path.line(to + b * across);
  }
  return path.line(from + a * across).close();
}

std::string micrometres_text(const model::PlanPoint& p) {
  return std::to_string(p.x) + "," + std::to_string(p.y) + "," + std::to_string(p.z);
}

void draw_edge(SvgWriter& svg, const SheetTube& tube) {
  svg.leaf("path", {{"class", tube.size_a > 0 ? "bw" : "ct"},
                    {"data-tube", tube.shape->id},
                    {"data-start", micrometres_text(tube.shape->points[0])},
                    {"data-end", micrometres_text(tube.shape->points[1])},
                    {"d", outline(tube, 0).text()}});
}

void draw_group(SvgWriter& svg, const std::vector<const SheetTube*>& tubes) {
  for (const SheetTube* tube : tubes) draw_edge(svg, *tube);
  if (tubes.size() < 2) return;
  for (const SheetTube* tube : tubes) svg.path("body", outline(*tube, k_half_line));
}

void draw_shell(SvgWriter& svg, const Scene& scene) {
  for (const SheetTube& tube : scene.tubes) {
    if (!tube.end_on() || tube.role == "bar" || tube.size_a <= 0) continue;
    svg.leaf("circle", {{"class", "bw"},
                        {"data-tube", tube.shape->id},
                        {"data-start", micrometres_text(tube.shape->points[0])},
                        {"data-end", micrometres_text(tube.shape->points[1])},
                        {"cx", number_text(tube.a.x)},
                        {"cy", number_text(tube.a.y)},
                        {"r", number_text(tube.size_a / 2)}});
  }
}

}  // namespace

void draw_tubes(SvgWriter& svg, const Scene& scene) {
  svg.open("g", {{"class", "tubes"}});
  std::vector<const SheetTube*> others;
  for (const SheetTube& tube : scene.tubes) {
    const bool grouped = std::any_of(groups().begin(), groups().end(), [&](const Group& g) {
      return std::find(g.roles.begin(), g.roles.end(), tube.role) != g.roles.end();
    });
    if (!grouped && !drawn_elsewhere(tube)) others.push_back(&tube);
  }
  for (const SheetTube* tube : others) draw_edge(svg, *tube);
  for (const Group& group : groups()) {
    std::vector<const SheetTube*> tubes;
    for (const std::string_view role : group.roles) {
      for (const SheetTube& tube : scene.tubes) {
        if (tube.role == role && !drawn_elsewhere(tube) && !covered_by_right(scene, tube)) tubes.push_back(&tube);
      }
    }
    draw_group(svg, tubes);
  }
  draw_shell(svg, scene);
  svg.close();
}

}  // namespace cotter::draw
