#include "document/parse_quote.hpp"

namespace cotter::document {
namespace {

bool is_blank(char c) {
  return c == ' ' || c == '\t';
}
bool is_line_end(char c) {
  return c == '\n' || c == '\r';
}

/// Offset behind the closing quote, if that is on the same line.
std::optional<std::size_t> behind_closing_quote(std::string_view text, std::size_t opening) {
  const char quote = text[opening];
  for (std::size_t i = opening + 1; i < text.size() && !is_line_end(text[i]); ++i) {
    if (quote == '"' && text[i] == '\\') {
      ++i;
      if (i < text.size() && is_line_end(text[i])) return std::nullopt;
    } else if (text[i] == quote) {
      const bool doubled = quote == '\'' && text.substr(i + 1, 1) == "'";
      if (!doubled) return i + 1;
      ++i;
    }
  }
  return std::nullopt;
}

bool may_follow(std::string_view rest) {
  const std::size_t blanks = rest.find_first_not_of(" \t");
  if (blanks == std::string_view::npos) return true;
  const char next = rest[blanks];
  if (next == '#') return blanks > 0;
  return is_line_end(next) || std::string_view(",]}:").find(next) != std::string_view::npos;
}

}  // namespace

Quote quote_at(std::string_view text, std::size_t offset) {
  const auto behind = behind_closing_quote(text, offset);
  if (!behind) return Quote::open;
  return may_follow(text.substr(*behind)) ? Quote::closed : Quote::followed;
}

std::optional<std::size_t> find_open_quote(std::string_view text, std::size_t from, std::size_t to) {
  bool may_begin = true;
  for (std::size_t i = from; i < to && i < text.size(); ++i) {
    const char c = text[i];
    if (is_line_end(c)) {
      may_begin = true;
    } else if (c == '#' && (i == 0 || is_blank(text[i - 1]) || is_line_end(text[i - 1]))) {
      i = text.find('\n', i);
      if (i == std::string_view::npos) break;
      may_begin = true;
    } else if (may_begin && (c == '"' || c == '\'')) {
      const auto behind = behind_closing_quote(text, i);
      if (!behind) return i;
      i = *behind - 1;
      may_begin = false;
    } else if (!is_blank(c)) {
      may_begin = std::string_view(":-?[{,").find(c) != std::string_view::npos;
    }
  }
  return std::nullopt;
}

}  // namespace cotter::document
