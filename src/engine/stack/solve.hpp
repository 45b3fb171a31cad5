#pragma once
// The stack solver: which pieces from the kit put every gap in its window, and how sure is that?

#include "engine/stack/problem.hpp"

namespace cotter::engine::stack {

/// The best of the smallest spacer sets and how many there are, and every form without pieces and with the best set.
///
/// **Method** by rising number of pieces: sets gone through one by one, cut where the pieces that are left cannot bring
/// a form into its window; when they are many, counted by their sums. Whole nanometres throughout. **Accuracy**
/// verdicts, sets and numbers of sets are exact; probability to 1e-15; root sum square in double precision. **Fails
/// with** Status::bad and the faults; Status::unfinished when `node_limit` came before an answer.
Result solve(const Problem& problem, const Options& options = {});

}  // namespace cotter::engine::stack
