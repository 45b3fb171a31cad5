#pragma once
// What the document fuzz targets share: a shape with every kind of schema, and what must hold after any input.

#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "document/parse.hpp"
#include "document/schema.hpp"

namespace cotter::document::fuzz {

/// Stops the run, so that the fuzzer keeps the input.
inline void require(bool holds) {
  if (!holds) std::abort();
}

inline SchemaRef shape() {
  using quantity::Dimension;
  const auto required = Field::Need::required;
  const auto optional = Field::Need::optional;
  const auto opening =
      object_schema("opening", {{"width", value_schema(Dimension::length), required, "Clear width."},
                                {"turn", value_schema(Dimension::angle), optional, "About the axis."}});
  const auto part = object_schema("part", {{"name", text_schema(60), required, ""},
                                           {"kind", word_schema({"bore", "shaft", "thread"}), optional, ""},
                                           {"teeth", integer_schema(9, 60), optional, ""},
                                           {"ratio", real_schema(0.5, 6.25), optional, ""},
                                           {"used", boolean_schema(), optional, ""},
                                           {"openings", map_schema(opening, 9), optional, ""},
                                           {"torque", value_schema(Dimension::torque), optional, ""},
                                           {"count", value_schema(Dimension::count), optional, ""},
                                           {"meets", list_schema(identifier_schema(), 1, 5), optional, ""}});
  return object_schema("job", {{"parts", map_schema(part), required, ""},
                               {"spot", either_schema({word_schema({"auto"}), opening}), optional, ""},
                               {"notes", anything_schema(), optional, ""}});
}

inline void require_clean(const Diagnostics& diagnostics) {
  for (const Diagnostic& diagnostic : diagnostics.list()) {
    require(!diagnostic.code.empty() && !diagnostic.message.empty());
    const std::string line = one_line(diagnostic);
    require(printable(line, line.size()) == line);
  }
}

/// Widths of the openings of a node that the shape has accepted: they must be readable.
inline void read_values(const Node& job) {
  for (const Node::Entry& part : job.find("parts")->entries()) {
    const Node* openings = part.value.find("openings");
    if (openings == nullptr) continue;
    for (const Node::Entry& opening : openings->entries()) {
      value_of(*opening.value.find("width"), quantity::Dimension::length);
    }
  }
}

/// Parses and checks one input; whatever is read must survive writing and reading.
inline int run(const std::uint8_t* data, std::size_t size, Format format) {
  static const SchemaRef schema = shape();
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto node = parse(text, "input", format);
  if (!node) {
    require(!node.error().empty());
    require_clean(node.error());
    return 0;
  }
  Diagnostics diagnostics("input");
  check(*node, *schema, diagnostics);
  require_clean(diagnostics);
  if (diagnostics.empty()) read_values(*node);
  const auto again = parse(write_json(*node), "again", Format::json, {.bytes = 64u << 20});
  require(again && *again == *node && content_hash(*again) == content_hash(*node));
  return 0;
}

}  // namespace cotter::document::fuzz
