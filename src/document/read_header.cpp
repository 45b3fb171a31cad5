#include "document/read_header.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>

#include "document/schema_words.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

std::optional<Header> split(const std::string& text) {
  const std::size_t gap = text.find(' ');
  if (gap == std::string::npos || gap == 0) return std::nullopt;
  Header header{text.substr(0, gap), 0};
  const char* begin = text.data() + gap + 1;
  const char* end = text.data() + text.size();
  const auto [last, error] = std::from_chars(begin, end, header.version);
  if (error != std::errc() || last != end || header.version < 0) return std::nullopt;
  return header;
}

std::string example_of(const std::vector<std::string>& kinds) {
  return fmt::format("`cotter: {} {}`", kinds.front(), k_format_version);
}

}  // namespace

std::optional<Header> read_header(const Node& document, const std::vector<std::string>& kinds,
                                  Diagnostics& diagnostics) {
  const Spot spot = Spot(document).at("cotter");
  if (!spot.is_scalar()) {
    report(diagnostics, spot, "missing_field", "The document does not say what it is.",
           example_of(kinds) + " as its first line");
    return std::nullopt;
  }
  auto header = split(spot.text());
  if (!header) {
    report(diagnostics, spot, "bad_value", "This is not a kind of document with its version.", example_of(kinds));
    return std::nullopt;
  }
  if (std::find(kinds.begin(), kinds.end(), header->kind) == kinds.end()) {
    report(diagnostics, spot, "unknown_word", "This kind of document is not known here.",
           "one of: " + comma_list(kinds), quantity::nearest_word(header->kind, kinds).value_or(""));
    return std::nullopt;
  }
  if (header->version > k_format_version) {
    report(diagnostics, spot, "newer_version",
           fmt::format("The document is of version {}; this program reads versions up to {}. Take a newer program, or "
                       "write the document anew.",
                       header->version, k_format_version),
           fmt::format("`{} {}`", header->kind, k_format_version));
    return std::nullopt;
  }
  return header;
}

const MigrationTable& migration_steps() {
  static const MigrationTable steps;
  return steps;
}

std::optional<Node> migrate(Node document, const Header& from, int to, const MigrationTable& steps,
                            Diagnostics& diagnostics) {
  const auto kind = steps.find(from.kind);
  for (int version = from.version; version < to; ++version) {
    if (kind == steps.end() || !kind->second.contains(version)) {
      report(diagnostics, Spot(document).at("cotter"), "no_migration",
             fmt::format("There is no way from version {} of this kind to version {}.", version, version + 1),
             fmt::format("`{} {}`", from.kind, to));
      return std::nullopt;
    }
    document = kind->second.at(version)(std::move(document));
  }
  return document;
}

std::optional<Node> newest_version(Node document, const std::vector<std::string>& kinds, std::string& kind,
                                   Diagnostics& diagnostics) {
  const auto header = read_header(document, kinds, diagnostics);
  if (!header) return std::nullopt;
  kind = header->kind;
  return migrate(std::move(document), *header, k_format_version, migration_steps(), diagnostics);
}

}  // namespace cotter::document
