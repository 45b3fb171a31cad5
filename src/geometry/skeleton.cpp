#include "geometry/skeleton.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "quantity/ensure.hpp"

namespace cotter::geometry {
namespace {

using quantity::in_millimetres;
using quantity::Length;

constexpr quantity::Angle k_flattest = quantity::microdegrees(10'000'000);

/// A point or a direction in the side view, millimetres.
struct Plane {
  double x = 0, y = 0;
  friend Plane operator+(Plane a, Plane b) { return {a.x + b.x, a.y + b.y}; }
  friend Plane operator*(double k, Plane a) { return {k * a.x, k * a.y}; }
};

Length whole_micrometres(double millimetres) {
  return quantity::micrometres(std::llround(millimetres * 1000.0));
}
Point3 place(Plane p, double z = 0) {
  return {whole_micrometres(p.x), whole_micrometres(p.y), whole_micrometres(z)};
}
double radians(quantity::Angle angle) {
  return quantity::in_degrees(angle) * std::numbers::pi / 180.0;
}
/// Up and back along an axis that leans back by `angle` from the level.
Plane up_along(quantity::Angle angle) {
  return {-std::cos(radians(angle)), std::sin(radians(angle))};
}
/// Steep enough that lines along it meet the ground and the top tube at all.
bool upright(quantity::Angle angle) {
  return angle >= k_flattest && angle <= quantity::microdegrees(180'000'000) - k_flattest;
}
double half(Length length) {
  return in_millimetres(length) / 2;
}

std::optional<double> offset_or_flush(const FrameNumbers::Length& offset, const FrameNumbers::Length& diameter) {
  if (offset) return in_millimetres(*offset);
  if (diameter) return half(*diameter);
  return std::nullopt;
}

class Builder {
 public:
  explicit Builder(const FrameNumbers& numbers) : n_(numbers) {}

  Skeleton build() {
    result_.points["bottom_bracket"] = Point3{};
    if (n_.shell_width) tube("shell", place({}, -half(*n_.shell_width)), place({}, half(*n_.shell_width)));
    rear_end();
    head();
    fork();
    seat_tube();
    main_tubes();
    seat_stays();
    ground();
    steering_stack();
    bar();
    saddle();
    crank();
    return std::move(result_);
  }

 private:
  void point(const char* name, Point3 where) { result_.points[name] = where; }
  void tube(const char* name, Point3 start, Point3 end) {
    if (start != end) result_.tubes[name] = {start, end};
  }

  void rear_end() {
    if (!n_.chainstay || !n_.bottom_bracket_drop) return;
    const double stay = in_millimetres(*n_.chainstay), drop = in_millimetres(*n_.bottom_bracket_drop);
    if (stay <= std::abs(drop)) return;
    rear_axle_ = Plane{-std::sqrt(stay * stay - drop * drop), drop};
    point("rear_axle", place(*rear_axle_));
    if (!n_.shell_width || !n_.rear_axle_width) return;
    const double front = half(*n_.shell_width), rear = half(*n_.rear_axle_width);
    tube("chainstay_left", place({}, -front), place(*rear_axle_, -rear));
    tube("chainstay_right", place({}, front), place(*rear_axle_, rear));
  }

  void head() {
    if (!n_.stack || !n_.reach) return;
    head_top_ = Plane{in_millimetres(*n_.reach), in_millimetres(*n_.stack)};
    point("head_top", place(*head_top_));
    if (!n_.head_tube_angle || !upright(*n_.head_tube_angle)) return;
    head_up_ = up_along(*n_.head_tube_angle);
    if (!n_.head_tube_length) return;
    head_bottom_ = *head_top_ + -in_millimetres(*n_.head_tube_length) * head_up_;
    point("head_bottom", place(*head_bottom_));
    tube("head_tube", place(*head_top_), place(*head_bottom_));
  }

