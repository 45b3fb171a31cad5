#include "draw/runs.hpp"

#include <algorithm>
#include <optional>
#include <string>

#include "draw/lettering.hpp"
#include "draw/run_lanes.hpp"
#include "model/words.hpp"

namespace cotter::draw {
namespace {

constexpr double k_weight_run = 9;
constexpr double k_label_size = 15;
constexpr double k_corner = 7;   // px: radius-like rounding of corners
constexpr double k_lead_in = 9;  // px along the tube until a run lies in its lane
constexpr double k_bow = 0.12;   // of the length: bow of a run drawn between two points only

/// Points of one unbroken stretch, all inside or all outside.
struct Stretch {
  bool inside = false;
  std::vector<Spot> points;
};

void add_point(Stretch& stretch, Spot p) {
  if (stretch.points.empty() || length_of(stretch.points.back() - p) > 0.5) stretch.points.push_back(p);
}

/// Replaces a piece along a tube by its lane beside the axis.
std::vector<Spot> in_lane(const RunLanes& lanes, std::size_t run, const RunPiece& piece) {
  const SheetTube& tube = *piece.tube;
  const Spot along = unit(tube.b - tube.a);
  const Spot start = tube.a + lanes.offset(run, piece) * turned(along);
  const double from = dot(piece.a - tube.a, along), to = dot(piece.b - tube.a, along);
  const double step = to > from ? k_lead_in : -k_lead_in;
  return {start + (from + step) * along, start + (to - step) * along};
}

std::vector<Stretch> stretches_of(const RunLanes& lanes, std::size_t run) {
  std::vector<Stretch> stretches;
  const std::vector<RunPiece>& pieces = lanes.pieces(run);
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const RunPiece& piece = pieces[i];
    if (stretches.empty() || stretches.back().inside != piece.inside) stretches.push_back({piece.inside, {piece.a}});
    Stretch& stretch = stretches.back();
    if (piece.tube == nullptr) {
      add_point(stretch, piece.b);
      continue;
    }
    for (const Spot p : in_lane(lanes, run, piece)) add_point(stretch, p);
    const bool goes_on = i + 1 < pieces.size() && pieces[i + 1].inside && pieces[i + 1].tube == piece.tube;
    if (!goes_on) add_point(stretch, piece.b);
  }
  return stretches;
}

Path rounded(const std::vector<Spot>& p) {
  Path path;
  path.move(p[0]);
  for (std::size_t i = 1; i + 1 < p.size(); ++i) {
    const double before = length_of(p[i] - p[i - 1]), after = length_of(p[i + 1] - p[i]);
    const double cut = std::min({k_corner, before / 2, after / 2});
    path.line(p[i] - cut * unit(p[i] - p[i - 1])).quadratic(p[i], p[i] + cut * unit(p[i + 1] - p[i]));
  }
  return path.line(p.back());
}

/// A smooth curve through all points (Catmull and Rom's spline as cubic pieces).
Path smooth(const std::vector<Spot>& p) {
  Path path;
  path.move(p[0]);
  if (p.size() == 2) {
    const Spot way = p[1] - p[0], side = turned(way);
    const Spot down = side.y >= 0 ? side : -1 * side;
    return path.quadratic(middle(p[0], p[1]) + k_bow * down, p[1]);
  }
  for (std::size_t i = 0; i + 1 < p.size(); ++i) {
    const Spot before = i > 0 ? p[i - 1] : p[i], after = i + 2 < p.size() ? p[i + 2] : p[i + 1];
    path.cubic(p[i] + (1.0 / 6) * (p[i + 1] - before), p[i + 1] - (1.0 / 6) * (after - p[i]), p[i + 1]);
  }
  return path;
}

void draw_stretch(SvgWriter& svg, const Stretch& stretch, const std::string& kind, std::size_t index) {
  if (stretch.points.size() < 2) return;
  const std::string name = "run " + kind;
  if (stretch.inside) {
    svg.path(name + " " + dash_class(index), rounded(stretch.points));
  } else {
    svg.path(name, smooth(stretch.points));
  }
}

/// The clearest place for the number on the longer straight parts of the run.
std::optional<Quad> label_place(const std::vector<Stretch>& stretches, double width, const Obstacles& obstacles) {
  std::optional<Quad> best;
  double best_cost = 1e9;
  for (const Stretch& stretch : stretches) {
    for (std::size_t i = 0; i + 1 < stretch.points.size(); ++i) {
      const Spot a = stretch.points[i], b = stretch.points[i + 1];
      const double length = length_of(b - a);
      for (int step = 2; step <= 8; ++step) {
        const Quad quad = quad_around(a + (step / 10.0) * (b - a), {1, 0}, width + 4, k_label_size);
        const double off_middle = std::abs(step - 5) * 2;
        const double cost = obstacles.cost_of_lettering(quad) + off_middle - std::min(length, 250.0) / 2;
        if (cost >= best_cost) continue;
        best_cost = cost;
        best = quad;
      }
    }
  }
  return best;
}

std::string length_text(const model::Run& run, const Style& style) {
  const bool planned = run.length > 0;
  const std::int64_t mm = planned ? run.length : run.way;
  if (mm <= 0) return "?";
  std::string text = style.numbers.length == quantity::LengthUnit::inch
                         ? quantity::print_rounded(mm * 1'000'000, quantity::Dimension::length, 1, style.numbers)
                         : std::to_string(mm);
  if (style.numbers.length == quantity::LengthUnit::millimetre && text.size() > 3) text.insert(text.size() - 3, " ");
  return planned ? text : "≈ " + text;
}

std::string name_of(const model::Run& run) {
  return run.from.empty() || run.to.empty() ? run.label : run.from + " – " + run.to;
}

struct LegendShape {
  double row, size, name_width, left;
};

LegendShape legend_shape(const model::Plan& plan) {
  const std::size_t count = plan.runs.size();
  const double row = count <= 6 ? 22 : count <= 9 ? 19 : 16;
  const double size = count <= 9 ? 15 : 14;
  double names = 60;
  for (const model::Run& run : plan.runs) names = std::max(names, text_width(name_of(run), Face::technical, size) + 4);
  names = std::min(names, 210.0);
  return {row, size, names, 900 - 58 - names - 94};
}

constexpr double k_legend_top = 36;

}  // namespace

