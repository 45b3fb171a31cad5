#pragma once
// Which demands together forbid every order, when no circle of precedences says it?

#include "engine/sequence/resolve.hpp"

namespace cotter::engine::sequence {

struct Conflict {
  std::vector<Reason> demands;  ///< `after` and `needs_one_of`, by the operation that makes them
  bool is_least = false;
};

/// Requires that no order meets all demands of `steps`.
///
/// **Method** demands are left out in ever smaller blocks as long as no order meets the rest. **Accuracy** with
/// `is_least` none of the demands can be left out; there may be another conflict with fewer.
Conflict find_conflict(const Steps& steps, const Problem& problem, std::int64_t node_limit);

}  // namespace cotter::engine::sequence
