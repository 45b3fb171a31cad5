#pragma once
// The network of lines: each port takes one line, and lines and devices make trees.

#include <vector>

#include "model/finding.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// A `stop` for every port with two lines and for every circle of lines; one `ok` when there is neither.
/// That the families of plug and port agree was seen when the job was read; fluids are compared with the connections.
std::vector<model::Finding> network_findings(const Assembly& assembly);

}  // namespace cotter::plan
