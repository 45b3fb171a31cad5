#include "plan/skeleton.hpp"

#include <array>
#include <string_view>

namespace cotter::plan {
namespace {

using geometry::FrameNumbers;
using quantity::Length;

struct LengthSource {
  std::string_view place;
  std::string_view name;
  FrameNumbers::Length FrameNumbers::* field;
};
struct AngleSource {
  std::string_view place;
  std::string_view name;
  FrameNumbers::Angle FrameNumbers::* field;
};

constexpr std::array k_lengths = std::to_array<LengthSource>({
    {"frame", "stack", &FrameNumbers::stack},
    {"frame", "reach", &FrameNumbers::reach},
    {"frame", "chainstay", &FrameNumbers::chainstay},
    {"frame", "bottom_bracket_drop", &FrameNumbers::bottom_bracket_drop},
    {"frame", "head_tube_length", &FrameNumbers::head_tube_length},
    {"frame", "seat_tube_length", &FrameNumbers::seat_tube_length},
    {"frame", "top_tube_rise", &FrameNumbers::top_tube_rise},
    {"frame", "top_tube_offset", &FrameNumbers::top_tube_offset},
    {"frame", "down_tube_offset", &FrameNumbers::down_tube_offset},
    {"frame", "shell_width", &FrameNumbers::shell_width},
    {"frame", "rear_axle_width", &FrameNumbers::rear_axle_width},
    {"fork", "front_axle_width", &FrameNumbers::front_axle_width},
    {"fork", "axle_to_crown", &FrameNumbers::axle_to_crown},
    {"fork", "offset", &FrameNumbers::fork_offset},
    {"front_wheel", "rim_diameter", &FrameNumbers::rim_diameter},
    {"front_tyre", "width", &FrameNumbers::tyre_width},
    {"stem", "height", &FrameNumbers::stem_height},
    {"stem", "length", &FrameNumbers::stem_length},
    {"bar", "reach", &FrameNumbers::bar_reach},
    {"bar", "drop", &FrameNumbers::bar_drop},
    {"bar", "width", &FrameNumbers::bar_width},
    {"seatpost", "setback", &FrameNumbers::seatpost_setback},
    {"seatpost", "saddle_height", &FrameNumbers::saddle_height},
    {"saddle", "rail_to_top", &FrameNumbers::saddle_stack},
    {"crankset", "length", &FrameNumbers::crank_length},
});

/// Lengths that stand on a mating feature, because a stack needs them too.
struct FeatureSource {
  std::string_view place, feature, dimension;
  FrameNumbers::Length FrameNumbers::* field;
};

constexpr std::array k_features = std::to_array<FeatureSource>({
    {"headset_lower", "outer", "stand", &FrameNumbers::lower_stack},
    {"headset_cover", "cover", "height", &FrameNumbers::cover},
    {"spacers_below", "stack", "height", &FrameNumbers::spacers},
});

constexpr std::array k_angles = std::to_array<AngleSource>({
    {"frame", "head_tube_angle", &FrameNumbers::head_tube_angle},
    {"frame", "seat_tube_angle", &FrameNumbers::seat_tube_angle},
    {"stem", "angle", &FrameNumbers::stem_angle},
});

void take_tube_diameters(const Assembly& assembly, FrameNumbers& numbers) {
  const Seated* frame = assembly.place("frame");
  if (frame == nullptr || !frame->part) return;
  for (const model::Cell& cell : frame->part->cells) {
    if (cell.tube == "top_tube") numbers.top_tube_diameter = quantity::nominal_length(cell.outer_diameter);
    if (cell.tube == "down_tube") numbers.down_tube_diameter = quantity::nominal_length(cell.outer_diameter);
  }
}

/// A quill stem stands on no spacers: the headset up to the top of its locknut, then the bare quill.
void take_quill(const Assembly& assembly, FrameNumbers& numbers) {
  const auto length = [&](const char* place, const char* feature, const char* dimension) -> FrameNumbers::Length {
    const auto found = assembly.value({place, feature, dimension});
    if (!found || found->value->origin.kind == quantity::OriginKind::unknown) return std::nullopt;
    return quantity::nominal_length(*found->value);
  };
  const auto exposed = length("stem", "quill", "exposed"), upper = length("headset_upper", "outer", "stand"),
             washer = length("headset_locknut", "thread", "washer"),
             nut = length("headset_locknut", "thread", "height");
  if (!exposed || !upper || !washer || !nut || !numbers.stem_height) return;
  numbers.cover = *upper + *washer + *nut;
  numbers.spacers = *exposed - Length::from_base(numbers.stem_height->base() / 2);
}

}  // namespace

geometry::Skeleton skeleton_of(const Assembly& assembly) {
  FrameNumbers numbers;
  for (const LengthSource& source : k_lengths)
    if (const quantity::Value* value = assembly.geometry(std::string(source.place), std::string(source.name)))
      numbers.*source.field = quantity::nominal_length(*value);
  for (const FeatureSource& source : k_features)
    if (const auto found =
            assembly.value({std::string(source.place), std::string(source.feature), std::string(source.dimension)}))
      numbers.*source.field = quantity::nominal_length(*found->value);
  for (const AngleSource& source : k_angles)
    if (const quantity::Value* value = assembly.geometry(std::string(source.place), std::string(source.name)))
      numbers.*source.field = quantity::microdegrees(value->nominal);
  take_tube_diameters(assembly, numbers);
  take_quill(assembly, numbers);
  return geometry::skeleton_from(numbers);
}

model::PlanPoint plan_point(const geometry::Point3& point) {
  return {point.x.base() / 1000, point.y.base() / 1000, point.z.base() / 1000};
}

}  // namespace cotter::plan
