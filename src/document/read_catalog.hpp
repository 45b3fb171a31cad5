#pragma once
// The catalog: interface kinds, parts, templates and operations from all files of some folders.

#include <string>
#include <utility>
#include <vector>

#include "document/diagnostic.hpp"
#include "model/catalog.hpp"

namespace cotter::document {

/// Reads every `*.yaml` file below the folders, each folder in the order of its paths. A later folder adds to the ones
/// before it; an id that is there already is a diagnostic that names both files. A file may stand in the place of a
/// folder.
///
/// **Fails with** the diagnostics of all files together. When a file cannot be parsed or is of another kind or version,
/// names that lead to other files are not looked up, since they may stand in that file.
Read<model::Catalog> read_catalog(const std::vector<std::string>& folders);

/// The same from texts, each with the name it has in diagnostics.
Read<model::Catalog> read_catalog_texts(const std::vector<std::pair<std::string, std::string>>& texts);

/// Where the law of a rule is written, as `file` and place; line 0 when no file below the folders holds the rule.
struct RulePlace {
  std::string file;
  Mark mark;
};
RulePlace place_of_law(const std::vector<std::string>& folders, const std::string& rule);

}  // namespace cotter::document
