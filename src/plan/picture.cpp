#include "plan/picture.hpp"

#include <array>
#include <cmath>
#include <string_view>

#include "plan/skeleton.hpp"

namespace cotter::plan {
namespace {

using model::Shape;

struct TubeForm {
  std::string_view place;
  std::string_view tube;
  std::int64_t width_mm;      ///< outline where no part states a diameter: usual sizes, for the picture only
  std::int64_t width_end_mm;  ///< width at the far end; 0: as at the start
};

constexpr std::array k_tubes = std::to_array<TubeForm>({
    {"frame", "head_tube", 46, 0},
    {"frame", "top_tube", 35, 0},
    {"frame", "down_tube", 45, 0},
    {"frame", "seat_tube", 34, 0},
    {"frame", "chainstay_left", 28, 18},
    {"frame", "chainstay_right", 28, 18},
    {"frame", "seatstay_left", 16, 14},
    {"frame", "seatstay_right", 16, 14},
    {"frame", "shell", 50, 0},
    {"fork", "steerer", 29, 0},
    {"fork", "fork_blade_left", 42, 20},
    {"fork", "fork_blade_right", 42, 20},
    {"headset_cover", "cover", 42, 40},
    {"spacers_below", "spacers", 36, 0},
    {"stem", "stem", 32, 0},
    {"stem", "stem_clamp", 38, 0},
    {"seatpost", "seatpost", 27, 0},
    {"bar", "bar", 32, 24},
});

/// With a quill stem: both halves of the headset show, and the bare quill stands where else the spacers are.
constexpr std::array k_threaded_tubes = std::to_array<TubeForm>({
    {"headset_upper", "cover", 37, 31},
    {"headset_lower", "cover", 36, 0},
    {"stem", "spacers", 22, 0},
});

constexpr double k_track_depth_um = 7000;  // middle of the braking track below the bead seat: for the picture only

struct DimensionForm {
  std::string_view place, name, label, from, to;
};

constexpr std::array k_dimensions = std::to_array<DimensionForm>({
    {"frame", "stack", "stack", "bottom_bracket", "head_top"},
    {"frame", "reach", "reach", "bottom_bracket", "head_top"},
    {"frame", "seat_tube_length", "seat tube", "bottom_bracket", "seat_top"},
    {"frame", "chainstay", "chainstay", "bottom_bracket", "rear_axle"},
    {"frame", "bottom_bracket_drop", "drop", "bottom_bracket", "rear_axle"},
    {"frame", "head_tube_length", "head tube", "head_top", "head_bottom"},
    {"frame", "head_tube_angle", "head tube angle", "steering_ground", "head_bottom"},
    {"frame", "seat_tube_angle", "seat tube angle", "seat_top", "saddle"},
    {"crankset", "length", "crank", "bottom_bracket", "pedal_right"},
    {"seatpost", "saddle_height", "saddle height", "bottom_bracket", "saddle"},
});

struct DerivedForm {
  std::string_view name, label, from, to;
  bool level;  ///< measured level; else straight
};

constexpr std::array k_derived = std::to_array<DerivedForm>({
    {"wheelbase", "wheelbase", "rear_axle", "front_axle", true},
    {"front_centre", "front centre", "bottom_bracket", "front_axle", false},
    {"trail", "trail", "steering_ground", "front_contact", true},
});

constexpr std::array k_anchors = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"frame", "bottom_bracket"},
    {"fork", "crown"},
    {"headset_upper", "head_top"},
    {"headset_cover", "head_top"},
    {"headset_lower", "head_bottom"},
    {"headset_locknut", "head_top"},
    {"stem", "stem_clamp"},
    {"spacers_below", "stem_clamp"},
    {"spacers_above", "stem_clamp"},
    {"compression_plug", "stem_clamp"},
    {"bar", "bar_centre"},
    {"left_lever", "hood_left"},
    {"right_lever", "hood_right"},
    {"bottom_bracket", "bottom_bracket"},
    {"crankset", "bottom_bracket"},
    {"outer_ring", "bottom_bracket"},
    {"inner_ring", "bottom_bracket"},
    {"rear_derailleur", "rear_axle"},
    {"cassette", "rear_axle"},
    {"front_wheel", "front_axle"},
    {"rear_wheel", "rear_axle"},
    {"front_axle", "front_axle"},
    {"rear_axle", "rear_axle"},
    {"front_caliper", "front_axle"},
    {"rear_caliper", "rear_axle"},
    {"front_rotor", "front_axle"},
    {"rear_rotor", "rear_axle"},
    {"front_tyre", "front_contact"},
    {"rear_tyre", "rear_contact"},
    {"seatpost", "seat_top"},
    {"seat_clamp", "seat_top"},
    {"saddle", "saddle"},
    {"pedals", "pedal_right"},
    {"front_derailleur", "bottom_bracket"},
    {"left_shifter", "head_bottom"},
    {"right_shifter", "head_bottom"},
});

