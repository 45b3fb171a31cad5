#pragma once
// Wrapping and columns by what a terminal shows, not by bytes.

#include <string>
#include <string_view>
#include <vector>

namespace cotter::words {

/// Columns a text takes on a terminal.
int display_width(std::string_view text);

/// Breaks at blanks so that no line is wider than `width`; a word that is wider stands alone. Line breaks and tabs of
/// the text count as blanks.
std::vector<std::string> wrap(std::string_view text, int width);

/// `text` wrapped, its first line behind `first`, the others behind as many blanks.
std::string hanging(std::string_view first, std::string_view text, int width);

/// Padded with blanks on the right (or left) to `width` columns; cut with "…" when too wide.
std::string cell(std::string_view text, int width);
std::string cell_right(std::string_view text, int width);

}  // namespace cotter::words
