#pragma once
// Shapes and nodes in plain words, for diagnostics.

#include <string>

#include "document/schema.hpp"

namespace cotter::document {

/// What a schema accepts: `a whole number from 1 to 9`, `one of: disc, rim`, `a length such as 41.5 mm`.
std::string accepted_by(const Schema& schema);

/// What a node is: `a list`, `a map`, `text in quotes`, `nothing`.
std::string kind_in_words(const Node& node);

/// The node's text for `Diagnostic::found`; lists and maps are named, not printed.
std::string found_in(const Node& node);

/// Words in one line, parted by commas.
std::string comma_list(const std::vector<std::string>& words);

/// A double in its shortest decimal form.
std::string shortest(double number);

}  // namespace cotter::document
