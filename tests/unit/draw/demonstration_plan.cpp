#include "demonstration_plan.hpp"

#include <cmath>

namespace cotter::draw::test {
namespace {

using geometry::Axis;
using geometry::End;
using geometry::Point3;
using geometry::Side;
using geometry::Skeleton;
using model::PlanPoint;
using model::Shape;
using quantity::Dimension;
using quantity::microdegrees;
using quantity::millimetres;
using quantity::OriginKind;

struct TubeSize {
  const char* id;
  const char* tube;
  std::int64_t diameter_mm, end_mm;
};
constexpr TubeSize k_tubes[] = {
    {"frame.head_tube", "head_tube", 46, 46},
    {"frame.top_tube", "top_tube", 35, 35},
    {"frame.down_tube", "down_tube", 45, 45},
    {"frame.seat_tube", "seat_tube", 34, 34},
    {"frame.chainstay_left", "chainstay_left", 30, 18},
    {"frame.chainstay_right", "chainstay_right", 30, 18},
    {"frame.seatstay_left", "seatstay_left", 16, 14},
    {"frame.seatstay_right", "seatstay_right", 16, 14},
    {"frame.shell", "shell", 50, 50},
    {"fork.steerer", "steerer", 29, 29},
    {"fork.fork_blade_left", "fork_blade_left", 44, 20},
    {"fork.fork_blade_right", "fork_blade_right", 44, 20},
    {"headset.cover", "cover", 42, 40},
    {"spacers.spacers", "spacers", 36, 36},
    {"stem.stem", "stem", 32, 32},
    {"stem.stem_clamp", "stem_clamp", 38, 38},
    {"seatpost.seatpost", "seatpost", 27, 27},
    {"bar.bar", "bar", 32, 24},
};

void add_tubes(const Skeleton& skeleton, model::Picture& picture) {
  for (const TubeSize& t : k_tubes) {
    const auto axis = skeleton.tubes.find(t.tube);
    if (axis == skeleton.tubes.end()) continue;
    picture.shapes.push_back({Shape::Kind::tube,
                              t.id,
                              {plan_point(axis->second.start), plan_point(axis->second.end)},
                              t.diameter_mm * 1000,
                              t.end_mm * 1000});
  }
}

void add_circles(const Skeleton& skeleton, model::Picture& picture) {
  const auto circle = [&](const char* id, const char* point, std::int64_t diameter_mm) {
    picture.shapes.push_back({Shape::Kind::circle, id, {plan_point(skeleton.points.at(point))}, diameter_mm * 1000, 0});
  };
  circle("rear_wheel.tyre", "rear_axle", 702);
  circle("rear_wheel.rim", "rear_axle", 622);
  circle("front_wheel.tyre", "front_axle", 702);
  circle("front_wheel.rim", "front_axle", 622);
  circle("rear_rotor.rotor", "rear_axle", 160);
  circle("front_rotor.rotor", "front_axle", 160);
  circle("cassette.sprocket", "rear_axle", 70);
  circle("crankset.ring", "bottom_bracket", 170);
}

void add_points(const Skeleton& skeleton, model::Picture& picture) {
  for (const auto& [name, p] : skeleton.points) {
    picture.shapes.push_back(
        {Shape::Kind::point, name == "saddle" ? "saddle.saddle" : "skeleton." + name, {plan_point(p)}, 0, 0});
  }
}

class Dimensions {
 public:
  Dimensions(const Skeleton& skeleton, model::Picture& picture) : skeleton_(skeleton), picture_(picture) {}

  void length(const char* name, quantity::Length amount, const char* a, const char* b,
              OriginKind kind = OriginKind::maker) {
    add(name, value_of(Dimension::length, amount.base(), kind), point(a), point(b), false);
  }
  void derived(const char* name, char span, const char* a, const char* b) {
    const PlanPoint from = point(a), to = point(b);
    const auto dx = static_cast<double>(to.x - from.x), dy = static_cast<double>(to.y - from.y);
    const double um = span == 'x' ? std::abs(dx) : span == 'y' ? std::abs(dy) : std::hypot(dx, dy);
    add(name, value_of(Dimension::length, std::llround(um * 1000), OriginKind::maker), from, to, true);
  }
  void angle(const char* name, quantity::Angle amount, const char* apex, const char* leg) {
    add(name, value_of(Dimension::angle, amount.base(), OriginKind::maker), point(apex), point(leg), false);
  }