class PictureBuilder {
 public:
  PictureBuilder(const Assembly& assembly, const geometry::Skeleton& skeleton)
      : assembly_(assembly), skeleton_(skeleton) {}

  model::Picture build() {
    add_tubes();
    add_circles();
    add_rim_brakes();
    for (const auto& [name, point] : skeleton_.points)
      out_.shapes.push_back({Shape::Kind::point,
                             name == "saddle" ? job_name("saddle") + ".saddle" : "skeleton." + name,
                             {plan_point(point)},
                             0,
                             0});
    for (const DimensionForm& form : k_dimensions) add_dimension(form);
    for (const DerivedForm& form : k_derived) add_derived(form);
    for (const auto& [place, name] : k_anchors)
      if (const auto at = point(name)) out_.anchors[job_name(place)] = *at;
    anchor_frame_features();
    if (const auto top = point("head_top")) out_.anchors.emplace(job_name("frame") + ".head", *top);
    return std::move(out_);
  }

 private:
  /// The frame is everywhere; a feature of it lies where the part sits that mates with it.
  void anchor_frame_features() {
    for (const model::JointForm& joint : assembly_.joints()) {
      if ((joint.a.place == "frame") == (joint.b.place == "frame")) continue;
      const model::InterfaceRef& feature = joint.a.place == "frame" ? joint.a : joint.b;
      const model::InterfaceRef& neighbour = joint.a.place == "frame" ? joint.b : joint.a;
      const auto anchor = out_.anchors.find(job_name(neighbour.place));
      if (anchor != out_.anchors.end())
        out_.anchors.emplace(job_name("frame") + "." + feature.interface, anchor->second);
    }
  }

  std::optional<model::PlanPoint> point(std::string_view name) const {
    const auto found = skeleton_.points.find(std::string(name));
    if (found == skeleton_.points.end()) return std::nullopt;
    return plan_point(found->second);
  }

  std::string job_name(std::string_view place) const {
    const Seated* seated = assembly_.place(std::string(place));
    return seated == nullptr ? std::string(place) : seated->id;
  }

  std::int64_t stated_width_um(const TubeForm& form) const {
    const Seated* seated = assembly_.place(std::string(form.place));
    if (seated == nullptr || !seated->part) return form.width_mm * 1000;
    for (const model::Cell& cell : seated->part->cells)
      if (cell.tube == form.tube) return cell.outer_diameter.nominal / 1000;
    return form.width_mm * 1000;
  }

  void add_tubes() {
    const bool quill = assembly_.interface({"stem", "quill"}) != nullptr;
    for (const TubeForm& form : k_tubes)
      if (!quill || (form.tube != "cover" && form.tube != "spacers")) add_tube(form, axis_of(form, quill));
    if (!quill) return;
    for (const TubeForm& form : k_threaded_tubes) add_tube(form, axis_of(form, quill));
  }

  std::optional<geometry::Axis> axis_of(const TubeForm& form, bool quill) const {
    const auto found = skeleton_.tubes.find(std::string(form.tube)), cover = skeleton_.tubes.find("cover");
    const auto head = skeleton_.points.find("head_bottom"), crown = skeleton_.points.find("crown");
    if (form.place == "headset_lower") {
      if (head == skeleton_.points.end() || crown == skeleton_.points.end()) return std::nullopt;
      return geometry::Axis{head->second, crown->second};
    }
    if (found == skeleton_.tubes.end()) return std::nullopt;
    // The steerer ends inside the locknut; above it only the quill goes on.
    if (quill && form.tube == "steerer" && cover != skeleton_.tubes.end())
      return geometry::Axis{cover->second.start, found->second.end};
    return found->second;
  }

  void add_tube(const TubeForm& form, const std::optional<geometry::Axis>& axis) {
    if (!axis) return;
    const std::int64_t start = stated_width_um(form);
    const std::int64_t end = form.width_end_mm == 0 ? start : start * form.width_end_mm / form.width_mm;
    out_.shapes.push_back({Shape::Kind::tube,
                           job_name(form.place) + "." + std::string(form.tube),
                           {plan_point(axis->start), plan_point(axis->end)},
                           start,
                           end});
  }

  void add_circle(std::string_view place, std::string_view role, std::string_view at, std::int64_t diameter_um) {
    if (const auto centre = point(at); centre && diameter_um > 0)
      out_.shapes.push_back(
          {Shape::Kind::circle, job_name(place) + "." + std::string(role), {*centre}, diameter_um, 0});
  }

