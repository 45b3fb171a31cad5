#pragma once
// `fit` problems as documents: checks of a law with its operands, and limits of ISO classes, in; verdicts out.
// Format and an example: docs/fit.md.

#include <string>

#include "document/node.hpp"
#include "document/schema.hpp"

namespace cotter::problem {

/// Shape of a problem, for checking and for the published schema.
document::SchemaRef fit_schema();

/// Solves a parsed problem. `file` is the name that diagnostics carry.
///
/// **Fails with** every way in which the problem differs from its schema; else every operand, word, window and class
/// that cannot be read, each with its place and the mend.
document::Read<document::Node> solve_fit(const document::Node& problem, const std::string& file);

}  // namespace cotter::problem
