#pragma once
// Parts from a spreadsheet: one row an interface, one column a dimension or word (docs/formats.md).

#include <string>
#include <string_view>

#include "document/node.hpp"
#include "model/catalog.hpp"

namespace cotter::document {

struct ImportedParts {
  Node document;  ///< `cotter: parts 1`
  std::size_t parts = 0, interfaces = 0;
};

/// Reads a table as parts and holds each against the kinds of the catalog, as `check` does.
///
/// **Fails with** what `parse_csv` says; `missing_column`, `unknown_column`, `column_twice`; `extra_cells`;
/// `decimal_comma`; `unknown_dimension` for a cell that the row's kind has no use for; `duplicate_id`, `contradiction`
/// for two values of one column of a part; and what the readers of parts say. Each names its row and column.
Read<ImportedParts> import_parts(std::string_view text, const std::string& file, const model::Catalog& catalog);

/// A parts document as YAML that reads back to the same document.
std::string write_parts_yaml(const Node& document);

}  // namespace cotter::document
