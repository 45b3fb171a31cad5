#pragma once
// Short ways to parse and to say what a test expects.

#include <string>
#include <string_view>
#include <vector>

#include "document/parse.hpp"
#include "document/schema.hpp"

namespace cotter::document::test {

inline Read<Node> yaml(std::string_view text, const Limits& limits = {}) {
  return parse(text, "job.yaml", Format::yaml, limits);
}
inline Read<Node> json(std::string_view text, const Limits& limits = {}) {
  return parse(text, "job.json", Format::json, limits);
}

using Words = std::vector<std::string>;

/// Every diagnostic on its line.
inline Words lines(const Diagnostics& diagnostics) {
  Words out;
  for (const Diagnostic& diagnostic : diagnostics.list()) out.push_back(one_line(diagnostic));
  return out;
}
/// The same; empty when the text was read.
inline Words complaints(const Read<Node>& read) {
  return read ? Words() : lines(read.error());
}

inline Words codes(const Diagnostics& diagnostics) {
  Words found;
  for (const Diagnostic& diagnostic : diagnostics.list()) found.push_back(diagnostic.code);
  return found;
}
inline Words codes(const Read<Node>& read) {
  return read ? Words() : codes(read.error());
}

inline Diagnostics checked(const Node& node, const SchemaRef& schema) {
  Diagnostics diagnostics("job.yaml");
  check(node, *schema, diagnostics);
  return diagnostics;
}

}  // namespace cotter::document::test
