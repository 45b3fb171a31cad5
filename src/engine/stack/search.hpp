#pragma once
// The search for the smallest sets of pieces, and for the nearest miss when there is none.

#include "engine/stack/linear.hpp"

namespace cotter::engine::stack {

struct Found {
  std::vector<SpacerSet> sets;  ///< ranked; `uses`, `pieces`, `status` and `off_target` filled in
  std::size_t left_out = 0;
  bool none = false;  ///< proven that no set will do
  std::optional<NearestMiss> nearest_miss;
  bool complete = true;
  std::int64_t nodes = 0;
};

Found search(const Linear& linear, const Problem& problem, const Options& options);

}  // namespace cotter::engine::stack
