#pragma once
// A plan as a document: `cotter: plan 1`.

#include "document/node.hpp"
#include "model/plan.hpp"

namespace cotter::document {

/// Everything the plan carries, amounts both as text with unit and as whole base units (`nm`, `udeg`, ...).
Node plan_node(const model::Plan& plan);
/// What to measure next, best first, as it stands in the plan.
Node measure_next_node(const model::Plan& plan);
Node finding_node(const model::Finding& finding);
Node bill_row_node(const model::BillRow& row);
Node run_node(const model::Run& run);
Node cut_node(const model::Cut& cut);
Node work_step_node(const model::WorkStep& step);

}  // namespace cotter::document
