#pragma once
// Pieces of a plan document: values, ranges, findings.

#include "document/node.hpp"
#include "model/finding.hpp"

namespace cotter::document {

Node text_list(const std::vector<std::string>& list);
/// One node for each entry, made by `write`.
template <class Entry, class Write>
Node list_of(const std::vector<Entry>& entries, const Write& write) {
  Node list = Node::list();
  for (const Entry& entry : entries) list.push(write(entry));
  return list;
}
/// {hundredths, currency}, or null.
Node price_node(const std::optional<model::Price>& price);
/// {text, low, high, origin, ...}: the written value, its limits in base units, where it comes from.
Node value_node(const quantity::Value& value);
/// {low, high, low_text, high_text}; an open end is null.
Node range_node(const quantity::Range& range, quantity::Dimension dimension);

}  // namespace cotter::document
