#pragma once
// `route` problems as documents: cells, apertures, devices and lines in; runs, order of pulling and conflicts out.
// Format and an example: docs/route.md.

#include <string>

#include "document/node.hpp"
#include "document/schema.hpp"
#include "engine/route/problem.hpp"
#include "engine/route/result.hpp"

namespace cotter::problem {

/// Shape of a problem, for checking and for the published schema.
document::SchemaRef route_schema();

/// Reads a parsed problem. Diameters are in tenths of a millimetre, lengths along the frame in millimetres.
///
/// **Fails with** every way in which the problem differs from its schema; else every number that contradicts
/// another, each with its place and the mend.
document::Read<engine::route::Problem> read_route(const document::Node& problem, const std::string& file);

/// A result as a document. `source` is where the problem comes from, or empty.
document::Node write_route(const engine::route::Problem& problem, const engine::route::Result& result,
                           const std::string& source);

/// What would have to give way at least, by the fields `relax` of the document: for testing solvers.
document::Node solve_route_relaxed(const document::Node& document, const engine::route::Problem& problem,
                                   const engine::route::Options& options, const std::string& source);

/// Solves a parsed problem; with `relaxed` true, by solve_route_relaxed. `file` is the name that diagnostics carry.
///
/// **Fails with** the same as `read_route`. A problem without a way is no failure: the result says `infeasible`.
document::Read<document::Node> solve_route(const document::Node& problem, const std::string& file);

}  // namespace cotter::problem
