#pragma once
// The stack solver: which pieces from the kit put every gap in its window, and how sure is that?

#include "engine/stack/problem.hpp"

namespace cotter::engine::stack {

/// All smallest spacer sets, and every form without pieces and with the best set.
///
/// **Method** exhaustive search by rising number of pieces, cut where the pieces that are left cannot bring a form into
/// its window; whole nanometres throughout. **Accuracy** verdicts and sets are exact; probability to 1e-15; root sum
/// square in double precision. **Fails with** Status::bad and the faults; Status::unfinished when `node_limit` came
/// before an answer.
Result solve(const Problem& problem, const Options& options = {});

}  // namespace cotter::engine::stack
