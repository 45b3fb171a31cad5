#pragma once
// `stack` problems as documents: lengths, slots, pieces and forms in; spacer sets, worst cases and what to measure out.
// Format and an example: docs/stack.md.

#include <string>

#include "document/node.hpp"
#include "document/schema.hpp"
#include "engine/stack/problem.hpp"

namespace cotter::problem {

/// Shape of a problem, for checking and for the published schema.
document::SchemaRef stack_schema();

/// Reads a parsed problem.
///
/// **Fails with** every way in which the problem differs from its schema; else every name that is given twice or used
/// without being there, and every length that is unknown, swapped or out of bounds.
document::Read<engine::stack::Problem> read_stack(const document::Node& problem, const std::string& file);

/// Solves a parsed problem. `file` is the name that diagnostics carry.
///
/// **Fails with** the same as `read_stack`. A stack for which no set will do is no failure: the result says `no_set`.
document::Read<document::Node> solve_stack(const document::Node& problem, const std::string& file);

}  // namespace cotter::problem
