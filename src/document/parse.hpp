#pragma once
// Text from outside to a Node: YAML written by people, JSON written by machines. Guards first, then the parser.

#include <cstddef>
#include <string>
#include <string_view>

#include "document/diagnostic.hpp"
#include "document/node.hpp"

namespace cotter::document {

/// What one document may cost at most.
struct Limits {
  std::size_t bytes = 1u << 20;
  int depth = 64;
  std::size_t nodes = 100'000;
};

enum class Format { yaml, json };
/// By the ending of the name; YAML unless it ends in `.json`.
Format format_of(std::string_view file);

/// Parses exactly one document.
///
/// **Fails with** diagnostics for: too many bytes, nodes or levels; bytes that are not UTF-8, control characters, a
/// `%` directive; anchors, aliases, tags; a key given twice; a quoted scalar that does not close on the line of its
/// mark; more than one document; and whatever the parser itself refuses. Never throws on any input.
Read<Node> parse(std::string_view text, std::string file, Format format, const Limits& limits = {});

/// Reads a file whole, at most `limits.bytes`, and parses it. A file that cannot be read is a diagnostic too.
Read<Node> parse_file(const std::string& path, const Limits& limits = {});
/// The bytes of a file, at most `limits.bytes`.
Read<std::string> read_text(const std::string& path, const Limits& limits = {});

/// JSON text: two spaces a level, keys in the order of the node, no trailing newline.
std::string write_json(const Node& node);
/// JSON on one line.
std::string write_json_line(const Node& node);

/// SHA-256 of the canonical JSON of a node, as 64 hexadecimal digits.
std::string content_hash(const Node& node);

}  // namespace cotter::document
