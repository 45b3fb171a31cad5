#pragma once
// Operations with their names looked up, and the precedences that follow from them.

#include <optional>
#include <tl/expected.hpp>

#include "engine/sequence/problem.hpp"

namespace cotter::engine::sequence {

struct Step {
  std::vector<std::size_t> after;
  std::vector<std::vector<std::size_t>> needs;  ///< groups, each sorted
  std::vector<std::size_t> opens, closes;       ///< an access that is opened is not among the closed ones
};

struct Steps {
  std::vector<Step> steps;
  std::vector<bool> open_at_start;
};

/// **Fails with** every unknown name, double id, empty group and negative time.
tl::expected<Steps, std::vector<Fault>> resolve(const Problem& problem);

struct Precedences {
  std::vector<Reason> edges;     ///< at most one for each pair of operations
  std::vector<Reason> hopeless;  ///< needs_one_of demands that nothing can ever meet
  /// needs_one_of demands that the edges do not cover: they depend on the moment.
  std::vector<Reason> by_state;
};

/// The precedences that hold in every legal order. With `by_state` empty they are also enough.
Precedences precedences(const Steps& steps);

/// A shortest circle of edges; empty when there is none. Of equal ones, the one through the lowest index.
std::vector<Reason> shortest_circle(std::size_t operations, const std::vector<Reason>& edges);

}  // namespace cotter::engine::sequence
