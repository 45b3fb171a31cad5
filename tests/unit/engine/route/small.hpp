#pragma once
// A frame small enough to redo by hand: a down tube with one hole at its top and one at its bottom.

#include "engine/route/problem.hpp"

namespace cotter::engine::route::small {

inline quantity::Length tenths(int n) {
  return quantity::micrometres(100 * static_cast<std::int64_t>(n));
}

inline Aperture hole(const std::string& id, int a, int b, int width, geometry::GridPoint position) {
  return {id, a, b, ApertureKind::shared, {tenths(width), tenths(width)}, position, 0, 0};
}

inline Line line(const std::string& id, int diameter, int connector, int from, int to) {
  const auto end = [&](int device) { return LineEnd{device, {tenths(connector), {}}}; };
  return {id, tenths(diameter), {end(from), end(to)}, {}, 2000, 50, 0, 0};
}

inline Device device(const std::string& id, int node, geometry::GridPoint position) {
  return {id, {{node, position, {}, {}, 0}}};
}

/// Lines run from outside through `top` (10 mm wide), 300 mm down the tube, and out at `bottom` (10 mm).
inline Problem down_tube(std::vector<Line> lines, Packing packing = Packing::exact) {
  Problem problem;
  problem.name = "down tube";
  problem.rules.packing = packing;
  problem.cells = {"down tube"};
  problem.apertures = {hole("top", 0, k_outside, 100, {0, 0, 0}), hole("bottom", 0, k_outside, 100, {300, 0, 0})};
  problem.devices = {device("lever", k_outside, {-100, 0, 0}), device("brake", k_outside, {400, 0, 0})};
  problem.lines = std::move(lines);
  return problem;
}

}  // namespace cotter::engine::route::small
