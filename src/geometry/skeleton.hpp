#pragma once
// From the numbers a frame sheet gives to named points and tube axes in space.
//
// Frame of reference: origin at the centre of the bottom bracket, x forward, y up, z to the rider's right; the wheels
// stand straight. Angles are between an axis and the level, at its rear side: 73 degrees is usual for head and seat
// tube. A number that is not known leaves out the points and tubes that need it; nothing is filled in.

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "quantity/amount.hpp"

namespace cotter::geometry {

struct Point3 {
  quantity::Length x, y, z;
  bool operator==(const Point3&) const = default;
};

struct Axis {
  Point3 start, end;
  bool operator==(const Axis&) const = default;
};

/// What is known of a bicycle's shape. Names ending in `_offset` are taken along the head tube.
struct FrameNumbers {
  using Length = std::optional<quantity::Length>;
  using Angle = std::optional<quantity::Angle>;
  Length stack, reach;  ///< bottom bracket to the middle of the head tube's upper end, plumb and level
  Angle head_tube_angle, seat_tube_angle;
  Length chainstay;            ///< bottom bracket to rear axle, in the side view
  Length bottom_bracket_drop;  ///< how far the bottom bracket lies below the axles; negative above
  Length head_tube_length;
  Length seat_tube_length;    ///< bottom bracket to the upper end, along the tube
  Length top_tube_rise;       ///< front end of the top tube's axis above its rear end
  Length top_tube_offset;     ///< upper end of the head tube down to the top tube's axis
  Length down_tube_offset;    ///< lower end of the head tube up to the down tube's axis
  Length top_tube_diameter;   ///< stands in for the offset: the tube is then flush with the end
  Length down_tube_diameter;  ///< likewise
  Length shell_width;
  Length rear_axle_width, front_axle_width;  ///< between the inner faces of the dropouts
  Length lower_stack;                        ///< what the lower bearing adds between head tube and crown
  Length axle_to_crown;                      ///< in the side view, from the front axle to the crown seat
  Length fork_offset;                        ///< front axle in front of the steering axis, square to it
  Length rim_diameter;                       ///< bead seat
  Length tyre_width;                         ///< taken for the tyre's height too
  Length cover, spacers, stem_height;        ///< between head tube and stem; clamp height of the stem on the steerer
  Length stem_length;
  Angle stem_angle;  ///< against the square to the steering axis; negative points down
  Length bar_reach, bar_drop, bar_width;
  Length saddle_height;     ///< bottom bracket to the top of the saddle, along the seat tube
  Length saddle_stack;      ///< saddle rails to the top of the saddle
  Length seatpost_setback;  ///< rails behind the seat tube's axis, square to it
  Length crank_length;
};

/// Named points and tubes; the names are those of docs/formats.md. Besides: points `front_contact`, `rear_contact`
/// (tyre on the ground) and `steering_ground` (steering axis on the ground), tubes `cover`, `spacers` and `stem_clamp`
/// (the stack on the steerer), `crank`.
///
/// Tubes start at the end nearer the head tube: head tube, seat tube and steerer at the top, stays in front, blades at
/// the crown, seatpost at the saddle clamp (to the end of the seat tube), stem at the steerer, bar at the left.
/// Stays spread from half the shell (seat stays: from the seat tube's axis) to half the axle width; blades are
/// parallel. `pedal_right` and `crank` show a crank 45 degrees below the level in front, and lie in the centre plane:
/// how far out a pedal sits is no part of the skeleton. Bar ends lie under the bar's clamp by the drop, hoods ahead of
/// it by the reach; both at half the bar's width.
struct Skeleton {
  std::map<std::string, Point3> points;
  std::map<std::string, Axis> tubes;
};

/// **Method** plane trigonometry; with a = head tube angle, d = head tube + lower stack + sqrt(axle to crown² -
/// offset²): front axle = (reach + d cos a + offset sin a, stack - d sin a + offset cos a); bar = head tube's upper
/// end, up the axis by cover + spacers + half the stem's height, then forward by the stem's length at 90° - a + stem
/// angle.
/// **Accuracy** each coordinate is rounded to whole micrometres. **Valid for** straight tubes; a bent stay is its
/// chord.
Skeleton skeleton_from(const FrameNumbers& numbers);

enum class End { start, end };

/// Sides of a tube: left and right along z, the others in the side view, square to the axis. On a plumb tube top and
/// back fall together, on a level one front and top. `end` is the middle of the tube's end.
enum class Side { left, right, top, bottom, front, back, end };
std::optional<Side> side_from(std::string_view word);

/// The point of the axis `distance` from one of its ends, to whole micrometres. A distance beyond the other end goes on
/// along the same straight line. The axis must have a length.
Point3 at(const Axis& axis, End from, quantity::Length distance);

/// The point of the tube's skin at that distance.
Point3 on_surface(const Axis& axis, End from, quantity::Length distance, Side side, quantity::Length radius);

}  // namespace cotter::geometry
