#include "problem/names.hpp"

#include <algorithm>
#include <set>

#include "quantity/text.hpp"

namespace cotter::problem {
namespace {

constexpr std::size_t k_most_listed = 8;

std::string listed(const std::vector<std::string>& known) {
  if (known.empty()) return "no name: there is none yet";
  std::string text;
  for (std::size_t i = 0; i < std::min(known.size(), k_most_listed); ++i) text += (i == 0 ? "" : ", ") + known[i];
  return known.size() > k_most_listed ? text + ", ..." : text;
}

}  // namespace

const std::vector<document::Node>& entries_of(const document::Node& map, std::string_view list) {
  static const std::vector<document::Node> k_none;
  const document::Node* found = map.find(list);
  return found == nullptr ? k_none : found->items();
}

std::string entry_field(std::string_view list, std::size_t i) {
  return std::string(list) + "[" + std::to_string(i) + "]";
}

std::vector<std::string> ids_of(const document::Node& problem, const std::string& list,
                                document::Diagnostics& diagnostics) {
  std::vector<std::string> ids;
  std::set<std::string> seen;
  const std::vector<document::Node>& entries = entries_of(problem, list);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const document::Node& id = *entries[i].find("id");
    ids.push_back(id.scalar());
    if (seen.insert(id.scalar()).second) continue;
    diagnostics.add({"double_id", "", id.mark(), entry_field(list, i) + ".id", "This id stands in the list already.",
                     id.scalar(), "each id once", ""});
  }
  return ids;
}

void check_name(const std::string& name, document::Mark mark, const std::string& field, std::string_view noun,
                const std::vector<std::string>& known, document::Diagnostics& diagnostics) {
  if (std::find(known.begin(), known.end(), name) != known.end()) return;
  diagnostics.add({"unknown_name", "", mark, field, "There is no " + std::string(noun) + " of this name.", name,
                   listed(known), quantity::nearest_word(name, known).value_or("")});
}

std::vector<std::string> read_names(const document::Node& map, const std::string& list, const std::string& field,
                                    std::string_view noun, const std::vector<std::string>& known,
                                    document::Diagnostics& diagnostics) {
  std::vector<std::string> names;
  const std::vector<document::Node>& entries = entries_of(map, list);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    names.push_back(entries[i].scalar());
    check_name(names.back(), entries[i].mark(), field + "." + entry_field(list, i), noun, known, diagnostics);
  }
  return names;
}

document::Node text_list(const std::vector<std::string>& texts) {
  document::Node list = document::Node::list();
  for (const std::string& text : texts) list.push(document::Node::text(text));
  return list;
}

document::Node certainty_node(quantity::Certainty certainty) {
  return document::Node::text(std::string(quantity::word_for(certainty)));
}

}  // namespace cotter::problem
