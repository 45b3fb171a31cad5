#pragma once
// The plan's picture brought onto the sheet: one scale for everything, shapes found by the last word of their id.

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "draw/obstacles.hpp"
#include "draw/plane.hpp"
#include "model/plan.hpp"

namespace cotter::draw {

/// From the plan's micrometres to the sheet.
class View {
 public:
  View() = default;
  View(double scale, Spot origin) : scale_(scale), origin_(origin) {}
  Spot operator()(const model::PlanPoint& p) const;
  /// Pixels for so many micrometres.
  double size(std::int64_t micrometres) const { return static_cast<double>(micrometres) / 1000.0 * scale_; }
  double px(double millimetres) const { return millimetres * scale_; }
  /// Pixels for a millimetre.
  double scale() const { return scale_; }

 private:
  double scale_ = 0.4;
  Spot origin_;
};

/// A straight tube seen from the side; `size` is the width on the sheet.
struct SheetTube {
  const model::Shape* shape = nullptr;
  std::string role;
  Spot a, b;
  double size_a = 0, size_b = 0;
  /// Seen from its end: a bar, the shell.
  bool end_on() const { return length_of(b - a) < 1; }
};

struct SheetCircle {
  const model::Shape* shape = nullptr;
  std::string role;
  Spot centre;
  double radius = 0;
};

struct Scene {
  View view;
  std::vector<SheetTube> tubes;
  std::vector<SheetCircle> circles;
  std::map<std::string, Spot> points;  ///< by role
  std::vector<const model::Shape*> axes;
  std::set<std::string> open_roles;  ///< points and shapes that belong to a place still open
  bool empty() const { return tubes.empty() && circles.empty(); }

  const SheetTube* tube(std::string_view role) const;
  const SheetCircle* circle(std::string_view role) const;
  std::optional<Spot> point(std::string_view role) const;
  /// Lowest point of the tyres.
  std::optional<double> ground() const;
  /// Left and right end of what is drawn.
  Box extent() const;
};

/// The scale in full, as a decimal.
std::string scale_text(const View& view);

/// What follows the last dot of an id.
std::string role_of(std::string_view id);

/// Everything in `area`, as large as a scale of whole thousandths of a pixel for a millimetre permits, in its middle.
Scene scene_of(const model::Plan& plan, const Box& area);

/// The outlines, as what lettering should keep clear of.
void add_outlines(const Scene& scene, Obstacles& obstacles);

}  // namespace cotter::draw