  std::int64_t geometry_um(std::string_view place, std::string_view name) const {
    const quantity::Value* value = assembly_.geometry(std::string(place), std::string(name));
    return value == nullptr ? 0 : value->nominal / 1000;
  }

  void add_circles() {
    for (const auto& [wheel, tyre, rotor, at] :
         {std::array<std::string_view, 4>{"rear_wheel", "rear_tyre", "rear_rotor", "rear_axle"},
          std::array<std::string_view, 4>{"front_wheel", "front_tyre", "front_rotor", "front_axle"}}) {
      const std::int64_t rim = geometry_um(wheel, "rim_diameter"), width = geometry_um(tyre, "width");
      if (rim > 0 && width > 0) add_circle(tyre, "tyre", at, rim + 2 * width);
      add_circle(wheel, "rim", at, rim);
      anchor_rim(wheel, at, rim);
      add_circle(rotor, "rotor", at, geometry_um(rotor, "diameter"));
    }
    add_circle("cassette", "sprocket", "rear_axle", 2 * geometry_um("cassette", "largest_radius"));
    add_circle("outer_ring", "ring", "bottom_bracket", 2 * geometry_um("outer_ring", "tip_radius"));
  }

  /// What is on the rim is pointed at on the rim, not at the hub, where the wheel's own anchor lies.
  void anchor_rim(std::string_view wheel, std::string_view axle, std::int64_t rim_um) {
    const auto centre = point(axle);
    if (!centre || rim_um <= 0) return;
    for (const std::string_view feature : {"rim", "bed", "valve", "track", "outside"})
      out_.anchors[job_name(wheel) + "." + std::string(feature)] = {centre->x, centre->y - rim_um / 2, 0};
  }

  /// Where each rim brake's pads meet the braking track: on the line of blade or stay, a little inside the bead seat.
  void add_rim_brakes() {
    for (const auto& [place, wheel, axle, tube] :
         {std::array<std::string_view, 4>{"front_brake", "front_wheel", "front_axle", "fork_blade_right"},
          std::array<std::string_view, 4>{"rear_brake", "rear_wheel", "rear_axle", "seatstay_right"}}) {
      const Seated* seated = assembly_.place(std::string(place));
      const auto axis = skeleton_.tubes.find(std::string(tube));
      const auto centre = point(axle);
      const std::int64_t rim = geometry_um(wheel, "rim_diameter");
      if (seated == nullptr || !seated->part || axis == skeleton_.tubes.end() || !centre || rim <= 0) continue;
      const model::PlanPoint start = plan_point(axis->second.start);
      const auto dx = static_cast<double>(start.x - centre->x), dy = static_cast<double>(start.y - centre->y);
      const double share = (static_cast<double>(rim) / 2 - k_track_depth_um) / std::max(std::hypot(dx, dy), 1.0);
      const model::PlanPoint pad{centre->x + std::llround(share * dx), centre->y + std::llround(share * dy), 0};
      const std::string role = place == "front_brake" ? ".front_rim_brake" : ".rear_rim_brake";
      out_.shapes.push_back({Shape::Kind::point, job_name(place) + role, {pad}, 0, 0});
      out_.anchors[job_name(place)] = pad;
      for (const std::string_view feature : {"track", "outside"})
        out_.anchors[job_name(wheel) + "." + std::string(feature)] = pad;
    }
  }

  void add_dimension(const DimensionForm& form) {
    const quantity::Value* value = assembly_.geometry(std::string(form.place), std::string(form.name));
    const auto a = point(form.from), b = point(form.to);
    if (value == nullptr || !a || !b) return;
    out_.dimensions.push_back(
        {job_name(form.place) + ".geometry." + std::string(form.name), std::string(form.label), *value, *a, *b, false});
  }

  void add_derived(const DerivedForm& form) {
    const auto a = point(form.from), b = point(form.to);
    if (!a || !b) return;
    const auto dx = static_cast<double>(b->x - a->x), dy = static_cast<double>(b->y - a->y);
    const double um = form.level ? std::abs(dx) : std::hypot(dx, dy);
    quantity::Origin origin;
    origin.kind = quantity::OriginKind::maker;
    origin.source = "follows from the frame's numbers";
    out_.dimensions.push_back({"frame." + std::string(form.name), std::string(form.label),
                               quantity::exact_length(quantity::micrometres(std::llround(um)), origin), *a, *b, true});
  }

  const Assembly& assembly_;
  const geometry::Skeleton& skeleton_;
  model::Picture out_;
};

}  // namespace

model::Picture picture_of(const Assembly& assembly, const geometry::Skeleton& skeleton) {
  return PictureBuilder(assembly, skeleton).build();
}

}  // namespace cotter::plan
