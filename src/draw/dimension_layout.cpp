#include "draw/dimension_layout.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "draw/lettering.hpp"

namespace cotter::draw {
namespace {

constexpr double k_first = 24, k_step = 11;  // px: nearest line, distance between tried lines
constexpr int k_tries = 44;
constexpr double k_height = 15;        // px of lettering with a little air
constexpr double k_above = 10;         // px from the line to the middle of the lettering
constexpr double k_arrows_fit = 26;    // px: shorter lines have their arrows outside
constexpr double k_outside_tail = 18;  // px of line outside with an arrow
constexpr double k_to_scale = 0.5;     // mm and, for angles, degrees
constexpr double k_weight_line = 14, k_weight_extension = 5;
constexpr double k_long = 60, k_outside_bonus = 90;             // px; cost
constexpr double k_crossing = 0.7, k_extension_crossing = 0.4;  // shares of an outline's weight
constexpr double k_far = 0.12, k_extension = 0.1;               // cost of a pixel of distance and of extension line

double drawn_millimetres(const DimensionLayout& layout, const View& view) {
  return length_of(layout.to - layout.from) / view.scale();
}

/// Reads from below or from the right.
Spot readable(Spot direction) {
  const Spot d = unit(direction);
  return d.x < -1e-6 || (std::abs(d.x) <= 1e-6 && d.y > 0) ? -1 * d : d;
}

Quad text_quad(const DimensionLayout& layout) {
  return quad_around(layout.text_at, layout.text_along, layout.text_width + 6, k_height);
}

struct Priced {
  DimensionLayout layout;
  double cost = 1e18;
};

/// Ends of the extension line that belongs to a measured point.
std::optional<std::pair<Spot, Spot>> extension(Spot point, Spot line_end) {
  const Spot way = line_end - point;
  if (length_of(way) < k_off_point + 1) return std::nullopt;
  return std::pair{point + k_off_point * unit(way), line_end + k_beyond_line * unit(way)};
}

double price_lines(const DimensionLayout& layout, const Obstacles& obstacles) {
  double cost =
      obstacles.cost_of_line(layout.from, layout.to, k_crossing) + obstacles.cost_in_busy(layout.from, layout.to);
  for (const auto& [point, end] : {std::pair{layout.a, layout.from}, std::pair{layout.b, layout.to}}) {
    if (const auto line = extension(point, end)) {
      cost += 0.5 * obstacles.cost_of_line(line->first, line->second, k_extension_crossing) +
              k_extension * length_of(end - point);
    }
  }
  return cost;
}

struct TextPlace {
  Spot at, along;
  double extra;
};

/// Above the line where the lettering fits, else beyond one of its ends or upright beside a plumb line.
std::vector<TextPlace> text_places(const DimensionLayout& layout) {
  const Spot along = readable(layout.to - layout.from), up{along.y, -along.x};
  const Spot way = layout.to - layout.from;
  const double length = length_of(way);
  std::vector<TextPlace> places;
  if (layout.text_width + 4 <= length) {
    for (const double share : {0.5, 0.36, 0.64, 0.24, 0.76}) {
      if (layout.text_width / 2 > std::min(share, 1 - share) * length) continue;
      places.push_back({layout.from + share * way + k_above * up, along, 20 * std::abs(share - 0.5)});
    }
    return places;
  }
  const double out = layout.text_width / 2 + (layout.arrows_outside ? k_outside_tail : 0) + 6;
  places.push_back({layout.to + out * unit(way), along, 3});
  places.push_back({layout.from - out * unit(way), along, 4});
  if (layout.span == Span::plumb) {
    const Spot beside{layout.text_width / 2 + 7, 0};
    places.push_back({middle(layout.from, layout.to) - beside, {1, 0}, 0});
    places.push_back({middle(layout.from, layout.to) + beside, {1, 0}, 1});
  }
  return places;
}

Priced with_text(DimensionLayout layout, const Obstacles& obstacles) {
  layout.arrows_outside = length_of(layout.to - layout.from) < k_arrows_fit;
  Priced best;
  for (const TextPlace& place : text_places(layout)) {
    layout.text_at = place.at;
    layout.text_along = place.along;
    const double cost = obstacles.cost_of_lettering(text_quad(layout)) + place.extra;
    if (cost < best.cost) best = {layout, cost};
  }
  return best;
}

Spot direction_on_sheet(const DimensionLayout& layout) {
  if (layout.span == Span::level) return {1, 0};
  return layout.span == Span::plumb ? Spot{0, 1} : unit(layout.b - layout.a);
}

double drawn_length(const DimensionLayout& layout) {
  return std::abs(dot(layout.b - layout.a, direction_on_sheet(layout)));
}

bool nearly_level(const DimensionLayout& layout) {
  return layout.span != Span::angle && std::abs(direction_on_sheet(layout).x) > 0.8 && drawn_length(layout) > k_long;
}

/// A nearly level line under the wheels or over everything is where a reader looks first.
double bonus(const DimensionLayout& layout, const Box& extent) {
  if (!nearly_level(layout)) return 0;
  const double middle = (extent.top + extent.bottom) / 2;
  const bool low = std::min(layout.a.y, layout.b.y) > middle;
  const bool under = std::min(layout.from.y, layout.to.y) > extent.bottom + k_above;
  const bool over = std::max(layout.from.y, layout.to.y) < extent.top - k_above;
  return (low ? under : over) ? k_outside_bonus : 0;
}

Priced best_linear(const DimensionLayout& start, const Box& extent, const Obstacles& obstacles) {
  const Spot along = direction_on_sheet(start);
  const Spot across = turned(along);
  const double offset_b = dot(start.b - start.a, across), reach = dot(start.b - start.a, along);
  Priced best;
  for (int i = -k_tries; i <= k_tries; ++i) {
    const double from_points = k_first + k_step * (std::abs(i) - 1);
    const double offset = i == 0  ? offset_b / 2
                          : i > 0 ? std::max(0.0, offset_b) + from_points
                                  : std::min(0.0, offset_b) - from_points;
    if (i == 0 && std::abs(offset_b) < 2 * k_first) continue;
    DimensionLayout layout = start;
    layout.from = start.a + offset * across;
    layout.to = layout.from + reach * along;
    Priced priced = with_text(layout, obstacles);
    priced.cost += price_lines(layout, obstacles) + k_far * (i == 0 ? 0 : from_points) - bonus(layout, extent);
    if (priced.cost < best.cost) best = priced;
  }
  return best;
}

double degrees_between(Spot a, Spot b) {
  return std::abs(std::atan2(cross(a, b), dot(a, b))) * 180 / std::numbers::pi;
}

Priced best_angle(const DimensionLayout& start, const Obstacles& obstacles) {
  const Spot leg = unit(start.b - start.a);
  const double value = static_cast<double>(start.dimension->value.nominal) / 1e6;
  const bool rearward =
      std::abs(degrees_between(leg, {-1, 0}) - value) <= std::abs(degrees_between(leg, {1, 0}) - value);
  const Spot level = rearward ? Spot{-1, 0} : Spot{1, 0};
  const Spot centre = unit(leg + level);
  Priced best;
  for (double radius = 40; radius <= 128; radius += 11) {
    for (const double side : {1.0, -1.0}) {
      DimensionLayout layout = start;
      layout.radius = radius;
      layout.from = start.a;
      layout.to = start.a + radius * leg;
      layout.level_end = start.a + radius * level;
      const double clear = layout.text_width / 2 * std::abs(centre.x) + k_height / 2 * std::abs(centre.y) + 6;
      layout.text_at = start.a + (radius + side * clear) * centre;
      const double cost = obstacles.cost_of_lettering(text_quad(layout)) + k_far * radius +
                          obstacles.cost_of_line(layout.to, start.a + radius * centre, k_crossing) +
                          obstacles.cost_of_line(start.a + radius * centre, layout.level_end, k_crossing);
      if (cost < best.cost) best = {layout, cost};
    }
  }
  return best;
}

void enter(const DimensionLayout& layout, Obstacles& obstacles) {
  obstacles.add_lettering(text_quad(layout));
  if (layout.span == Span::angle) {
    const Spot peak = layout.a + layout.radius * unit((layout.to - layout.a) + (layout.level_end - layout.a));
    obstacles.add_line(layout.to, peak, k_weight_line);
    obstacles.add_line(peak, layout.level_end, k_weight_line);
    obstacles.add_line(layout.a, layout.level_end, k_weight_extension);
    return;
  }
  obstacles.add_line(layout.from, layout.to, k_weight_line);
  for (const auto& [point, end] : {std::pair{layout.a, layout.from}, std::pair{layout.b, layout.to}}) {
    if (const auto line = extension(point, end)) obstacles.add_line(line->first, line->second, k_weight_extension);
  }
}

bool agrees(const DimensionLayout& layout, const View& view) {
  const quantity::Value& value = layout.dimension->value;
  if (value.origin.kind == quantity::OriginKind::unknown) return true;
  const double nominal = std::abs(static_cast<double>(value.nominal)) / 1e6;
  const double drawn = layout.span == Span::angle ? degrees_between(layout.to - layout.a, layout.level_end - layout.a)
                                                  : drawn_millimetres(layout, view);
  return std::abs(drawn - nominal) <= k_to_scale;
}

DimensionLayout started(const model::DrawnDimension& dimension, const Scene& scene, const Style& style) {
  DimensionLayout layout;
  layout.dimension = &dimension;
  layout.span = direction_of(dimension);
  layout.a = scene.view(dimension.a);
  layout.b = scene.view(dimension.b);
  layout.text = dimension_text(dimension, style.numbers);
  layout.text_width = text_width(layout.text, Face::technical, k_dimension_size);
  return layout;
}

/// Angles have the fewest places and go first. Nearly level lines go outside, before anything stands in the way of
/// their extension lines. Among equals the shorter goes first and so lies nearer.
bool before(const DimensionLayout& left, const DimensionLayout& right) {
  const auto rank = [](const DimensionLayout& l) { return l.span == Span::angle ? 0 : nearly_level(l) ? 1 : 2; };
  if (rank(left) != rank(right)) return rank(left) < rank(right);
  return drawn_length(left) < drawn_length(right);
}

}  // namespace

std::vector<DimensionLayout> lay_out_dimensions(const model::Plan& plan, const Scene& scene, const Style& style,
                                                Obstacles& obstacles) {
  std::vector<DimensionLayout> layouts;
  for (const model::DrawnDimension& dimension : plan.picture.dimensions) {
    layouts.push_back(started(dimension, scene, style));
  }
  std::erase_if(layouts, [](const DimensionLayout& l) { return length_of(l.b - l.a) < 1; });
  std::stable_sort(layouts.begin(), layouts.end(), before);
  const Box extent = scene.extent();
  for (DimensionLayout& layout : layouts) {
    const Priced best =
        layout.span == Span::angle ? best_angle(layout, obstacles) : best_linear(layout, extent, obstacles);
    layout = best.layout;
    layout.to_scale = agrees(layout, scene.view);
    enter(layout, obstacles);
  }
  return layouts;
}

}  // namespace cotter::draw
