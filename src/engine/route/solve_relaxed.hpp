#pragma once
// What would have to give way, at least, for all lines to be routed: for testing solvers. A plan for a bicycle never
// rests on it, because it enlarges openings beyond what the frame's paper permits.

#include <cstdint>
#include <optional>
#include <vector>

#include "engine/route/problem.hpp"
#include "engine/route/result.hpp"

namespace cotter::engine::route {

/// What may give way at one aperture, and at what cost.
struct ApertureRelief {
  int extra_steps = 0;                     ///< beyond `enlarge_max`
  std::int64_t extra_cost = 0;             ///< of each of those
  std::optional<std::int64_t> share_cost;  ///< of taking an exclusive aperture for a shared one; none = never
};

/// What may give way of one line.
struct LineRelief {
  std::optional<std::int64_t> drop_cost;    ///< of leaving it out
  std::optional<std::int64_t> length_cost;  ///< of waiving the lengths on offer, or the longest piece
};

/// By aperture and by line; lists that are shorter than the problem's stand for no relief.
struct Relief {
  std::vector<ApertureRelief> apertures;
  std::vector<LineRelief> lines;
};

struct RelaxedResult {
  Status status = Status::bad;
  std::optional<std::int64_t> relax_cost;  ///< least sum; none without a plan
  Problem granted;                         ///< the problem with all that was needed granted, dropped lines gone
  Result plan;                             ///< its best plan
  std::vector<int> dropped;                ///< lines
  std::vector<int> waived;                 ///< lines whose length did not suit
  std::vector<int> shared;                 ///< exclusive apertures with several lines
  std::vector<int> extra_steps;            ///< by aperture, beyond what is permitted
  std::vector<Fault> faults;
  std::int64_t nodes = 0;
};

/// Least sum of the costs of relief, and among the plans with it one of least cost.
///
/// **Method** one search: relief costs more than all else together, further sizes, ways of any length and empty ways
/// are added to the choices. At first only cheap items of relief are offered, then dearer ones, up to the cost of the
/// plan found: no better plan could use a dearer one. What was needed is then granted, and the granted problem solved.
/// **Fails with** status `bad` and the faults; `limit` when the effort ended first.
RelaxedResult solve_relaxed(const Problem& problem, const Relief& relief, const Options& options = {});

}  // namespace cotter::engine::route
