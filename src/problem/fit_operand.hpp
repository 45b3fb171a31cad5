#pragma once
// One operand of a fit problem: a value, an ISO class, a bearing, a thread, or a range of what is possible.
// Inside of this box.

#include <optional>
#include <string>

#include "document/diagnostic.hpp"
#include "document/node.hpp"
#include "engine/fit/problem.hpp"

namespace cotter::problem {

/// Reads the operand of a role; adds a diagnostic when it cannot be read.
std::optional<engine::fit::Operand> read_operand(const document::Node& node, const std::string& role,
                                                 quantity::Dimension dimension, const std::string& field,
                                                 document::Diagnostics& diagnostics);

/// The dimension whose units the written value has, or nothing.
std::optional<quantity::Dimension> dimension_of(const document::Node& node);

}  // namespace cotter::problem
