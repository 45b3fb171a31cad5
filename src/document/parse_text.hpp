#pragma once
// What every text from outside must pass before a parser sees it, and places in it: byte offset to line and column.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "document/diagnostic.hpp"
#include "document/parse.hpp"

namespace cotter::document {

/// One character of UTF-8 text; `bytes` is 0 where the bytes are not UTF-8.
struct Character {
  std::size_t bytes = 0;
  char32_t code = 0;
};

/// The character that starts at `offset`, which lies within the text.
///
/// **Source** The Unicode Standard, table 3-7, well-formed byte sequences (from memory): no overlong form, no
/// surrogate, nothing above U+10FFFF.
Character character_at(std::string_view text, std::size_t offset);

/// The signs of ASCII that show themselves: nearly all of a text, so that loops may pass them quickly.
inline bool is_plain(char byte) {
  return byte >= 0x20 && byte < 0x7F;
}

/// Control characters other than tab, line feed and carriage return, and the byte order mark: it may only begin a file,
/// and the parsers skip a second one unseen.
bool is_refused_control(char32_t code);

/// Text from which parsers and screens have nothing to fear: UTF-8 without refused control characters.
bool is_clean(std::string_view text);

/// Line and column of byte offsets in one text; columns count characters.
class Places {
 public:
  explicit Places(std::string_view text);
  /// Offsets behind the end give the end.
  Mark at(std::size_t offset) const;
  /// The offset of a line and a column; those behind the text give its end.
  std::size_t offset(Mark mark) const;

 private:
  static constexpr std::size_t k_block = 64;
  std::size_t characters_before(std::size_t offset) const;

  std::string_view text_;
  std::vector<std::size_t> line_starts_;
  std::vector<std::size_t> characters_;  ///< characters before each whole block
};

/// The first reason not to hand the text to the parser of this format, if there is one.
std::optional<Diagnostic> refusal(std::string_view text, Format format, const Places& places);

}  // namespace cotter::document
