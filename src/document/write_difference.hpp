#pragma once
// What tells two plans apart, as a document for machines.

#include "document/node.hpp"
#include "model/difference.hpp"

namespace cotter::document {

/// `cotter: plan_difference 1`; each change with what stood there before and what stands there now, null when nothing.
Node difference_node(const model::PlanDifference& difference);

}  // namespace cotter::document
