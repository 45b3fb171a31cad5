#pragma once
// Invented problems from a seed: tiny wild ones for the cross-check against plain enumeration, and ones shaped like a
// frame for properties and benchmarks.

#include <random>

#include "engine/route/problem.hpp"

namespace cotter::engine::route::instances {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  int roll(int low, int high) { return low + static_cast<int>(engine_() % static_cast<std::uint64_t>(high - low + 1)); }
  bool chance(int percent) { return roll(1, 100) <= percent; }

 private:
  std::mt19937_64 engine_;
};

inline quantity::Length tenths(int n) {
  return quantity::micrometres(100 * static_cast<std::int64_t>(n));
}

/// At most 4 cells, 6 apertures and 3 lines, joined at random.
inline Problem tiny(std::uint64_t seed) {
  Dice dice(seed);
  Problem problem;
  problem.rules.packing = dice.chance(50) ? Packing::density : Packing::exact;
  problem.rules.pull_permille = dice.chance(50) ? 600 : 500;
  const int cells = dice.roll(2, 4);
  for (int c = 0; c < cells; ++c) problem.cells.push_back("cell" + std::to_string(c));
  const auto point = [&] { return geometry::GridPoint{dice.roll(-400, 400), dice.roll(-40, 40), dice.roll(0, 500)}; };
  for (int a = dice.roll(3, 6); a > 0; --a) {
    Aperture aperture;
    aperture.id = "hole" + std::to_string(a);
    aperture.a = dice.roll(0, cells - 1);
    aperture.b = dice.roll(-1, cells - 1);
    if (aperture.b == aperture.a) aperture.b = k_outside;
    aperture.kind = dice.chance(20) ? ApertureKind::exclusive : ApertureKind::shared;
    const int width = dice.roll(45, 110);
    aperture.opening = {tenths(width), tenths(width + (dice.chance(20) ? dice.roll(5, 40) : 0))};
    aperture.position = point();
    aperture.enlarge_max = dice.chance(50) ? dice.roll(1, 12) : 0;
    aperture.enlarge_cost = dice.roll(1, 30);
    problem.apertures.push_back(aperture);
  }
  const int devices = dice.roll(2, 5);
  for (int d = 0; d < devices; ++d) {
    Device device{"device" + std::to_string(d), {}};
    for (int s = dice.chance(40) ? 2 : 1; s > 0; --s) {
      Seat seat{dice.roll(-1, cells - 1), point(), {}, {}, dice.roll(0, 60)};
      if (dice.chance(10)) seat.aperture = dice.roll(0, static_cast<int>(problem.apertures.size()) - 1);
      if (dice.chance(20)) seat.place = dice.roll(0, 2);
      device.seats.push_back(seat);
    }
    problem.devices.push_back(device);
  }
  for (int k = dice.roll(1, 3); k > 0; --k) {
    Line line;
    line.id = "line" + std::to_string(k);
    const int d = dice.chance(50) ? 40 : dice.roll(15, 60);
    line.diameter = tenths(d);
    const int from = dice.roll(0, devices - 1);
    const int to = (from + dice.roll(1, devices - 1)) % devices;
    for (std::size_t end = 0; end < 2; ++end) {
      line.ends[end].device = end == 0 ? from : to;
      line.ends[end].connector.diameter = tenths(d + (dice.chance(60) ? dice.roll(0, 45) : 0));
      if (!dice.chance(20)) continue;
      const geometry::Rectangle section{tenths(d + dice.roll(0, 30)), tenths(dice.roll(10, d))};
      line.ends[end].connector = {geometry::diagonal(section), section};
    }
    if (dice.chance(40)) {
      for (int n = dice.roll(1, 4); n > 0; --n) line.lengths.push_back(100 * dice.roll(3, 16));
    }
    line.cut_max = dice.roll(600, 2500);
    line.min_slack = dice.roll(0, 60);
    line.max_stow = line.min_slack + dice.roll(50, 500);
    line.surface = dice.chance(30) ? 1 : 0;
    problem.lines.push_back(line);
  }
  return problem;
}