std::string kind_class(model::LineForm::Kind kind) {
  return std::string(model::word_for(kind));
}

std::string dash_class(std::size_t index) {
  return "in" + std::to_string(index % 5 + 1);
}

void draw_runs(SvgWriter& svg, const model::Plan& plan, const Scene& scene, Obstacles& obstacles) {
  const RunLanes lanes(plan, scene);
  for (std::size_t i = 0; i < plan.runs.size(); ++i) {
    const model::Run& run = plan.runs[i];
    svg.open("g", {{"class", "line"},
                   {"data-line", run.line},
                   {"data-number", run.number},
                   {"data-way-mm", std::to_string(run.way)},
                   {"data-length-mm", std::to_string(run.length)}});
    svg.text("title", {}, run.number + " " + run.label);
    for (const Stretch& stretch : stretches_of(lanes, i)) {
      draw_stretch(svg, stretch, kind_class(run.kind), i);
      for (std::size_t j = 0; j + 1 < stretch.points.size(); ++j) {
        obstacles.add_line(stretch.points[j], stretch.points[j + 1], k_weight_run);
      }
    }
    svg.close();
  }
}

void draw_run_numbers(SvgWriter& svg, const model::Plan& plan, const Scene& scene, Obstacles& obstacles) {
  const RunLanes lanes(plan, scene);
  for (std::size_t i = 0; i < plan.runs.size(); ++i) {
    const model::Run& run = plan.runs[i];
    const double width = text_width(run.number, Face::technical, k_label_size);
    const auto quad = label_place(stretches_of(lanes, i), width, obstacles);
    if (!quad) continue;
    const Spot centre = middle((*quad)[0], (*quad)[2]);
    svg.text(
        "text",
        {{"class", "lt mid f-" + kind_class(run.kind)}, {"x", number_text(centre.x)}, {"y", number_text(centre.y + 5)}},
        run.number);
    obstacles.add_lettering(*quad);
  }
}

Box legend_box(const model::Plan& plan) {
  const LegendShape shape = legend_shape(plan);
  return {shape.left - 8, 28, 908, k_legend_top + shape.row * static_cast<double>(plan.runs.size()) + 6};
}

void draw_legend(SvgWriter& svg, const model::Plan& plan, const Style& style) {
  const LegendShape shape = legend_shape(plan);
  svg.open("g", {{"class", "legend"}, {"font-size", number_text(shape.size)}});
  for (std::size_t i = 0; i < plan.runs.size(); ++i) {
    const model::Run& run = plan.runs[i];
    const std::string kind = kind_class(run.kind);
    const double y = k_legend_top + shape.row * (static_cast<double>(i) + 0.5);
    const auto write = [&](const std::string& cls, double x, const std::string& text) {
      svg.text("text", {{"class", cls}, {"x", number_text(x)}, {"y", number_text(y + 5)}}, text);
    };
    svg.open("g", {{"data-legend", run.line}});
    const std::string name = fitted(name_of(run), Face::technical, shape.size, shape.name_width);
    svg.text("title", {}, name_of(run) + ": " + run.label);
    svg.line("run " + kind + " " + dash_class(i), {shape.left, y}, {shape.left + 48, y});
    write("f-" + kind, shape.left + 58, run.number);
    write("leg", shape.left + 90, name);
    write("leg end", 900, length_text(run, style));
    svg.close();
  }
  svg.close();
}

}  // namespace cotter::draw
