#pragma once
// Names that problems give to their entries and use again elsewhere. Inside of the *_problem.cpp files.

#include <string>
#include <string_view>
#include <vector>

#include "document/diagnostic.hpp"
#include "document/node.hpp"
#include "quantity/interval.hpp"

namespace cotter::problem {

/// The entries of a list of the problem; none when the list is not there.
const std::vector<document::Node>& entries_of(const document::Node& map, std::string_view list);

/// `list[i]`, for the place a diagnostic names.
std::string entry_field(std::string_view list, std::size_t i);

/// The ids of a list's entries in their order. **Fails with** `double_id` for each one that is there already.
std::vector<std::string> ids_of(const document::Node& problem, const std::string& list,
                                document::Diagnostics& diagnostics);

/// **Fails with** `unknown_name`, and the nearest of `known`, when the name is not among them.
void check_name(const std::string& name, document::Mark mark, const std::string& field, std::string_view noun,
                const std::vector<std::string>& known, document::Diagnostics& diagnostics);

/// A list of names, each checked.
std::vector<std::string> read_names(const document::Node& map, const std::string& list, const std::string& field,
                                    std::string_view noun, const std::vector<std::string>& known,
                                    document::Diagnostics& diagnostics);

document::Node text_list(const std::vector<std::string>& texts);
/// `holds`, `fails` or `open`.
document::Node certainty_node(quantity::Certainty certainty);

}  // namespace cotter::problem
