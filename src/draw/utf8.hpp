#pragma once
// Walks over UTF-8 text one character at a time.

#include <cstdint>
#include <string_view>

namespace cotter::draw {

struct Letter {
  char32_t code = 0;
  std::size_t bytes = 1;
  bool valid = true;
};

/// The first character of `text`, which must not be empty. Overlong, cut off or out of range: one byte, not valid.
inline Letter first_letter(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned lead = byte(0);
  if (lead < 0x80) return {static_cast<char32_t>(lead)};
  const std::size_t bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || text.size() < bytes) return {0, 1, false};
  char32_t code = lead & (0x7Fu >> bytes);
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(i) & 0xC0u) != 0x80u) return {0, 1, false};
    code = code << 6 | (byte(i) & 0x3Fu);
  }
  const bool overlong = (bytes == 3 && code < 0x800) || (bytes == 4 && code < 0x10000);
  const bool impossible = (code >= 0xD800 && code < 0xE000) || code > 0x10FFFF;
  if (overlong || impossible) return {0, 1, false};
  return {code, bytes, true};
}

}  // namespace cotter::draw
