#include "draw/lettering.hpp"

#include <array>

#include "draw/utf8.hpp"

namespace cotter::draw {
namespace {

using Widths = std::array<int, 95>;
constexpr std::string_view k_ellipsis = "…";

// Thousandths of the size for the characters from space to tilde. Source: the fonts themselves, read by
// `script/subset_fonts --widths`; regular and bold of the plain face are equally wide.
constexpr Widths k_technical = {435, 220, 391, 613, 466, 764, 614, 204, 255, 255, 526, 465, 233, 465, 202, 491,
                                567, 485, 572, 574, 576, 609, 588, 578, 590, 603, 222, 255, 465, 464, 465, 464,
                                811, 614, 671, 600, 657, 599, 613, 689, 714, 323, 414, 680, 587, 789, 703, 669,
                                658, 686, 714, 669, 620, 698, 710, 884, 698, 724, 656, 266, 462, 266, 390, 465,
                                315, 543, 599, 500, 592, 591, 542, 612, 585, 300, 327, 601, 384, 745, 583, 582,
                                610, 583, 496, 582, 477, 590, 582, 762, 595, 595, 464, 314, 221, 314, 466};
constexpr Widths k_plain = {350,  350, 400, 850, 550, 900, 700, 200, 450, 450, 550, 600, 250, 450, 300, 550,
                            650,  650, 650, 650, 650, 650, 650, 650, 650, 650, 300, 250, 650, 500, 650, 550,
                            1000, 650, 650, 600, 650, 600, 550, 650, 700, 300, 450, 600, 550, 900, 750, 800,
                            600,  800, 650, 550, 600, 700, 650, 950, 650, 600, 600, 450, 550, 500, 750, 550,
                            550,  525, 600, 500, 600, 550, 400, 600, 600, 300, 300, 550, 350, 900, 600, 600,
                            600,  600, 400, 450, 400, 600, 550, 750, 550, 550, 500, 649, 200, 600, 750};
constexpr int k_latin_beyond_ascii = 700;
constexpr int k_full_width = 1000;

int thousandths(char32_t code, Face face) {
  if (code < 0x20 || code == 0x7F) return k_full_width;
  if (code < 0x7F) return (face == Face::technical ? k_technical : k_plain)[code - 0x20];
  return code < 0x0250 ? k_latin_beyond_ascii : k_full_width;
}

/// Bytes of the longest start of `text` that is at most `width` wide; at least one letter.
std::size_t bytes_within(std::string_view text, Face face, double size, double width) {
  std::size_t bytes = 0;
  double used = 0;
  while (bytes < text.size()) {
    const Letter letter = first_letter(text.substr(bytes));
    used += thousandths(letter.code, face) * size / 1000;
    if (used > width && bytes > 0) break;
    bytes += letter.bytes;
  }
  return bytes;
}

std::string_view without_end_spaces(std::string_view text) {
  const auto last = text.find_last_not_of(' ');
  return last == std::string_view::npos ? std::string_view{} : text.substr(0, last + 1);
}

}  // namespace

double text_width(std::string_view text, Face face, double size) {
  double sum = 0;
  while (!text.empty()) {
    const Letter letter = first_letter(text);
    sum += thousandths(letter.code, face);
    text.remove_prefix(letter.bytes);
  }
  return sum * size / 1000;
}

std::string fitted(std::string_view text, Face face, double size, double width) {
  if (text_width(text, face, size) <= width) return std::string(text);
  const double room = width - text_width(k_ellipsis, face, size);
  return std::string(without_end_spaces(text.substr(0, bytes_within(text, face, size, room)))) +
         std::string(k_ellipsis);
}

std::vector<std::string> wrapped(std::string_view text, Face face, double size, double width, std::size_t most_lines) {
  std::vector<std::string> lines;
  while (true) {
    const auto start = text.find_first_not_of(" \n\t");
    if (start == std::string_view::npos || lines.size() == most_lines) return lines;
    text.remove_prefix(start);
    if (lines.size() + 1 == most_lines) {
      lines.push_back(fitted(without_end_spaces(text), face, size, width));
      return lines;
    }
    std::size_t bytes = bytes_within(text, face, size, width);
    if (bytes < text.size() && text[bytes] != ' ') {
      const auto space = text.substr(0, bytes).find_last_of(' ');
      if (space != std::string_view::npos) bytes = space;
    }
    lines.emplace_back(without_end_spaces(text.substr(0, bytes)));
    text.remove_prefix(bytes);
  }
}

}  // namespace cotter::draw
