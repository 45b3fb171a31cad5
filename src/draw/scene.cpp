#include "draw/scene.hpp"

#include <algorithm>
#include <cmath>

#include "draw/forms.hpp"

namespace cotter::draw {
namespace {

using model::PlanPoint;
using model::Shape;

constexpr double k_largest_scale = 0.6;  // px for a millimetre: a child's bicycle need not fill the sheet
constexpr double k_weight_tube = 12;
constexpr double k_weight_circle = 5;
constexpr double k_weight_form = 10;

/// Millimetres, y up.
struct Extent {
  bool any = false;
  double left = 0, right = 0, low = 0, high = 0;
  void add(double x, double y) {
    left = any ? std::min(left, x) : x;
    right = any ? std::max(right, x) : x;
    low = any ? std::min(low, y) : y;
    high = any ? std::max(high, y) : y;
    any = true;
  }
  void add(const PlanPoint& p, double around = 0) {
    const double x = static_cast<double>(p.x) / 1000, y = static_cast<double>(p.y) / 1000;
    add(x - around, y - around);
    add(x + around, y + around);
  }
};

Extent extent_of(const model::Plan& plan) {
  Extent extent;
  for (const Shape& shape : plan.picture.shapes) {
    const double around = shape.kind == Shape::Kind::circle ? static_cast<double>(shape.diameter) / 2000 : 0;
    for (const PlanPoint& p : shape.points) extent.add(p, around);
    if (shape.kind != Shape::Kind::point || shape.points.empty()) continue;
    for (const Spot& corner : form_corners(role_of(shape.id))) {
      extent.add(static_cast<double>(shape.points[0].x) / 1000 + corner.x,
                 static_cast<double>(shape.points[0].y) / 1000 + corner.y);
    }
  }
  for (const model::Run& run : plan.runs) {
    for (const PlanPoint& p : run.path) extent.add(p);
  }
  for (const model::OpeningUse& opening : plan.openings) extent.add(opening.at);
  return extent;
}

View view_of(const Extent& extent, const Box& area) {
  const double width = std::max(extent.right - extent.left, 1.0), height = std::max(extent.high - extent.low, 1.0);
  const double most = std::min({area.width() / width, area.height() / height, k_largest_scale});
  const double scale = std::max(std::floor(most * 1000) / 1000, 0.001);
  const Spot centre{(extent.left + extent.right) / 2, (extent.low + extent.high) / 2};
  const auto whole = [](double v) { return std::round(v); };
  return View(scale, {whole((area.left + area.right) / 2 - scale * centre.x),
                      whole((area.top + area.bottom) / 2 + scale * centre.y)});
}

void add_shape(const Shape& shape, Scene& scene) {
  const std::string role = role_of(shape.id);
  const auto& p = shape.points;
  switch (shape.kind) {
    case Shape::Kind::tube:
      if (p.size() < 2) return;
      scene.tubes.push_back({&shape, role, scene.view(p[0]), scene.view(p[1]), scene.view.size(shape.diameter),
                             scene.view.size(shape.diameter_end > 0 ? shape.diameter_end : shape.diameter)});
      return;
    case Shape::Kind::circle:
      if (!p.empty()) scene.circles.push_back({&shape, role, scene.view(p[0]), scene.view.size(shape.diameter) / 2});
      return;
    case Shape::Kind::axis:
      if (p.size() >= 2) scene.axes.push_back(&shape);
      return;
    case Shape::Kind::point:
      if (!p.empty()) scene.points.emplace(role, scene.view(p[0]));
      return;
  }
}

}  // namespace

Spot View::operator()(const PlanPoint& p) const {
  return {origin_.x + size(p.x), origin_.y - size(p.y)};
}

std::string scale_text(const View& view) {
  const std::string thousandths = std::to_string(std::lround(view.scale() * 1000));
  return "0." + std::string(3 - std::min<std::size_t>(3, thousandths.size()), '0') + thousandths;
}

std::string role_of(std::string_view id) {
  const auto dot = id.rfind('.');
  return std::string(dot == std::string_view::npos ? id : id.substr(dot + 1));
}

const SheetTube* Scene::tube(std::string_view role) const {
  const auto found = std::find_if(tubes.begin(), tubes.end(), [&](const SheetTube& t) { return t.role == role; });
  return found == tubes.end() ? nullptr : &*found;
}

const SheetCircle* Scene::circle(std::string_view role) const {
  const auto found = std::find_if(circles.begin(), circles.end(), [&](const SheetCircle& c) { return c.role == role; });
  return found == circles.end() ? nullptr : &*found;
}

std::optional<Spot> Scene::point(std::string_view role) const {
  const auto found = points.find(std::string(role));
  return found == points.end() ? std::nullopt : std::optional(found->second);
}

std::optional<double> Scene::ground() const {
  std::optional<double> lowest;
  for (const SheetCircle& circle : circles) {
    if (circle.role != "tyre") continue;
    const double bottom = circle.centre.y + circle.radius;
    lowest = lowest ? std::max(*lowest, bottom) : bottom;
  }
  return lowest;
}

Box Scene::extent() const {
  Box box{1e9, 1e9, -1e9, -1e9};
  const auto add = [&](Spot p, double around) {
    box = {std::min(box.left, p.x - around), std::min(box.top, p.y - around), std::max(box.right, p.x + around),
           std::max(box.bottom, p.y + around)};
  };
  for (const SheetTube& t : tubes) {
    add(t.a, t.size_a / 2);
    add(t.b, t.size_b / 2);
  }
  for (const SheetCircle& c : circles) add(c.centre, c.radius);
  for (const auto& [role, p] : points) add(p, 0);
  return box;
}

Scene scene_of(const model::Plan& plan, const Box& area) {
  Scene scene;
  scene.view = view_of(extent_of(plan), area);
  std::set<std::string> open_places;
  for (const model::OpenChoice& choice : plan.choices) open_places.insert(choice.place);
  for (const Shape& shape : plan.picture.shapes) {
    add_shape(shape, scene);
    if (open_places.contains(shape.id.substr(0, shape.id.find('.')))) scene.open_roles.insert(role_of(shape.id));
  }
  return scene;
}

void add_outlines(const Scene& scene, Obstacles& obstacles) {
  for (const SheetTube& t : scene.tubes) {
    if (t.end_on()) {
      obstacles.add_circle(t.a, t.size_a / 2, k_weight_circle);
      continue;
    }
    const Spot across = turned(unit(t.b - t.a));
    for (const double side : {-0.5, 0.5}) {
      obstacles.add_line(t.a + side * t.size_a * across, t.b + side * t.size_b * across, k_weight_tube);
    }
  }
  for (const SheetCircle& c : scene.circles) {
    obstacles.add_circle(c.centre, c.radius, k_weight_circle);
    if (c.role == "tyre") obstacles.add_busy(c.centre, c.radius);
  }
  if (const auto pedal = scene.point("pedal_right")) obstacles.add_line(scene.view({}), *pedal, k_weight_form);
  if (const auto ground = scene.ground()) {
    const Box extent = scene.extent();
    obstacles.add_line({extent.left, *ground}, {extent.right, *ground}, k_weight_tube);
  }
  for (const auto& [role, p] : scene.points) {
    const std::vector<Spot> corners = form_corners(role);
    for (std::size_t i = 0; i < corners.size(); ++i) {
      const auto on_sheet = [&](Spot mm) { return p + Spot{scene.view.px(mm.x), -scene.view.px(mm.y)}; };
      obstacles.add_line(on_sheet(corners[i]), on_sheet(corners[(i + 1) % corners.size()]), k_weight_form);
    }
  }
}

}  // namespace cotter::draw
