#include <string>

#include "draw/bicycle_outline.hpp"

namespace cotter::draw {
namespace {

/// One brake: where its pad meets the rim, the wheel's middle, and on which side of blade or stay it stands.
struct RimBrake {
  const char* point;
  const char* axle;
  double side;  ///< 1: ahead of the tube
};
constexpr RimBrake k_brakes[] = {{"front_rim_brake", "front_axle", 1}, {"rear_rim_brake", "rear_axle", -1}};

constexpr double k_out = 14;   // mm from the tube's axis to the plane of the arms: form, like all below
constexpr double k_bolt = 45;  // mm from the pad to the bolt

void draw_brake(SvgWriter& svg, const Scene& scene, const RimBrake& brake) {
  const auto pad = scene.point(brake.point), axle = scene.point(brake.axle);
  if (!pad || !axle) return;
  const Spot out = unit(*pad - *axle), along = brake.side * turned(out);
  const auto at = [&](double sideways, double outward) {
    return *pad + scene.view.px(sideways) * along + scene.view.px(outward) * out;
  };
  svg.open("g", {{"data-form", brake.point}});
  Path arms;
  arms.move(at(k_out - 6, 4)).cubic(at(k_out - 8, 22), at(k_out - 10, 30), at(k_out - 10, k_bolt));
  arms.cubic(at(k_out - 10, 58), at(k_out - 6, 66), at(k_out, 66));
  arms.cubic(at(k_out + 6, 66), at(k_out + 10, 58), at(k_out + 10, k_bolt));
  arms.cubic(at(k_out + 10, 30), at(k_out + 8, 22), at(k_out + 6, 4)).close();
  svg.path("bw", arms);
  Path block;
  block.move(at(k_out - 27, -5)).line(at(k_out + 27, -5)).line(at(k_out + 27, 6)).line(at(k_out - 27, 6)).close();
  svg.path("bw", block);
  svg.circle("n", at(k_out, k_bolt), scene.view.px(5));
  svg.close();
}

}  // namespace

void draw_rim_brakes(SvgWriter& svg, const Scene& scene) {
  svg.open("g", {{"class", "fitted"}});
  for (const RimBrake& brake : k_brakes) draw_brake(svg, scene, brake);
  svg.close();
}

}  // namespace cotter::draw
