#pragma once
// What the rules of the holes ask of a set of lines, prepared for every model: budgets for each step of enlarging,
// lines in the one order of pulling that suits all holes (routing by area; proof in docs/route.md), and what never
// binds.

#include "columns.hpp"

namespace route_peers {

/// Line `line` may follow others only while their squares add up to no more than `budget`, for each step.
struct Pull {
  int line;
  std::vector<int> earlier;
  std::vector<std::int64_t> budget;
};

/// `most` lines of one thickness may share the hole by the table of equal circles, for each step.
struct Equal {
  std::int64_t diameter;
  std::vector<int> most;
};

struct Hole {
  int aperture;
  std::vector<int> lines;  ///< with a column through it, in the order of pulling
  int steps = 0;           ///< of enlarging that can be of use
  std::int64_t step_cost = 0;
  bool exclusive = false;
  bool binds = false;              ///< some set of its lines does not fit
  std::vector<std::int64_t> area;  ///< most sum of squares, for each step
  bool alone_exceeds = false;      ///< one line alone may exceed the area
  std::vector<Equal> equals;       ///< only where the table allows more than the area does
  std::vector<Pull> pulls;         ///< only those that can bind
  std::vector<std::pair<int, int>> never_both;
  std::vector<std::pair<int, int>> needs_step;  ///< line, least step for its connector; only those above 0
};

struct Model {
  Instance instance;
  std::vector<std::vector<Column>> columns;
  std::vector<Hole> holes;
  std::vector<std::vector<std::pair<int, int>>> seats_at_place;     ///< (device, seat) that exclude each other
  std::vector<std::vector<std::pair<int, int>>> seats_at_aperture;  ///< for each aperture
  bool hopeless = false;                                            ///< some line has no column
};

Model make_model(const Instance& instance);

}  // namespace route_peers
