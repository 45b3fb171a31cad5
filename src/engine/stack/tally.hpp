#pragma once
// Counting spacer sets without going through them: partial sets of as many pieces with the same sum in each slot have
// the same future, so they are counted together. For thicknesses in steps, where many sets add up to the same.

#include "engine/stack/tables.hpp"

namespace cotter::engine::stack {

struct Tally {
  Whole certain = 0;
  Whole open = 0;
  Whole sums = 0;               ///< looked at
  std::vector<Candidate> best;  ///< the best ranked, in order, certain and open together
};

/// All sets of exactly `pieces` pieces that reach the goal: how many, and the `most` best.
///
/// **Method** for each kind of piece, thick ones first, and each number of pieces in the slots, a grid of the sums the
/// windows leave open, in the greatest step all thicknesses differ by; then backwards from the best sums.
/// **Accuracy** exact, the same sets in the same order as by going through all.
/// **Fails with** nothing for more than two slots, for grids of more than `most_sums` places in all, and when there
/// could be more sets than fit into 64 bits.
std::optional<Tally> tally(const Tables& tables, Goal goal, int pieces, std::size_t most, std::int64_t most_sums);

}  // namespace cotter::engine::stack
