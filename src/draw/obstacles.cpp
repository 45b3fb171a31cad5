#include "draw/obstacles.hpp"

#include <algorithm>
#include <initializer_list>
#include <numbers>

namespace cotter::draw {
namespace {

constexpr double k_close = 7;       // px: two parallel lines nearer than this read as one
constexpr double k_close_cost = 6;  // times the weight of the line it hides
constexpr double k_on_line_cost = 3;
constexpr double k_busy_cost = 0.7;  // of a pixel
constexpr double k_through_lettering = 400;
constexpr int k_circle_sides = 48;

Box box_around(std::initializer_list<Spot> spots) {
  Box box{1e9, 1e9, -1e9, -1e9};
  for (const Spot p : spots) {
    box = {std::min(box.left, p.x), std::min(box.top, p.y), std::max(box.right, p.x), std::max(box.bottom, p.y)};
  }
  return box;
}

bool far_apart(const Box& a, const Box& b, double more_than) {
  return a.left - b.right > more_than || b.left - a.right > more_than || a.top - b.bottom > more_than ||
         b.top - a.bottom > more_than;
}

/// Whether the stretch two lines share lies closer than k_close, and both run nearly the same way.
bool runs_along(Spot a, Spot b, Spot c, Spot d) {
  const Spot u = unit(b - a), v = unit(d - c);
  if (std::abs(cross(u, v)) > 0.1) return false;
  const double from = std::max(0.0, std::min(dot(c - a, u), dot(d - a, u)));
  const double to = std::min(length_of(b - a), std::max(dot(c - a, u), dot(d - a, u)));
  if (to - from < k_close) return false;
  const Spot p = a + ((from + to) / 2) * u;
  return distance_to_segment(p, c, d) < k_close;
}

/// Length of the part of a line that lies in a disc.
double length_inside(Spot a, Spot b, Spot centre, double radius) {
  const Spot along = unit(b - a);
  const double foot = dot(centre - a, along);
  const double off = length_of(centre - (a + foot * along));
  if (off >= radius) return 0;
  const double half = std::sqrt(radius * radius - off * off);
  return std::max(0.0, std::min(length_of(b - a), foot + half) - std::max(0.0, foot - half));
}

}  // namespace

void Obstacles::add_line(Spot a, Spot b, double weight) {
  lines_.push_back({a, b, weight, box_around({a, b})});
}

void Obstacles::add_circle(Spot centre, double radius, double weight) {
  const auto at = [&](int i) {
    const double angle = 2 * std::numbers::pi * i / k_circle_sides;
    return centre + radius * Spot{std::cos(angle), std::sin(angle)};
  };
  for (int i = 0; i < k_circle_sides; ++i) add_line(at(i), at(i + 1), weight);
}

void Obstacles::add_busy(Spot centre, double radius) {
  busy_.push_back({centre, radius});
}

void Obstacles::add_lettering(const Quad& quad) {
  lettering_.push_back(quad);
}

double Obstacles::cost_of_lettering(const Quad& quad) const {
  double cost = 0;
  for (const Spot corner : quad) {
    if (!area_.contains(corner)) cost += k_forbidden;
  }
  for (const Quad& other : lettering_) {
    if (overlap(quad, other)) cost += k_forbidden;
  }
  const Box around = box_around({quad[0], quad[1], quad[2], quad[3]});
  for (const Line& line : lines_) {
    if (!far_apart(around, line.around, 0) && touches(quad, line.a, line.b)) cost += k_on_line_cost * line.weight;
  }
  return cost;
}

double Obstacles::cost_of_line(Spot a, Spot b, double crossing) const {
  double cost = area_.contains(a) && area_.contains(b) ? 0 : k_forbidden;
  for (const Quad& quad : lettering_) {
    if (touches(quad, a, b)) cost += k_through_lettering;
  }
  const Box around = box_around({a, b});
  for (const Line& line : lines_) {
    if (far_apart(around, line.around, k_close)) continue;
    if (runs_along(a, b, line.a, line.b)) {
      cost += k_close_cost * line.weight;
    } else if (segments_cross(a, b, line.a, line.b)) {
      cost += crossing * line.weight;
    }
  }
  return cost;
}

double Obstacles::cost_in_busy(Spot a, Spot b) const {
  double cost = 0;
  for (const Disc& disc : busy_) cost += k_busy_cost * length_inside(a, b, disc.centre, disc.radius);
  return cost;
}

}  // namespace cotter::draw
