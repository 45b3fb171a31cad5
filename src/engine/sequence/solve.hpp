#pragma once
// The order of work: one that is legal, or the circle that forbids every order.

#include "engine/sequence/problem.hpp"

namespace cotter::engine::sequence {

/// A legal order with few changes of stand and tool and with irreversible operations late.
///
/// **Method** precedences are derived from `after` and from accesses that no operation opens again; where they say
/// everything, the first ready operation by rank is taken again and again. Otherwise the same rank leads a search over
/// the states (done operations, open accesses) that remembers dead ends. **Accuracy** complete: an order is found
/// exactly when there is one, within the node limit; changes of stand and tool are kept low by rank, not proven least.
/// **Fails with** Status::bad and the faults; Status::impossible with a shortest circle or an irreducible conflict;
/// Status::unfinished when the node limit came first.
Result solve(const Problem& problem, const Options& options = {});

}  // namespace cotter::engine::sequence
