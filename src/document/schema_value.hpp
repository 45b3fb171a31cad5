#pragma once
// The one place where documents and quantities meet: which fields a value with a paper has, and what they mean.

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "document/node.hpp"
#include "document/schema.hpp"
#include "quantity/value.hpp"

namespace cotter::document {

/// Names of the papers a value may carry, each the word of its origin.
constexpr std::array<std::string_view, 4> k_papers = {"measured", "maker", "standard", "assumed"};

/// A day of the calendar as `2025-03-14`.
bool is_date(std::string_view text);

/// `a length such as 41.5 mm`.
std::string value_in_words(quantity::Dimension dimension);

/// The paper of a value that is written as a map.
quantity::Origin origin_of(const Node& map);

/// Shape of a value with its paper; that it carries exactly one paper is checked apart.
SchemaRef value_map_schema();

}  // namespace cotter::document