  void fork() {
    if (!head_bottom_ || !n_.lower_stack) return;
    crown_ = *head_bottom_ + -in_millimetres(*n_.lower_stack) * head_up_;
    point("crown", place(*crown_));
    if (!n_.axle_to_crown || !n_.fork_offset) return;
    const double length = in_millimetres(*n_.axle_to_crown), offset = in_millimetres(*n_.fork_offset);
    if (length <= std::abs(offset)) return;
    const Plane forward{head_up_.y, -head_up_.x};
    front_axle_ = *crown_ + -std::sqrt(length * length - offset * offset) * head_up_ + offset * forward;
    point("front_axle", place(*front_axle_));
    if (!n_.front_axle_width) return;
    const double side = half(*n_.front_axle_width);
    tube("fork_blade_left", place(*crown_, -side), place(*front_axle_, -side));
    tube("fork_blade_right", place(*crown_, side), place(*front_axle_, side));
  }

  void seat_tube() {
    if (!n_.seat_tube_angle || !upright(*n_.seat_tube_angle)) return;
    seat_up_ = up_along(*n_.seat_tube_angle);
    if (!n_.seat_tube_length) return;
    seat_top_ = in_millimetres(*n_.seat_tube_length) * *seat_up_;
    point("seat_top", place(*seat_top_));
    tube("seat_tube", place(*seat_top_), Point3{});
  }

  void main_tubes() {
    if (!head_bottom_) return;
    if (const auto up = offset_or_flush(n_.down_tube_offset, n_.down_tube_diameter)) {
      tube("down_tube", place(*head_bottom_ + *up * head_up_), Point3{});
    }
    const auto down = offset_or_flush(n_.top_tube_offset, n_.top_tube_diameter);
    if (!down || !n_.top_tube_rise || !seat_up_) return;
    const Plane front = *head_top_ + -*down * head_up_;
    const double height = front.y - in_millimetres(*n_.top_tube_rise);
    seat_cluster_ = (height / seat_up_->y) * *seat_up_;
    point("seat_cluster", place(*seat_cluster_));
    tube("top_tube", place(front), place(*seat_cluster_));
  }

  void seat_stays() {
    if (!seat_cluster_ || !rear_axle_ || !n_.rear_axle_width) return;
    const double side = half(*n_.rear_axle_width);
    tube("seatstay_left", place(*seat_cluster_), place(*rear_axle_, -side));
    tube("seatstay_right", place(*seat_cluster_), place(*rear_axle_, side));
  }

  void ground() {
    if (!n_.rim_diameter || !n_.tyre_width) return;
    const double radius = half(*n_.rim_diameter) + in_millimetres(*n_.tyre_width);
    if (rear_axle_) point("rear_contact", place(*rear_axle_ + Plane{0, -radius}));
    if (!front_axle_) return;
    const double level = front_axle_->y - radius;
    point("front_contact", place({front_axle_->x, level}));
    const double along = (level - head_top_->y) / head_up_.y;
    point("steering_ground", place(*head_top_ + along * head_up_));
  }

  void steering_stack() {
    if (!head_bottom_ || !n_.cover || !n_.spacers || !n_.stem_height) return;
    const double cover = in_millimetres(*n_.cover), spacers = in_millimetres(*n_.spacers);
    const double clamp = in_millimetres(*n_.stem_height);
    const auto up = [&](double distance) { return *head_top_ + distance * head_up_; };
    stem_at_ = up(cover + spacers + clamp / 2);
    point("stem_clamp", place(*stem_at_));
    if (cover > 0) tube("cover", place(up(cover)), place(up(0)));
    if (spacers > 0) tube("spacers", place(up(cover + spacers)), place(up(cover)));
    tube("stem_clamp", place(up(cover + spacers + clamp)), place(up(cover + spacers)));
    if (crown_) tube("steerer", place(up(cover + spacers + clamp)), place(*crown_));
  }

  void bar() {
    if (!stem_at_ || !n_.stem_length || !n_.stem_angle) return;
    const double rise = std::numbers::pi / 2 - radians(*n_.head_tube_angle) + radians(*n_.stem_angle);
    const Plane centre = *stem_at_ + in_millimetres(*n_.stem_length) * Plane{std::cos(rise), std::sin(rise)};
    point("bar_centre", place(centre));
    tube("stem", place(*stem_at_), place(centre));
    if (!n_.bar_width) return;
    const double side = half(*n_.bar_width);
    tube("bar", place(centre, -side), place(centre, side));
    if (!n_.bar_reach || !n_.bar_drop) return;
    const Plane hood = centre + Plane{in_millimetres(*n_.bar_reach), 0};
    const Plane low = centre + Plane{0, -in_millimetres(*n_.bar_drop)};
    point("hood_left", place(hood, -side));
    point("hood_right", place(hood, side));
    point("bar_end_left", place(low, -side));
    point("bar_end_right", place(low, side));
  }

