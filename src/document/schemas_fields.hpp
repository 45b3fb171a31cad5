#pragma once
// Short names for the fields of a schema. Inside of the schemas_*.cpp files.

#include <string>
#include <utility>
#include <vector>

#include "document/schema.hpp"

namespace cotter::document {

inline Field needed(std::string name, SchemaRef schema, std::string about = "") {
  return {std::move(name), std::move(schema), Field::Need::required, std::move(about)};
}
inline Field optional(std::string name, SchemaRef schema, std::string about = "") {
  return {std::move(name), std::move(schema), Field::Need::optional, std::move(about)};
}

/// Texts of one line: labels, names of files.
inline SchemaRef label_schema() {
  return text_schema(300);
}
/// A dotted name, or a value whose dimension the reader knows.
inline SchemaRef short_text_schema() {
  return text_schema(200);
}
inline SchemaRef length_schema() {
  return value_schema(quantity::Dimension::length);
}
/// First line of every document.
inline Field header_field() {
  return needed("cotter", short_text_schema(), "Kind of the document and version of its format, for example `job 1`.");
}

/// Tubes and named points of the skeleton.
const std::vector<std::string>& tube_words();
const std::vector<std::string>& point_words();
const std::vector<std::string>& material_words();

}  // namespace cotter::document