 private:
  PlanPoint point(const char* name) const { return plan_point(skeleton_.points.at(name)); }
  void add(const char* name, quantity::Value value, PlanPoint a, PlanPoint b, bool derived) {
    picture_.dimensions.push_back({std::string("frame.geometry.") + name, name, std::move(value), a, b, derived});
  }
  const Skeleton& skeleton_;
  model::Picture& picture_;
};

model::Picture picture_of(const Skeleton& skeleton, const geometry::FrameNumbers& n) {
  model::Picture picture;
  add_tubes(skeleton, picture);
  add_circles(skeleton, picture);
  add_points(skeleton, picture);
  Dimensions d(skeleton, picture);
  d.length("stack", *n.stack, "bottom_bracket", "head_top");
  d.length("reach", *n.reach, "bottom_bracket", "head_top");
  d.length("seat_tube_length", *n.seat_tube_length, "bottom_bracket", "seat_top");
  d.length("chainstay", *n.chainstay, "bottom_bracket", "rear_axle", OriginKind::measured);
  d.length("bottom_bracket_drop", *n.bottom_bracket_drop, "bottom_bracket", "rear_axle");
  d.length("head_tube_length", *n.head_tube_length, "head_top", "head_bottom", OriginKind::assumed);
  d.length("crank_length", *n.crank_length, "bottom_bracket", "pedal_right");
  d.length("saddle_height", *n.saddle_height, "bottom_bracket", "saddle", OriginKind::unknown);
  d.derived("wheelbase", 'x', "rear_axle", "front_axle");
  d.derived("front_centre", 'a', "bottom_bracket", "front_axle");
  d.derived("trail", 'x', "front_contact", "steering_ground");
  d.derived("bar_height", 'y', "bar_centre", "saddle");
  d.angle("head_tube_angle", *n.head_tube_angle, "steering_ground", "head_bottom");
  d.angle("seat_tube_angle", *n.seat_tube_angle, "seat_top", "saddle");
  for (const auto& [place, name] : {std::pair{"frame", "bottom_bracket"},
                                    {"crankset", "bottom_bracket"},
                                    {"rear_wheel", "rear_contact"},
                                    {"fork", "crown"},
                                    {"rear_derailleur", "rear_axle"},
                                    {"front_caliper", "front_axle"},
                                    {"seatpost", "seat_top"},
                                    {"stem", "stem_clamp"}}) {
    picture.anchors[place] = plan_point(skeleton.points.at(name));
  }
  return picture;
}

struct Hole {
  const char *id, *tube;
  End from;
  int distance_mm;
  Side side;
  const char* side_word;
  int radius_mm;
};
constexpr Hole k_holes[] = {
    {"frame.port_left", "down_tube", End::start, 90, Side::left, "left", 22},
    {"fork.entry", "fork_blade_left", End::start, 20, Side::front, "front", 20},
    {"fork.exit", "fork_blade_left", End::end, 70, Side::left, "left", 10},
    {"frame.stay_exit", "chainstay_left", End::end, 90, Side::left, "left", 9},
    {"frame.dropout_exit", "chainstay_right", End::end, 25, Side::right, "right", 9},
    {"frame.port_right", "down_tube", End::start, 90, Side::right, "right", 22},
    {"frame.port_top", "top_tube", End::start, 60, Side::top, "top", 17},
    {"frame.stop_top", "top_tube", End::end, 60, Side::bottom, "bottom", 17},
    {"frame.seat_tube_left", "seat_tube", End::start, 160, Side::left, "left", 17},
    {"frame.charge_port", "seat_tube", End::end, 90, Side::back, "back", 17},
    {"frame.down_tube_low", "down_tube", End::end, 90, Side::bottom, "bottom", 22},
    {"frame.seatstay_exit", "seatstay_left", End::end, 140, Side::left, "left", 7},
    {"frame.shell_drain", "seat_tube", End::end, 30, Side::front, "front", 17},
    {"stem.entry", "stem", End::end, 30, Side::bottom, "bottom", 16},
};
constexpr std::string_view k_letters = "abcdefghjklmnp";

void add_openings(const Skeleton& skeleton, std::size_t count, model::Plan& plan) {
  for (std::size_t i = 0; i < count; ++i) {
    const Hole& hole = k_holes[i];
    model::OpeningUse use;
    use.opening = hole.id;
    use.label = hole.id;
    use.letter = k_letters.substr(i, 1);
    use.shape.width = value_of(Dimension::length, 6'500'000, OriginKind::maker);
    use.shape.length = use.shape.width;
    use.side = hole.side_word;
    use.at = plan_point(geometry::on_surface(skeleton.tubes.at(hole.tube), hole.from, millimetres(hole.distance_mm),
                                             hole.side, millimetres(hole.radius_mm)));
    plan.openings.push_back(std::move(use));
  }
}

struct Way {
  const char *line, *label;
  model::LineForm::Kind kind;
  std::int64_t length, way;
  std::vector<PlanPoint> path;
  std::vector<bool> inside;
};

void add_run(model::Plan& plan, Way way) {
  model::Run run;
  run.line = way.line;
  run.number = "L" + std::to_string(plan.runs.size() + 1);
  run.label = way.label;
  run.kind = way.kind;
  run.length = way.length;
  run.way = way.way;
  run.path = std::move(way.path);
  run.inside = std::move(way.inside);
  plan.runs.push_back(std::move(run));
}

PlanPoint moved(PlanPoint p, std::int64_t x_mm, std::int64_t y_mm) {
  return {p.x + x_mm * 1000, p.y + y_mm * 1000, p.z};
}

void add_runs(const Skeleton& skeleton, model::Plan& plan) {
  using Kind = model::LineForm::Kind;
  const auto point = [&](const char* name) { return plan_point(skeleton.points.at(name)); };
  const auto hole = [&](std::size_t i) { return plan.openings[i].at; };
  const PlanPoint hood = point("hood_left"), shell = point("bottom_bracket"), rear = point("rear_axle");
  add_run(plan, {"front_brake",
                 "front brake hose",
                 Kind::hose,
                 960,
                 905,
                 {hood, moved(point("bar_centre"), 40, -60), hole(1), hole(2), moved(point("front_axle"), -40, 60)},
                 {false, false, true, false}});
  add_run(plan, {"rear_brake",
                 "rear brake hose",
                 Kind::hose,
                 1690,
                 1622,
                 {hood, moved(point("bar_centre"), 20, -80), hole(0), shell, hole(3), moved(rear, 20, 70)},
                 {false, false, true, true, false}});
  add_run(plan, {"main_wire",
                 "main wire",
                 Kind::wire,
                 1250,
                 1180,
                 {moved(point("bar_centre"), 10, -20), hole(0), shell, hole(4), moved(rear, 15, -50)},
                 {false, true, true, false}});
  add_run(plan, {"battery_wire",
                 "battery wire",
                 Kind::wire,
                 420,
                 0,
                 {shell, plan_point(geometry::at(skeleton.tubes.at("seat_tube"), End::start, millimetres(150)))},
                 {true}});
}

void add_finding(model::Plan& plan, model::Verdict verdict, const char* place, const char* interface, const char* label,
                 const char* number) {
  model::Finding finding;
  finding.verdict = verdict;
  finding.id = std::string("rule_") + std::to_string(plan.findings.size()) + "@" + place + "." + interface;
  finding.rule_label = label;
  finding.about = {{place, interface}};
  finding.facts = {{"number", number}};
  plan.findings.push_back(std::move(finding));
}

void add_findings(model::Plan& plan) {
  using model::Verdict;
  add_finding(plan, Verdict::stop, "frame", "stay_exit",
              "Hose end L2 is 6.1, opening d is 5.6. Enlarging is not permitted by the frame maker's paper.",
              "0.5 mm too large");
  add_finding(plan, Verdict::rework, "frame", "shell_right",
              "Shell faces out of square. Face both ends, then measure again.", "0.12, limit 0.05");
  add_finding(plan, Verdict::measure, "crankset", "spindle",
              "Shell width is assumed. Measure with calipers at three places.", "decides 4");
  add_finding(plan, Verdict::measure, "seatpost", "post", "Depth of the seat tube under the battery is not known.",
              "145 to 180");
  add_finding(plan, Verdict::add, "front_caliper", "mount",
              "Front caliper on this mount needs a 20 mm adapter for the 160 rotor.", "1 part");
  add_finding(plan, Verdict::accept, "rear_derailleur", "chain",
              "Chain angle on the largest sprocket. Common practice is 2.5°.", "2.9°, limit 3.2°");
  for (int i = 0; i < 118; ++i) add_finding(plan, Verdict::ok, "rear_wheel", "tyre", "Tyre to stay.", "7.2, needs 6.0");
}

model::Plan bare_plan(const geometry::FrameNumbers& numbers, std::size_t openings) {
  model::Plan plan;
  const Skeleton skeleton = geometry::skeleton_from(numbers);
  plan.picture = picture_of(skeleton, numbers);
  plan.shop = "Workshop at the Weir";
  plan.title = "All-road, steel, 56";
  plan.note = "A scenario of our own; no such bicycle exists.";
  plan.job = "all_road_demonstration";
  plan.revision = "C";
  add_openings(skeleton, openings, plan);
  add_runs(skeleton, plan);
  return plan;
}

}  // namespace

PlanPoint plan_point(const Point3& p) {
  return {p.x.base() / 1000, p.y.base() / 1000, p.z.base() / 1000};
}

quantity::Value value_of(Dimension dimension, std::int64_t nominal, OriginKind kind) {
  quantity::Value value;
  value.dimension = dimension;
  value.nominal = nominal;
  value.origin.kind = kind;
  return value;
}

geometry::FrameNumbers demonstration_numbers() {
  geometry::FrameNumbers n;
  n.stack = millimetres(585);
  n.reach = millimetres(385);
  n.head_tube_angle = microdegrees(71'500'000);
  n.seat_tube_angle = microdegrees(73'500'000);
  n.chainstay = millimetres(430);
  n.bottom_bracket_drop = millimetres(72);
  n.head_tube_length = millimetres(150);
  n.seat_tube_length = millimetres(530);
  n.top_tube_rise = millimetres(85);
  n.top_tube_diameter = millimetres(40);
  n.down_tube_diameter = millimetres(60);
  n.shell_width = millimetres(68);
  n.rear_axle_width = millimetres(142);
  n.front_axle_width = millimetres(100);
  n.lower_stack = millimetres(8);
  n.axle_to_crown = quantity::micrometres(402'600);
  n.fork_offset = millimetres(48);
  n.rim_diameter = millimetres(622);
  n.tyre_width = millimetres(40);
  n.cover = millimetres(8);
  n.spacers = millimetres(15);
  n.stem_height = millimetres(40);
  n.stem_length = millimetres(90);
  n.stem_angle = microdegrees(-6'000'000);
  n.bar_reach = millimetres(75);
  n.bar_drop = millimetres(120);
  n.bar_width = millimetres(440);
  n.saddle_height = millimetres(735);
  n.saddle_stack = millimetres(45);
  n.seatpost_setback = millimetres(15);
  n.crank_length = quantity::micrometres(172'500);
  return n;
}

model::Plan plan_from(const geometry::FrameNumbers& numbers) {
  return bare_plan(numbers, 5);
}

model::Plan demonstration_plan() {
  model::Plan plan = plan_from(demonstration_numbers());
  add_findings(plan);
  return plan;
}

model::Plan crowded_plan() {
  using Kind = model::LineForm::Kind;
  using model::Verdict;
  model::Plan plan = bare_plan(demonstration_numbers(), 14);
  const auto hole = [&](std::size_t i) { return plan.openings[i].at; };
  add_run(plan, {"rear_shift",
                 "rear derailleur cable in a continuous outer casing",
                 Kind::housing,
                 1840,
                 1790,
                 {moved(hole(13), 40, 20), hole(5), hole(10), moved(hole(4), -20, -30)},
                 {false, true, false}});
  add_run(plan, {"front_shift",
                 "front derailleur cable, bare under the shell",
                 Kind::housing,
                 0,
                 1120,
                 {moved(hole(13), 60, 10), hole(5), hole(10), moved(hole(9), -10, 60)},
                 {false, true, false}});
  add_findings(plan);
  add_finding(
      plan, Verdict::stop, "stem", "clamp",
      "The clamp of the stem is 31.8 and the bar 35.0; there is no shim that makes a bar thinner, so one of the "
      "two has to be another one before anything else is ordered.",
      "31.8 mm against 35.0 mm");
  add_finding(
      plan, Verdict::measure, "fork", "crown_seat",
      "Crown seat: measure with an outside micrometer in two directions at right angles before pressing the race.",
      "26.40 to 26.52, needs 26.43 to 26.50 mm");
  plan.title = "Long-distance bicycle for two seasons on unpaved roads, steel, 56, third revision";
  plan.note = "A note that is far longer than the line it has to stand on, to see what happens then.";
  plan.job = "long_distance_bicycle_for_the_north_road_0117";
  plan.choices = {{"saddle", "saddle", "41", "fit the saddle"}};
  return plan;
}

}  // namespace cotter::draw::test
