#pragma once
// The cheapest chain of pieces between two features, as far as the caller accepts it. Pure.

#include <functional>

#include "engine/fit/bridge/search.hpp"

namespace cotter::engine::fit::bridge {

struct Options {
  std::int64_t most_proposals = 20;
  std::int64_t node_limit = k_usual_node_limit;
};

/// Says of a chain whether it will do; asked in the order of cost.
using Accept = std::function<bool(const Chain&)>;

/// **Method** chains whose joints all hold for certain come first, the cheapest in front; after them those with open
/// joints. A chain may use a piece twice: two of it are bought then.
/// **Accuracy** exact: no chain that was not shown to `accept` and is of the same rank is cheaper than the result,
/// which `Proof::least_left` bounds. A query that reaches the node limit says `unfinished` and names no chain.
/// **Requires** features that state what their kinds ask.
Result solve(const Index& index, const Query& query, const Accept& accept, const Options& options = {});
Result solve(const Index& index, const Query& query, const Options& options = {});

}  // namespace cotter::engine::fit::bridge
