#pragma once
// `sequence` problems as documents: operations, accesses and choices in; the order of work, or why there is none, out.
// Format and an example: docs/sequence.md.

#include <string>

#include "document/node.hpp"
#include "document/schema.hpp"
#include "engine/sequence/problem.hpp"

namespace cotter::problem {

/// Shape of a problem, for checking and for the published schema.
document::SchemaRef sequence_schema();

/// Reads a parsed problem.
///
/// **Fails with** every way in which the problem differs from its schema; else every name that is given twice or used
/// without being there.
document::Read<engine::sequence::Problem> read_sequence(const document::Node& problem, const std::string& file);

/// Solves a parsed problem. `file` is the name that diagnostics carry.
///
/// **Fails with** the same as `read_sequence`. Work that has no order is no failure: the result says `impossible`.
document::Read<document::Node> solve_sequence(const document::Node& problem, const std::string& file);

}  // namespace cotter::problem
