#pragma once
// `bridge` problems as documents: kinds, how they meet, pieces with what they join and cost, and the two ends; the
// cheapest chains out. Format and an example: docs/bridge.md.

#include <map>
#include <string>
#include <vector>

#include "document/node.hpp"
#include "document/schema.hpp"
#include "engine/fit/bridge/solve.hpp"

namespace cotter::problem {

/// A problem with the names of its numbers.
struct BridgeProblem {
  std::vector<engine::fit::bridge::Kind> kinds;
  std::vector<engine::fit::bridge::Meeting> meetings;
  std::vector<engine::fit::bridge::Piece> pieces;
  engine::fit::bridge::Query query;
  engine::fit::bridge::Options options;
  std::vector<std::string> piece_ids;
  std::vector<std::vector<std::string>> feature_names;  ///< of each piece
};

/// Shape of a problem, for checking and for the published schema.
document::SchemaRef bridge_schema();

/// Reads a parsed problem.
///
/// **Fails with** every way in which the problem differs from its schema; else every name that is given twice or used
/// without being there, every rule that does not fit its law, and every value that cannot be read.
document::Read<BridgeProblem> read_bridge(const document::Node& problem, const std::string& file);

/// Solves a parsed problem. `file` is the name that diagnostics carry.
///
/// **Fails with** the same as `read_bridge`. That no chain joins the ends is no failure: the result says `none` and
/// why.
document::Read<document::Node> solve_bridge(const document::Node& problem, const std::string& file);

}  // namespace cotter::problem
