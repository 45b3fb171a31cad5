#pragma once
// A plan as a document: `cotter: plan 1`.

#include "document/node.hpp"
#include "model/plan.hpp"

namespace cotter::document {

/// Everything the plan carries, amounts both as text with unit and as whole base units (`nm`, `udeg`, ...).
Node plan_node(const model::Plan& plan);
Node finding_node(const model::Finding& finding);

}  // namespace cotter::document
