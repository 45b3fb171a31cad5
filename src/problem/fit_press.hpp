#pragma once
// Press fits of a fit problem: their shape, reading, and results as nodes. Inside of this box.

#include <optional>
#include <string>

#include "document/diagnostic.hpp"
#include "document/node.hpp"
#include "document/schema.hpp"
#include "engine/fit/press.hpp"

namespace cotter::problem {

document::SchemaRef fit_press_schema();

/// Reads a press fit that its schema has passed; adds a diagnostic for each thing that is wrong with it.
std::optional<engine::fit::PressFit> read_fit_press(const document::Node& node, const std::string& field,
                                                    document::Diagnostics& diagnostics);

document::Node fit_press_node(const engine::fit::PressFit& fit, const engine::fit::PressResult& result,
                              const std::string& source);

}  // namespace cotter::problem