/// A tiny problem with demands on bends, cells, openings and devices added.
inline Problem demanding(std::uint64_t seed) {
  Problem problem = tiny(seed);
  Dice dice(seed + 1'000'000);
  const auto some_aperture = [&] { return dice.roll(0, static_cast<int>(problem.apertures.size()) - 1); };
  if (dice.chance(15)) problem.apertures[some_aperture()].taken = true;
  if (dice.chance(40)) {
    CellRule rule{dice.roll(0, static_cast<int>(problem.cells.size()) - 1), {}, dice.chance(50)};
    if (dice.chance(60)) rule.room = tenths(dice.roll(20, 60));
    problem.cell_rules.push_back(rule);
  }
  for (Device& device : problem.devices) {
    if (!dice.chance(50)) continue;
    device.body = Connector{tenths(dice.roll(60, 110)), {}};
    for (Seat& seat : device.seats)
      for (int n = dice.roll(0, 2); n > 0; --n) seat.entries.push_back(some_aperture());
  }
  for (Line& line : problem.lines) {
    if (dice.chance(50)) line.bend_radius = dice.roll(5, 60);
    line.bare_cable = dice.chance(30);
    if (dice.chance(15)) line.through.push_back(some_aperture());
    if (dice.chance(20)) line.avoids.push_back(some_aperture());
    if (!dice.chance(40)) continue;
    const int end = dice.roll(0, 1);
    const auto& body = problem.devices[line.ends[end].device].body;
    if (!body || line.ends[1 - end].connector.diameter <= body->diameter) line.captive_end = end;
  }
  return problem;
}

/// A ladder of cells with shared passages between them and holes to the outside, and lines between devices along it.
/// `tight` scales the openings in percent: about 100 is near the edge of what is possible.
inline Problem frame(std::uint64_t seed, int cells, int lines, int tight) {
  Dice dice(seed);
  Problem problem;
  problem.rules.packing = Packing::density;
  const auto along = [&](int cell) { return geometry::GridPoint{650 - 1100 * cell / cells, 0, 500 - 60 * (cell % 5)}; };
  const auto near_cell = [&](int cell) {
    const geometry::GridPoint p = along(cell);
    return geometry::GridPoint{p.x + dice.roll(-80, 80), dice.roll(-40, 40), p.z + dice.roll(-60, 60)};
  };
  const auto add = [&](int a, int b, ApertureKind kind, int width) {
    const int scaled = width * tight / 100;
    problem.apertures.push_back({"hole" + std::to_string(problem.apertures.size()),
                                 a,
                                 b,
                                 kind,
                                 {tenths(scaled), tenths(scaled)},
                                 near_cell(a),
                                 dice.chance(50) ? dice.roll(4, 12) : 0,
                                 dice.roll(5, 30)});
  };
  for (int c = 0; c < cells; ++c) {
    problem.cells.push_back("cell" + std::to_string(c));
    if (c > 0) add(c, c - 1, ApertureKind::shared, dice.roll(80, 140));
    if (c > 2 && dice.chance(25)) add(c, c - dice.roll(2, 3), ApertureKind::shared, dice.roll(60, 110));
    add(c, k_outside, dice.chance(40) ? ApertureKind::exclusive : ApertureKind::shared, dice.roll(55, 90));
  }
  for (int k = 0; k < lines; ++k) {
    Line line;
    line.id = "line" + std::to_string(k);
    const int d = dice.chance(50) ? dice.roll(22, 32) : dice.roll(40, 50);
    line.diameter = tenths(d);
    for (std::size_t end = 0; end < 2; ++end) {
      const int cell = end == 0 ? dice.roll(0, cells / 2) : dice.roll(cells / 2, cells - 1);
      const int node = dice.chance(40) ? k_outside : cell;
      Device device{"device" + std::to_string(problem.devices.size()), {{node, near_cell(cell), {}, {}, 0}}};
      if (dice.chance(20)) device.seats.push_back({cell, near_cell(cell), {}, {}, dice.roll(10, 100)});
      line.ends[end] = {static_cast<int>(problem.devices.size()), {tenths(d + dice.roll(0, 20)), {}}};
      problem.devices.push_back(device);
    }
    if (dice.chance(70)) {
      for (int n = 0; n < 5; ++n) line.lengths.push_back(400 + 250 * n);
    }
    line.cut_max = 2500;
    line.min_slack = dice.roll(2, 6) * 10;
    line.max_stow = line.min_slack + 300;
    line.surface = dice.chance(15) ? 1 : 0;
    problem.lines.push_back(line);
  }
  return problem;
}

}  // namespace cotter::engine::route::instances
