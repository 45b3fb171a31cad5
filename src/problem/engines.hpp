#pragma once
// Every engine by its name: its problem's schema and how to solve one.

#include <string>
#include <string_view>
#include <vector>

#include "document/node.hpp"
#include "document/schema.hpp"

namespace cotter::problem {

struct EngineDocument {
  std::string_view name;  ///< `fit`
  document::SchemaRef (*schema)();
  document::Read<document::Node> (*solve)(const document::Node& problem, const std::string& file);
};

/// In the order in which a plan runs them.
const std::vector<EngineDocument>& engines();
/// nullptr when there is no such engine.
const EngineDocument* find_engine(std::string_view name);

}  // namespace cotter::problem
