#include "words/layout.hpp"

#include <algorithm>
#include <utf8proc.h>

namespace cotter::words {
namespace {

/// Bytes and columns of the code point at the front; broken bytes count as one column each.
std::pair<std::size_t, int> front(std::string_view text) {
  utf8proc_int32_t code = 0;
  const utf8proc_ssize_t bytes = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                                  static_cast<utf8proc_ssize_t>(text.size()), &code);
  if (bytes <= 0) return {1, 1};
  return {static_cast<std::size_t>(bytes), utf8proc_charwidth(code)};
}

std::string cut(std::string_view text, int width) {
  if (display_width(text) <= width) return std::string(text);
  std::string out;
  int used = 0;
  while (!text.empty()) {
    const auto [bytes, columns] = front(text);
    if (used + columns > width - 1) break;
    out += text.substr(0, bytes);
    used += columns;
    text.remove_prefix(bytes);
  }
  return out + "…";
}

std::string blanks(int count) {
  return std::string(static_cast<std::size_t>(std::max(0, count)), ' ');
}

}  // namespace

int display_width(std::string_view text) {
  int width = 0;
  while (!text.empty()) {
    const auto [bytes, columns] = front(text);
    width += columns;
    text.remove_prefix(bytes);
  }
  return width;
}

std::vector<std::string> wrap(std::string_view text, int width) {
  std::vector<std::string> lines;
  std::string line;
  while (!text.empty()) {
    const std::size_t space = text.find_first_of(" \n\t");
    const std::string_view word = text.substr(0, space);
    text.remove_prefix(space == std::string_view::npos ? text.size() : space + 1);
    if (word.empty()) continue;
    if (!line.empty() && display_width(line) + 1 + display_width(word) > width) {
      lines.push_back(line);
      line.clear();
    }
    line += (line.empty() ? "" : " ") + std::string(word);
  }
  if (!line.empty() || lines.empty()) lines.push_back(line);
  return lines;
}

std::string hanging(std::string_view first, std::string_view text, int width) {
  const int indent = display_width(first);
  std::string out;
  for (const std::string& line : wrap(text, std::max(20, width - indent)))
    out += (out.empty() ? std::string(first) : blanks(indent)) + line + "\n";
  return out;
}

std::string cell(std::string_view text, int width) {
  std::string out = cut(text, width);
  return out + blanks(width - display_width(out));
}

std::string cell_right(std::string_view text, int width) {
  const std::string out = cut(text, width);
  return blanks(width - display_width(out)) + out;
}

}  // namespace cotter::words