  void saddle() {
    if (!seat_up_ || !n_.saddle_height) return;
    const double height = in_millimetres(*n_.saddle_height);
    point("saddle", place(height * *seat_up_));
    if (!seat_top_ || !n_.saddle_stack || !n_.seatpost_setback) return;
    const Plane back{-seat_up_->y, seat_up_->x};
    const Plane rails =
        (height - in_millimetres(*n_.saddle_stack)) * *seat_up_ + in_millimetres(*n_.seatpost_setback) * back;
    tube("seatpost", place(rails), place(*seat_top_));
  }

  void crank() {
    if (!n_.crank_length) return;
    const double part = in_millimetres(*n_.crank_length) * std::numbers::sqrt2 / 2;
    const Point3 pedal = place({part, -part});
    point("pedal_right", pedal);
    tube("crank", Point3{}, pedal);
  }

  const FrameNumbers& n_;
  Skeleton result_;
  Plane head_up_;
  std::optional<Plane> rear_axle_, head_top_, head_bottom_, crown_, front_axle_, seat_up_, seat_top_, seat_cluster_,
      stem_at_;
};

/// Direction of an axis, length 1.
struct Direction {
  double x, y, z;
};
Direction direction_of(const Axis& axis) {
  const double x = in_millimetres(axis.end.x - axis.start.x), y = in_millimetres(axis.end.y - axis.start.y),
               z = in_millimetres(axis.end.z - axis.start.z);
  const double length = std::hypot(x, y, z);
  quantity::ensure(length > 0, "a tube axis without length");
  return {x / length, y / length, z / length};
}

/// Square to the axis in the side view, on the side asked for.
Plane normal_towards(const Direction& along, Side side) {
  const double flat = std::hypot(along.x, along.y);
  const bool upward = side == Side::top || side == Side::bottom;
  const double sign = side == Side::bottom || side == Side::back ? -1.0 : 1.0;
  if (flat < 1e-9) return upward ? Plane{0, sign} : Plane{sign, 0};
  const Plane normal{-along.y / flat, along.x / flat};
  const double deciding = upward ? normal.y : normal.x, other = upward ? -normal.x : normal.y;
  const bool already = deciding > 1e-9 || (deciding > -1e-9 && other > 0);
  return (already ? sign : -sign) * normal;
}

Point3 moved(const Point3& p, double x, double y, double z) {
  return {p.x + whole_micrometres(x), p.y + whole_micrometres(y), p.z + whole_micrometres(z)};
}

}  // namespace

Skeleton skeleton_from(const FrameNumbers& numbers) {
  return Builder(numbers).build();
}

std::optional<Side> side_from(std::string_view word) {
  static constexpr std::array<std::pair<std::string_view, Side>, 7> k_words{{{"left", Side::left},
                                                                             {"right", Side::right},
                                                                             {"top", Side::top},
                                                                             {"bottom", Side::bottom},
                                                                             {"front", Side::front},
                                                                             {"back", Side::back},
                                                                             {"end", Side::end}}};
  for (const auto& [name, side] : k_words) {
    if (name == word) return side;
  }
  return std::nullopt;
}

Point3 at(const Axis& axis, End from, Length distance) {
  const Direction along = direction_of(axis);
  const double d = in_millimetres(distance) * (from == End::start ? 1.0 : -1.0);
  return moved(from == End::start ? axis.start : axis.end, d * along.x, d * along.y, d * along.z);
}

Point3 on_surface(const Axis& axis, End from, Length distance, Side side, Length radius) {
  const Point3 middle = at(axis, from, distance);
  if (side == Side::end) return middle;
  if (side == Side::left) return {middle.x, middle.y, middle.z - radius};
  if (side == Side::right) return {middle.x, middle.y, middle.z + radius};
  const Plane normal = in_millimetres(radius) * normal_towards(direction_of(axis), side);
  return moved(middle, normal.x, normal.y, 0);
}

}  // namespace cotter::geometry
