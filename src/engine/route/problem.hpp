#pragma once
// Which line goes through which opening of a hollow frame, how long it must be, and in which order the lines are
// pulled.
//
// Cells (hollow stretches of tube) and the outside are nodes, apertures join two of them. Devices sit on seats, lines
// run between two devices. Sizes of cross-sections are Lengths; positions and lengths along the frame are whole
// millimetres, because a computed way is good to about 20 mm until a string has been pulled. Costs are whole numbers of
// the caller's own unit. Names are carried for the reader of a result; nothing is decided by a name.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "geometry/opening.hpp"
#include "geometry/point.hpp"
#include "quantity/amount.hpp"

namespace cotter::engine::route {

/// The node that stands for everything outside the hollow frame; cells are numbered from 0.
constexpr int k_outside = -1;

/// Sizes beyond these are refused as a bad problem.
constexpr int k_most_lines = 64;
constexpr int k_most_apertures = 128;
constexpr int k_most_cells = 64;
constexpr int k_most_seats = 64;
/// Devices that have a body.
constexpr int k_most_bodies = 64;
constexpr quantity::Length k_most_diameter = quantity::millimetres(200);
/// One step of enlarging an aperture.
constexpr quantity::Length k_enlarge_step = quantity::micrometres(100);

/// How several bodies in one aperture are judged.
enum class Packing {
  density,  ///< by shares of the aperture's area and the table of equal circles
  exact,    ///< by geometry::judge_packing; undecided counts as not fitting
};

struct Rules {
  int pack_permille = 500;  ///< density: largest share of the area that the bodies may fill together
  int pull_permille = 500;  ///< density: the same with the connector of the line being pulled in place of its body
  std::int64_t per_aperture = 40;
  std::array<std::int64_t, 5> turn_costs = {0, 20, 60, 120, 200};  ///< by geometry::Turn
  /// density: opening over diameter for n equal bodies, in 1/10000
  std::array<std::int64_t, 7> equal_table = {10000, 20000, 21548, 24143, 27014, 30000, 30000};
  Packing packing = Packing::exact;
};

enum class ApertureKind {
  exclusive,  ///< takes one line or one device
  shared,
};

struct Aperture {
  std::string id;
  int a = 0;          ///< a cell
  int b = k_outside;  ///< another cell, or the outside
  ApertureKind kind = ApertureKind::shared;
  geometry::Opening opening;  ///< clear size; density: several bodies in a slot are judged in the circle of its width
  geometry::GridPoint position;
  int enlarge_max = 0;  ///< permitted steps; 0 = none
  std::int64_t enlarge_cost = 0;
  bool taken = false;  ///< something that is no part of the problem sits in it: no line, no device
};

/// What a cell asks of the lines that lie in it, because something stands or turns in it.
struct CellRule {
  int cell = 0;
  std::optional<quantity::Length> room;  ///< thickest body that lies clear
  bool bare_cable = true;                ///< false: no moving cable without its housing
};

struct Seat {
  int node = k_outside;
  geometry::GridPoint position;
  std::optional<int> aperture;  ///< the aperture that a device on this seat uses up
  std::optional<int> place;     ///< each place takes one device
  std::int64_t cost = 0;
  /// Apertures that the device itself is put through on its way in. The lines that are captive to it go first; a line
  /// that leaves no room for it there is pulled after it.
  std::vector<int> entries = {};
};

/// The fitting on the end of a line, or a device that is put through an aperture.
struct Connector {
  quantity::Length diameter;  ///< of the round body that encloses it
  /// For a rectangular plug: judged by this section; under density, beside others, by its diameter.
  std::optional<geometry::Rectangle> section;
};

struct Device {
  std::string id;
  std::vector<Seat> seats;  ///< one is chosen
  /// Cross-section of the device itself; without one it passes every entry.
  std::optional<Connector> body = {};
};

struct LineEnd {
  int device = 0;
  Connector connector;
};

struct Line {
  std::string id;
  quantity::Length diameter;
  std::array<LineEnd, 2> ends;
  std::vector<std::int64_t> lengths;    ///< offered, in mm; empty = cut to length
  std::int64_t cut_max = 0;             ///< longest piece to cut from, in mm
  std::int64_t min_slack = 0;           ///< in mm, over the computed way
  std::int64_t max_stow = 0;            ///< most length that can be stowed, in mm
  int surface = 0;                      ///< how often the way may come out and go in again between its ends
  std::int64_t bend_radius = 0;         ///< least radius of its middle line, in mm; 0 = none asked
  bool bare_cable = false;              ///< a moving cable without housing
  std::optional<int> captive_end = {};  ///< the end that cannot be parted from its device: the other one leads
  std::int64_t correction = 0;          ///< mm that its way was measured longer than its marks say; less: shorter
  std::vector<int> through = {};        ///< apertures it must pass
  std::vector<int> avoids = {};         ///< apertures it must not pass
};

struct Problem {
  std::string name;
  Rules rules;
  std::vector<std::string> cells;
  std::vector<CellRule> cell_rules;
  std::vector<Aperture> apertures;
  std::vector<Device> devices;
  std::vector<Line> lines;
};

/// What to say when there is no way.
enum class Explain {
  conflict,  ///< the smallest set of lines that stand in each other's way
  verdict,   ///< nothing more than that it is proven
};

/// Effort, counted in steps of the search, never in time.
struct Options {
  std::int64_t node_limit =
      300'000;  ///< for the proof; the conflict set of an infeasible problem may take as many again
  std::int64_t way_limit = 300'000;  ///< partial ways looked at while all ways are listed
  Explain explain = Explain::conflict;
};

}  // namespace cotter::engine::route
