#pragma once
// Walks through an order step by step and says what is not allowed; shares nothing with the solver.

#include "engine/sequence/problem.hpp"

namespace cotter::engine::sequence {

struct Violation {
  enum class Kind {
    not_an_operation,  ///< the order names an index that does not exist
    twice,
    missing,
    too_early,     ///< done before one of its `after`
    access_closed  ///< a group of accesses was closed
  };
  Kind kind;
  std::size_t operation = 0;
  std::string needed{};  ///< the operation or the accesses it lacked
  bool operator==(const Violation&) const = default;
};

/// Everything in which `order` breaks the rules of a problem without faults; empty when it is legal.
std::vector<Violation> violations(const Problem& problem, const std::vector<std::size_t>& order);

}  // namespace cotter::engine::sequence
