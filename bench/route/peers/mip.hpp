#pragma once
// The whole-number program over columns: one column a line, one seat a device, one step of enlarging a hole.

#include <string>

#include "holes.hpp"

namespace route_peers {

struct Row {
  std::vector<std::pair<int, double>> terms;
  double least, most;
};

struct Mip {
  std::vector<double> cost;  ///< of each variable; all are 0 or 1
  std::vector<Row> rows;
};

Mip make_mip(const Model& model);

}  // namespace route_peers
