#pragma once
// JSON written by machines: RFC 8259 without duplicate keys. Numbers keep their digits.

#include <string_view>

#include "document/parse.hpp"
#include "document/parse_text.hpp"

namespace cotter::document {

/// Parses text that `refusal` has passed; what is wrong goes into `diagnostics`, and then the node is of no use.
Node parse_json(std::string_view text, const Places& places, const Limits& limits, Diagnostics& diagnostics);

}  // namespace cotter::document
