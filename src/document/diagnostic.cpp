#include "document/diagnostic.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "document/parse_text.hpp"

namespace cotter::document {
namespace {

constexpr std::size_t k_found_most = 40;
constexpr std::size_t k_field_most = 200;
constexpr std::size_t k_sentence_most = 2000;

/// Marks that turn the writing direction, and the two separators that some screens break a line at.
bool is_hidden(char32_t code) {
  return (code >= 0x2028 && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069) || code == 0xFEFF;
}

void append_escaped(std::string& out, std::string_view bytes) {
  if (bytes == "\n") {
    out += "\\n";
  } else if (bytes == "\t") {
    out += "\\t";
  } else {
    for (const char byte : bytes) out += fmt::format("\\x{:02X}", static_cast<unsigned char>(byte));
  }
}

}  // namespace

std::string printable(std::string_view text, std::size_t most_characters) {
  if (text.size() <= most_characters && std::all_of(text.begin(), text.end(), is_plain)) return std::string(text);
  std::string out;
  std::size_t characters = 0;
  for (std::size_t offset = 0; offset < text.size(); ++characters) {
    if (characters == most_characters) return out + "…";
    const Character character = character_at(text, offset);
    const std::string_view bytes = text.substr(offset, character.bytes == 0 ? 1 : character.bytes);
    const bool shown = character.bytes != 0 && character.code >= 0x20 && !is_refused_control(character.code) &&
                       !is_hidden(character.code);
    if (shown) {
      out += bytes;
    } else {
      append_escaped(out, bytes);
    }
    offset += bytes.size();
  }
  return out;
}

void Diagnostics::add(Diagnostic diagnostic) {
  if (list_.size() == k_most) {
    ++left_out_;
    return;
  }
  if (diagnostic.file.empty()) diagnostic.file = file_;
  diagnostic.file = printable(diagnostic.file, k_sentence_most);
  diagnostic.field = printable(diagnostic.field, k_field_most);
  diagnostic.message = printable(diagnostic.message, k_sentence_most);
  diagnostic.found = printable(diagnostic.found, k_found_most);
  diagnostic.accepted = printable(diagnostic.accepted, k_sentence_most);
  diagnostic.suggestion = printable(diagnostic.suggestion, k_found_most);
  list_.push_back(std::move(diagnostic));
}

void Diagnostics::append(const Diagnostics& other) {
  for (const Diagnostic& diagnostic : other.list_) add(diagnostic);
  left_out_ += other.left_out_;
}

std::string one_line(const Diagnostic& diagnostic) {
  std::string out = diagnostic.file;
  if (diagnostic.mark.line > 0) out += fmt::format(":{}:{}", diagnostic.mark.line, diagnostic.mark.column);
  if (!out.empty()) out += ": ";
  if (!diagnostic.field.empty()) out += diagnostic.field + ": ";
  std::string_view message = diagnostic.message;
  if (message.ends_with('.')) message.remove_suffix(1);
  out += message;
  if (!diagnostic.found.empty()) out += fmt::format("; found \"{}\"", diagnostic.found);
  if (!diagnostic.accepted.empty()) out += fmt::format("; accepted: {}", diagnostic.accepted);
  if (!diagnostic.suggestion.empty()) out += fmt::format("; did you mean \"{}\"?", diagnostic.suggestion);
  return out;
}

}  // namespace cotter::document
