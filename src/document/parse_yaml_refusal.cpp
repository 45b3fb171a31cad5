#include "document/parse_yaml_refusal.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <optional>
#include <utility>

#include "document/parse_quote.hpp"
#include "document/parse_tree.hpp"

namespace cotter::document {
namespace {

constexpr Refusal k_not_a_character{"not_text", "The file holds a control character.",
                                    "letters, signs, spaces, tabs and line ends"};
constexpr Refusal k_bracket{"syntax", "The bracket that opens here is not closed as it should be.",
                            "commas between the entries and the closing bracket behind the last"};
constexpr Refusal k_no_value{"syntax", "The value is missing here.", "a value behind the colon"};
constexpr Refusal k_no_space{"syntax", "The space behind the colon is missing.",
                             "a word, a colon, a space and a value"};
constexpr Refusal k_bracket_as_key{"syntax", "The bracket stands where a key should.",
                                   "the bracket on the line of its key, or moved in behind it"};
constexpr const char* k_lines =
    "lines `key: value` moved in alike, items `- value`, and text with `: ` or ` #` in quotes";

std::string_view rest_of_line(std::string_view text, std::size_t offset) {
  const std::string_view rest = text.substr(std::min(offset, text.size()));
  return rest.substr(0, rest.find_first_of("\r\n"));
}

std::string_view view(const char* text) {
  return text == nullptr ? std::string_view() : text;
}

/// What the parser's commoner complaints mean to somebody who does not know its grammar.
std::string_view in_plain_words(std::string_view problem, char found) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 8> k_words{{
      {"mapping values are not allowed in this context", "a colon where no key can end"},
      {"block sequence entries are not allowed in this context", "a list where none can begin"},
      {"did not find expected key", "no key, or one that is moved in by more or less than those before it"},
      {"did not find expected '-' indicator", "no `- ` where the next item must stand"},
      {"found unknown escape character", "an unknown letter or sign after a backslash"},
      {"found character that cannot start any token", "a sign that text without quotes may not begin with"},
      {"did not find expected node content", "no text before this sign"},
      {"did not find expected comment or line break", "more text on the line of `|` or `>`"},
  }};
  if (found == '\t') return "a tab where only spaces may stand";
  const auto known =
      std::find_if(k_words.begin(), k_words.end(), [&](const auto& words) { return words.first == problem; });
  return known == k_words.end() ? problem : known->second;
}

/// The rule of ours that the parser's complaint comes from, with its place.
std::optional<std::pair<Refusal, yaml_mark_t>> own_rule(const yaml_parser_t& parser, char found) {
  const std::string_view context = view(parser.context);
  const std::string_view problem = view(parser.problem);
  if (context == "while scanning an anchor") return {{k_anchor, parser.context_mark}};
  if (context == "while scanning an alias") return {{k_alias, parser.context_mark}};
  if (context == "while scanning a tag" || context == "while parsing a tag") return {{k_tag, parser.context_mark}};
  if (problem == "found undefined tag handle") return {{k_tag, parser.problem_mark}};
  if (problem == "did not find expected <document start>") return {{k_many_documents, parser.problem_mark}};
  if (context == "while parsing a flow sequence" || context == "while parsing a flow mapping")
    return {{k_bracket, parser.context_mark}};
  const bool awaits_key = problem == "did not find expected key" || problem == "did not find expected node content";
  if (awaits_key && found == ':') return {{k_no_key, parser.problem_mark}};
  return std::nullopt;
}

/// A word in brackets with a colon and no space behind it; `key` is where the word begins.
Diagnostic tight_colon(const Source& source, std::size_t key, std::size_t colon, const std::string& path) {
  const std::string_view text = source.text;
  const std::string own = path_of_key(path, text.substr(key, colon - key));
  const bool empty = colon + 1 < text.size() && std::string_view(",]}").find(text[colon + 1]) != std::string_view::npos;
  return empty ? refused_at(k_no_value, source, colon + 1, own) : refused_at(k_no_space, source, colon, own);
}

}  // namespace

Diagnostic refused_at(const Refusal& refusal, const Source& source, std::size_t offset, std::string path) {
  return {refusal.code,
          "",
          source.places.at(offset),
          std::move(path),
          refusal.message,
          std::string(rest_of_line(source.text, offset)),
          refusal.accepted,
          ""};
}

Diagnostic parser_refusal(const yaml_parser_t& parser, const Source& source, std::size_t reached, std::string path) {
  const std::string_view text = source.text;
  if (parser.error == YAML_READER_ERROR)
    return refused_at(k_not_a_character, source, parser.problem_offset, std::move(path));
  const std::size_t offset = source.places.offset(mark_of(parser.problem_mark));
  if (const auto quote = find_open_quote(text, reached, std::max(offset, reached + 1)))
    return refused_at(k_open_quote, source, *quote, std::move(path));
  if (view(parser.context) == "while scanning a simple key") {
    const std::size_t key = source.places.offset(mark_of(parser.context_mark));
    const char first = key < text.size() ? text[key] : '\0';
    if (first == '[' || first == '{') return refused_at(k_bracket_as_key, source, key, std::move(path));
    return refused_at(k_no_colon, source, key, path_of_key(path, rest_of_line(text, key)));
  }
  if (view(parser.problem) == "found unexpected ':'")
    return tight_colon(source, source.places.offset(mark_of(parser.context_mark)), offset, path);
  const char found = offset < text.size() ? text[offset] : '\0';
  if (const auto rule = own_rule(parser, found))
    return refused_at(rule->first, source, source.places.offset(mark_of(rule->second)), std::move(path));
  Diagnostic diagnostic = refused_at({"syntax", "", k_lines}, source, offset, std::move(path));
  diagnostic.message =
      fmt::format("The text cannot be read as YAML here ({}).", in_plain_words(view(parser.problem), found));
  return diagnostic;
}

}  // namespace cotter::document
