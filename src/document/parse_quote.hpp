#pragma once
// Quotes of YAML in the source text. The parser folds line ends inside quotes, so a forgotten closing quote would eat
// the rest of the file in silence; here a quoted text must end on the line it began on.

#include <cstddef>
#include <optional>
#include <string_view>

namespace cotter::document {

/// Whether a quoted scalar ends on its line, and whether anything but an end, a separator or a comment follows it.
enum class Quote { closed, open, followed };

/// Judges the scalar whose opening quote is at `offset`.
Quote quote_at(std::string_view text, std::size_t offset);

/// The first place in [from, to) where a quoted scalar could begin and does not close on its line.
std::optional<std::size_t> find_open_quote(std::string_view text, std::size_t from, std::size_t to);

}  // namespace cotter::document
