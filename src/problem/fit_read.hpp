#pragma once
// Operands, words and windows of a fit problem. Inside of this box.

#include <optional>
#include <string>

#include "document/diagnostic.hpp"
#include "document/node.hpp"
#include "document/schema.hpp"
#include "engine/fit/problem.hpp"
#include "engine/fit/standards/class_error.hpp"

namespace cotter::problem {

/// What an operand map may hold besides a value with its paper.
document::SchemaRef fit_operand_schema();

/// Reads a check that its schema has passed; adds a diagnostic for each thing that is wrong with it.
std::optional<engine::fit::Check> read_fit_check(const document::Node& node, const std::string& field,
                                                 document::Diagnostics& diagnostics);

/// Reads a length whose deviations do not matter: the nominal size of a class.
std::optional<quantity::Length> read_nominal(const document::Node& node, const std::string& field,
                                             document::Diagnostics& diagnostics);

document::Diagnostic class_diagnostic(const engine::fit::ClassError& error, const document::Node& node,
                                      const std::string& field);

}  // namespace cotter::problem
