#pragma once
// YAML written by people: block and flow lists and maps of scalars. No anchors, aliases, tags or directives.

#include <string_view>

#include "document/parse.hpp"
#include "document/parse_text.hpp"

namespace cotter::document {

/// Parses text that `refusal` has passed; what is wrong goes into `diagnostics`, and then the node is of no use.
Node parse_yaml(std::string_view text, const Places& places, const Limits& limits, Diagnostics& diagnostics);

}  // namespace cotter::document
