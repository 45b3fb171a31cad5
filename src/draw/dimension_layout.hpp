#pragma once
// Where each dimension line goes: every dimension tries lines on both sides of what it measures and takes the clearest.

#include <string>
#include <vector>

#include "draw/scene.hpp"
#include "draw/style.hpp"

namespace cotter::draw {

/// A level line spans the difference in x, a plumb one in y, one along spans the distance itself.
enum class Span { level, plumb, along, angle };

struct DimensionLayout {
  const model::DrawnDimension* dimension = nullptr;
  Span span = Span::along;
  Spot a, b;          ///< what is measured; of an angle: its apex and a point of its leg
  Spot from, to;      ///< ends of the dimension line; of an angle: its apex and the arc's end on the leg
  double radius = 0;  ///< of an angle's arc
  Spot level_end;     ///< arc's end on the level leg
  Spot text_at;       ///< middle of the lettering
  Spot text_along{1, 0};
  std::string text;
  double text_width = 0;
  bool arrows_outside = false;
  bool to_scale = true;
};

/// Value as it stands on the drawing: brackets when it follows from others, ≈ when assumed, ? when unknown. Rounded to
/// a tenth of a millimetre or of a degree.
std::string dimension_text(const model::DrawnDimension& dimension, const quantity::NumberStyle& numbers);

/// Level, plumb or along: whichever span of the two points agrees best with the value.
Span direction_of(const model::DrawnDimension& dimension);

/// All dimensions of the picture, angles first, then the shorter before the longer so that they lie nearer. Enters
/// lines and lettering among the obstacles.
std::vector<DimensionLayout> lay_out_dimensions(const model::Plan& plan, const Scene& scene, const Style& style,
                                                Obstacles& obstacles);

inline constexpr double k_dimension_size = 17;
inline constexpr double k_arrow = 10;
inline constexpr double k_outside_tail = 18;  ///< px of line outside the arrows that do not fit between
inline constexpr double k_beyond_line = 4;    ///< px an extension line passes the dimension line
inline constexpr double k_off_point = 3;      ///< px between a point and its extension line

}  // namespace cotter::draw
