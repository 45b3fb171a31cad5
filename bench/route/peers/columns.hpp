#pragma once
// All simple ways of every line with their costs: the columns of every peer's model.

#include "instance.hpp"

namespace route_peers {

struct Column {
  std::array<int, 2> seats;
  std::vector<int> path;
  std::uint64_t apertures;  ///< the path as a set
  std::int64_t cost;        ///< length, apertures and turns
};

/// For each line its columns, cheapest first, without those that another one of the same seats makes pointless.
std::vector<std::vector<Column>> list_columns(const Instance& instance);

}  // namespace route_peers
