#pragma once
// Finds an order over the states (done operations, open accesses), led by rank, never meeting a dead end twice.

#include "engine/sequence/resolve.hpp"

namespace cotter::engine::sequence {

enum class Outcome { found, none, cut };

struct Found {
  Outcome outcome = Outcome::none;
  std::vector<std::size_t> order;
  std::int64_t nodes = 0;
};

/// Requires edges without a circle and no hopeless demand.
Found find_order(const Steps& steps, const Precedences& precedences, const std::vector<Operation>& operations,
                 std::int64_t node_limit);

/// What of the current stand and tools is kept from one step to the next.
class Bench {
 public:
  bool changes_position(const Operation& operation) const;
  bool changes_side(const Operation& operation) const;
  /// Tools of the operation that the last one with tools did not use.
  int tools_to_fetch(const Operation& operation) const;
  void take_up(const Operation& operation);

 private:
  const Operation* position_ = nullptr;
  const Operation* side_ = nullptr;
  const Operation* tools_ = nullptr;
};

}  // namespace cotter::engine::sequence
