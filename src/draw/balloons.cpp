#include "draw/balloons.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace cotter::draw {
namespace {

constexpr double k_finding_radius = 14, k_letter_radius = 10.5;
constexpr double k_smallest_hole = 3.2;  // px: smaller ones would not be seen
constexpr double k_dot = 2.2;
constexpr double k_rings[] = {30, 40, 52, 66, 82, 100, 122, 148, 178, 212};
constexpr int k_directions = 24;
constexpr int k_rounds = 3;
constexpr double k_crossing = 0.5;  // share of an outline's weight
constexpr double k_far = 0.5;       // cost of a pixel of leader
constexpr double k_too_close = 8;   // of a pixel under the 48
constexpr double k_leaders_cross = 120;
constexpr double k_leader_through = 250;  // through another balloon

double hole_radius(const model::OpeningUse& opening, const View& view) {
  const double width = view.px(static_cast<double>(opening.shape.width.nominal) / 1e6);
  return std::max(k_smallest_hole, width / 2);
}

std::optional<Spot> target_of(const model::Finding& finding, const model::Plan& plan, const Scene& scene) {
  for (const model::InterfaceRef& about : finding.about) {
    for (const model::OpeningUse& opening : plan.openings) {
      if (opening.opening == about.text()) return scene.view(opening.at);
    }
  }
  for (const model::InterfaceRef& about : finding.about) {
    for (const std::string& name : {about.text(), about.place}) {
      const auto anchor = plan.picture.anchors.find(name);
      if (anchor != plan.picture.anchors.end()) return scene.view(anchor->second);
    }
  }
  return std::nullopt;
}

Spot leader_end(const Balloon& b, Spot at) {
  return at + b.radius * unit(b.target - at);
}

double price_against(const Balloon& b, Spot at, const Balloon& other) {
  const double distance = length_of(at - other.at);
  double cost = distance < b.radius + other.radius + 5 ? Obstacles::k_forbidden : 0;
  if (distance < k_apart) cost += k_too_close * (k_apart - distance);
  const Spot end = leader_end(b, at), other_end = leader_end(other, other.at);
  if (segments_cross(b.target, end, other.target, other_end)) cost += k_leaders_cross;
  if (distance_to_segment(other.at, b.target, end) < other.radius + 4) cost += k_leader_through;
  if (distance_to_segment(at, other.target, other_end) < b.radius + 4) cost += k_leader_through;
  return cost;
}

/// Stops counting once the cost reaches `limit`.
double price(const Balloon& b, Spot at, const std::vector<Balloon>& others, std::size_t count,
             const Obstacles& obstacles, double limit) {
  double cost = k_far * length_of(at - b.target);
  for (std::size_t i = 0; i < count && cost < limit; ++i) {
    if (&others[i] != &b) cost += price_against(b, at, others[i]);
  }
  if (cost >= limit) return cost;
  cost += obstacles.cost_of_lettering(quad_around(at, {1, 0}, 2 * b.radius + 6, 2 * b.radius + 6));
  return cost >= limit ? cost : cost + obstacles.cost_of_line(b.target, leader_end(b, at), k_crossing);
}

/// Considers the first `count` balloons as placed.
void place_one(Balloon& b, const std::vector<Balloon>& all, std::size_t count, const Obstacles& obstacles) {
  double best = 1e18;
  Spot found = b.target;
  for (const double ring : k_rings) {
    for (int i = 0; i < k_directions; ++i) {
      const double angle = 2 * std::numbers::pi * i / k_directions;
      const Spot at = b.target + ring * Spot{std::cos(angle), std::sin(angle)};
      const double cost = price(b, at, all, count, obstacles, best);
      if (cost >= best) continue;
      best = cost;
      found = at;
    }
  }
  b.at = found;
}

}  // namespace

std::vector<Balloon> balloons_of(const model::Plan& plan, const Scene& scene, const FindingsList& list) {
  std::vector<Balloon> balloons;
  for (const ListedFinding& row : list.rows) {
    const auto target = target_of(*row.finding, plan, scene);
    if (!target) continue;
    balloons.push_back({*target, k_finding_radius, k_dot, *target, row.mark, &row, nullptr});
  }
  for (const model::OpeningUse& opening : plan.openings) {
    if (opening.letter.empty()) continue;
    const Spot at = scene.view(opening.at);
    balloons.push_back({at, k_letter_radius, hole_radius(opening, scene.view), at, opening.letter, nullptr, &opening});
  }
  return balloons;
}

void place_balloons(std::vector<Balloon>& balloons, Obstacles& obstacles) {
  for (std::size_t i = 0; i < balloons.size(); ++i) place_one(balloons[i], balloons, i, obstacles);
  for (int round = 0; round < k_rounds; ++round) {
    for (Balloon& b : balloons) place_one(b, balloons, balloons.size(), obstacles);
  }
  for (const Balloon& b : balloons) {
    obstacles.add_lettering(quad_around(b.at, {1, 0}, 2 * b.radius, 2 * b.radius));
  }
}

void draw_openings(SvgWriter& svg, const model::Plan& plan, const Scene& scene) {
  svg.open("g", {{"class", "openings"}});
  for (const model::OpeningUse& opening : plan.openings) {
    if (opening.letter.empty()) continue;
    const Spot at = scene.view(opening.at);
    svg.leaf("circle", {{"class", opening.side == "left" ? "hole-far" : "hole"},
                        {"data-opening", opening.opening},
                        {"data-letter", opening.letter},
                        {"data-x-um", std::to_string(opening.at.x)},
                        {"data-y-um", std::to_string(opening.at.y)},
                        {"cx", number_text(at.x)},
                        {"cy", number_text(at.y)},
                        {"r", number_text(hole_radius(opening, scene.view))}});
  }
  svg.close();
}

void draw_balloons(SvgWriter& svg, const std::vector<Balloon>& balloons, const std::string& selected) {
  svg.open("g", {{"class", "balloons"}});
  for (const Balloon& b : balloons) {
    const Spot way = unit(b.at - b.target);
    const Spot from = b.target + (b.finding != nullptr ? 0.0 : b.target_radius) * way;
    svg.line("n", from, leader_end(b, b.at));
    if (b.finding != nullptr) svg.circle("dot", b.target, k_dot);
  }
  for (const Balloon& b : balloons) {
    if (b.finding != nullptr) {
      const model::Finding& finding = *b.finding->finding;
      const bool here = !selected.empty() && finding.id == selected;
      svg.open("g", {{"data-balloon", finding.id}});
      svg.text("title", {}, b.finding->headline);
      draw_ring(svg, finding.verdict, b.at, b.radius, b.mark, here ? Marker::here : Marker::none);
    } else {
      svg.open("g", {{"data-balloon", b.opening->opening}});
      svg.text("title", {}, b.opening->label);
      svg.circle("bf", b.at, b.radius);
      svg.circle("n", b.at, b.radius);
      svg.text("text", {{"class", "bt mid"}, {"x", number_text(b.at.x)}, {"y", number_text(b.at.y + 4.8)}}, b.mark);
    }
    svg.close();
  }
  svg.close();
}

}  // namespace cotter::draw
