#pragma once
// One description of a document's shape serves three ends: checking with diagnostics, the published JSON Schema, and
// the typed readers, which may rely on a checked node.

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "document/diagnostic.hpp"
#include "document/node.hpp"
#include "quantity/value.hpp"

namespace cotter::document {

class Schema;
using SchemaRef = std::shared_ptr<const Schema>;

struct Field {
  std::string name;
  SchemaRef schema;
  enum class Need { required, optional } need = Need::optional;
  std::string about;  ///< one sentence, goes into the published schema
};

class Schema {
 public:
  enum class Kind { text, identifier, word, integer, real, boolean, value, list, map, object, either, anything };

  Kind kind = Kind::anything;
  std::string name;                      ///< for messages and for $defs: "part", "opening"; may be empty
  std::vector<std::string> words;        ///< word: the accepted ones
  std::int64_t least = 0, most = 0;      ///< integer: bounds; list and map: fewest and most entries
  double real_least = 0, real_most = 0;  ///< real: bounds
  quantity::Dimension dimension{};       ///< value
  SchemaRef item;                        ///< list, map
  std::vector<Field> fields;             ///< object
  std::vector<SchemaRef> choices;        ///< either: told apart by node kind (scalar, list, map)
};

SchemaRef text_schema(std::size_t most_bytes = 2000);
/// Lower-case letters, digits, `_`, starting with a letter; at most 64.
SchemaRef identifier_schema();
SchemaRef word_schema(std::vector<std::string> words);
SchemaRef integer_schema(std::int64_t least, std::int64_t most);
SchemaRef real_schema(double least, double most);
SchemaRef boolean_schema();
/// A quantity value: written text (`86.5 ±0.1 mm`), or a map with its paper: `{value, measured: {by, with, on}}`,
/// `{value, maker: "..."}`, `{value, standard: "..."}`, `{value, assumed: "why"}`. Only maps carry a paper; text may
/// end in an origin word. A count may be a bare number.
SchemaRef value_schema(quantity::Dimension dimension);
SchemaRef list_schema(SchemaRef item, std::size_t fewest = 0, std::size_t most = 10'000);
/// A map from identifiers to items.
SchemaRef map_schema(SchemaRef item, std::size_t most = 10'000);
SchemaRef object_schema(std::string name, std::vector<Field> fields);
SchemaRef either_schema(std::vector<SchemaRef> choices);
SchemaRef anything_schema();

/// Adds a diagnostic for every way in which the node differs from the schema.
void check(const Node& node, const Schema& schema, Diagnostics& diagnostics, const std::string& field = "");

/// JSON Schema (draft 2020-12) of the same shape.
Node json_schema(const Schema& schema, std::string_view title);

// Readers for nodes that `check` has passed; each requires the kind it names.
const std::string& text_of(const Node& node);
std::int64_t integer_of(const Node& node);
double real_of(const Node& node);
bool boolean_of(const Node& node);
quantity::Value value_of(const Node& node, quantity::Dimension dimension);
/// Text, integer or flag of an optional field, or the fallback.
std::string text_or(const Node& map, std::string_view key, std::string fallback = "");
std::int64_t integer_or(const Node& map, std::string_view key, std::int64_t fallback);
bool boolean_or(const Node& map, std::string_view key, bool fallback);

}  // namespace cotter::document
