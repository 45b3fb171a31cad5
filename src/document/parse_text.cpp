#include "document/parse_text.hpp"

#include <algorithm>
#include <string>

namespace cotter::document {
namespace {

constexpr std::size_t k_shown_bytes = 4;
constexpr char32_t k_byte_order_mark = 0xFEFF;
constexpr char32_t k_line_separator = 0x2028;
constexpr char32_t k_paragraph_separator = 0x2029;

bool is_continuation(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0u) == 0x80u;
}

struct Lead {
  std::size_t bytes;
  char32_t bits;
  char32_t least;  ///< smallest code that needs this many bytes
};

Lead lead_of(unsigned char byte) {
  if (byte < 0x80) return {1, byte, 0};
  if (byte >= 0xC2 && byte <= 0xDF) return {2, byte & 0x1Fu, 0x80};
  if (byte >= 0xE0 && byte <= 0xEF) return {3, byte & 0x0Fu, 0x800};
  if (byte >= 0xF0 && byte <= 0xF4) return {4, byte & 0x07u, 0x10000};
  return {0, 0, 0};
}

/// What ends a line for some readers and not for others could hide text from the checks.
bool hides_text(std::string_view text, std::size_t offset, char32_t code) {
  const bool stray_return = code == '\r' && text.substr(offset + 1, 1) != "\n";
  return stray_return || code == k_line_separator || code == k_paragraph_separator;
}

Diagnostic at_offset(std::string_view text, std::size_t offset, const Places& places) {
  Diagnostic diagnostic;
  diagnostic.mark = places.at(offset);
  diagnostic.found = std::string(text.substr(offset, k_shown_bytes));
  return diagnostic;
}

Diagnostic not_utf8(std::string_view text, std::size_t offset, const Places& places) {
  Diagnostic diagnostic = at_offset(text, offset, places);
  diagnostic.code = "not_text";
  const bool wide = text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF";
  diagnostic.message =
      wide ? "The file is not UTF-8; it looks like UTF-16." : "The file holds bytes that are not UTF-8.";
  diagnostic.accepted = "text saved as UTF-8";
  return diagnostic;
}

Diagnostic control_character(std::string_view text, std::size_t offset, const Places& places) {
  Diagnostic diagnostic = at_offset(text, offset, places);
  diagnostic.code = "not_text";
  diagnostic.found = std::string(text.substr(offset, character_at(text, offset).bytes));
  diagnostic.message = "The file holds a control character.";
  diagnostic.accepted = "letters, signs, spaces, tabs and line ends";
  return diagnostic;
}

Diagnostic directive(std::string_view text, std::size_t offset, const Places& places) {
  Diagnostic diagnostic = at_offset(text, offset, places);
  diagnostic.code = "syntax";
  diagnostic.found = std::string(text.substr(offset, text.find('\n', offset) - offset));
  diagnostic.message = "A line may not begin with `%`.";
  diagnostic.accepted = "the text in quotes, or moved in by a space";
  return diagnostic;
}

}  // namespace

Character character_at(std::string_view text, std::size_t offset) {
  const Lead lead = lead_of(static_cast<unsigned char>(text[offset]));
  if (lead.bytes == 0 || offset + lead.bytes > text.size()) return {};
  char32_t code = lead.bits;
  for (std::size_t i = 1; i < lead.bytes; ++i) {
    const char byte = text[offset + i];
    if (!is_continuation(byte)) return {};
    code = (code << 6) | (static_cast<unsigned char>(byte) & 0x3Fu);
  }
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (code < lead.least || surrogate || code > 0x10FFFF) return {};
  return {lead.bytes, code};
}

bool is_refused_control(char32_t code) {
  if (code == '\t' || code == '\n' || code == '\r') return false;
  return code < 0x20 || (code >= 0x7F && code <= 0x9F) || code == k_byte_order_mark;
}

bool is_clean(std::string_view text) {
  for (std::size_t offset = 0; offset < text.size();) {
    const Character character = character_at(text, offset);
    if (character.bytes == 0 || is_refused_control(character.code)) return false;
    offset += character.bytes;
  }
  return true;
}

Places::Places(std::string_view text) : text_(text), line_starts_{0} {
  characters_.reserve(text.size() / k_block + 1);
  std::size_t characters = 0;
  for (std::size_t offset = 0; offset < text.size(); ++offset) {
    if (offset % k_block == 0) characters_.push_back(characters);
    if (!is_continuation(text[offset])) ++characters;
    if (text[offset] == '\n') line_starts_.push_back(offset + 1);
  }
  if (text.size() % k_block == 0) characters_.push_back(characters);
}

std::size_t Places::characters_before(std::size_t offset) const {
  const std::size_t block = offset / k_block;
  std::size_t characters = characters_[block];
  for (std::size_t i = block * k_block; i < offset; ++i) characters += is_continuation(text_[i]) ? 0 : 1;
  return characters;
}

Mark Places::at(std::size_t offset) const {
  offset = std::min(offset, text_.size());
  const auto next_line = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
  const std::size_t column = characters_before(offset) - characters_before(*(next_line - 1));
  return {static_cast<int>(next_line - line_starts_.begin()), static_cast<int>(column) + 1};
}

std::size_t Places::offset(Mark mark) const {
  const auto line = static_cast<std::size_t>(mark.line);
  if (line > line_starts_.size()) return text_.size();
  const std::size_t wanted = characters_before(line_starts_[line - 1]) + static_cast<std::size_t>(mark.column - 1);
  const auto next_block = std::upper_bound(characters_.begin(), characters_.end(), wanted);
  const auto block = static_cast<std::size_t>(next_block - characters_.begin()) - 1;
  std::size_t offset = block * k_block;
  for (std::size_t characters = characters_[block]; offset < text_.size(); ++offset) {
    if (is_continuation(text_[offset])) continue;
    if (characters == wanted) break;
    ++characters;
  }
  return offset;
}

std::optional<Diagnostic> refusal(std::string_view text, Format format, const Places& places) {
  const bool yaml = format == Format::yaml;
  for (std::size_t offset = 0; offset < text.size();) {
    if (is_plain(text[offset]) && text[offset] != '%') {
      ++offset;
      continue;
    }
    const Character character = character_at(text, offset);
    if (character.bytes == 0) return not_utf8(text, offset, places);
    if ((yaml && hides_text(text, offset, character.code)) || is_refused_control(character.code))
      return control_character(text, offset, places);
    const bool line_start = offset == 0 || text[offset - 1] == '\n';
    if (yaml && line_start && character.code == '%') return directive(text, offset, places);
    offset += character.bytes;
  }
  return std::nullopt;
}

}  // namespace cotter::document
