#pragma once
// What a YAML text may not hold, in words: our own refusals and those of the parser (libyaml).

#include <string>
#include <string_view>
#include <yaml.h>

#include "document/diagnostic.hpp"
#include "document/parse_text.hpp"

namespace cotter::document {

/// The wording of a refusal that is made in more than one place.
struct Refusal {
  const char* code;
  const char* message;
  const char* accepted;
};
inline constexpr Refusal k_anchor{"alias", "Anchors (`&`) are not allowed.", "the value itself"};
inline constexpr Refusal k_alias{"alias", "Aliases (`*`) are not allowed.", "the value itself, or the text in quotes"};
inline constexpr Refusal k_tag{"syntax", "Tags (`!`) are not allowed.",
                               "the value itself, in quotes if it begins with `!`"};
inline constexpr Refusal k_no_key{"syntax", "The key is missing here.", "a word, a colon and a value"};
inline constexpr Refusal k_no_colon{"syntax", "The colon is missing after this key.", "a word, a colon and a value"};
inline constexpr Refusal k_open_quote{"unclosed_quote", "The quoted text does not end on its line.",
                                      "a closing quote on the line of the opening one"};
inline constexpr Refusal k_empty{"syntax", "The document is empty.", "lines `key: value`"};
inline constexpr Refusal k_many_documents{"many_documents", "There is more text after the end of the document.",
                                          "one document in a file"};

/// A text with the places in it.
struct Source {
  std::string_view text;
  const Places& places;
};

/// Lines and columns of the parser start at 0; it counts the same lines and characters as `Places`.
inline Mark mark_of(const yaml_mark_t& mark) {
  return {static_cast<int>(mark.line) + 1, static_cast<int>(mark.column) + 1};
}

/// The refusal with the rest of the line at `offset` as what was found; `path` names the node there.
Diagnostic refused_at(const Refusal& refusal, const Source& source, std::size_t offset, std::string path);

/// Why the parser has stopped. `reached` is the offset of its last event, `path` the node that would have come next.
Diagnostic parser_refusal(const yaml_parser_t& parser, const Source& source, std::size_t reached, std::string path);

}  // namespace cotter::document
