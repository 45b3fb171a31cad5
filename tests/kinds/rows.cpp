#include "rows.hpp"

#include <algorithm>
#include <filesystem>
#include <stdexcept>

#include "document/parse.hpp"
#include "document/schema.hpp"

namespace cotter::kinds {
namespace {

using document::Field;
using document::Node;
using document::SchemaRef;

SchemaRef text() {
  return document::text_schema(200);
}

Field needed(const std::string& name, SchemaRef schema) {
  return {name, std::move(schema), Field::Need::required, ""};
}

Field optional(const std::string& name, SchemaRef schema) {
  return {name, std::move(schema), Field::Need::optional, ""};
}

SchemaRef row_schema() {
  using namespace document;
  const SchemaRef limit = object_schema("limit", {needed("move", text()), needed("at", text()), needed("below", text()),
                                                  needed("above", text()), optional("step", text())});
  const SchemaRef differs =
      object_schema("differs", {needed("set", text()), needed("to", text()), needed("says", text())});
  return object_schema("row", {needed("rule", text()), optional("own", map_schema(text())),
                               optional("other", map_schema(text())), needed("says", text()),
                               optional("limits", list_schema(limit)), optional("differs", list_schema(differs))});
}

Node read(const std::string& file, const SchemaRef& item, const std::string& list) {
  using namespace document;
  auto parsed = parse_file(file);
  Diagnostics diagnostics(file);
  if (parsed) check(*parsed, *object_schema("file", {needed(list, list_schema(item))}), diagnostics);
  if (!parsed) diagnostics.append(parsed.error());
  if (!diagnostics.empty()) throw std::runtime_error(one_line(diagnostics.list().front()));
  return *parsed->find(list);
}

std::map<std::string, std::string> texts_of(const Node& node, const char* key) {
  std::map<std::string, std::string> out;
  if (const Node* map = node.find(key); map != nullptr)
    for (const Node::Entry& entry : map->entries()) out[entry.key] = entry.value.scalar();
  return out;
}

std::string place_of(const std::string& file, const Node& node) {
  return std::filesystem::path(file).filename().string() + ":" + std::to_string(node.mark().line);
}

Row row_of(const Node& node, const std::string& file) {
  using document::text_or;
  Row row{place_of(file, node),
          text_or(node, "rule"),
          texts_of(node, "own"),
          texts_of(node, "other"),
          text_or(node, "says"),
          {},
          {}};
  if (const Node* limits = node.find("limits"); limits != nullptr)
    for (const Node& one : limits->items())
      row.limits.push_back({text_or(one, "move"), text_or(one, "at"), text_or(one, "below"), text_or(one, "above"),
                            text_or(one, "step")});
  if (const Node* differs = node.find("differs"); differs != nullptr)
    for (const Node& one : differs->items())
      row.differs.push_back({text_or(one, "set"), text_or(one, "to"), text_or(one, "says")});
  return row;
}

}  // namespace

std::vector<Row> read_rows(const std::string& folder) {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) files.push_back(entry.path().string());
  std::sort(files.begin(), files.end());
  std::vector<Row> rows;
  for (const std::string& file : files) {
    const Node list = read(file, row_schema(), "rows");
    for (const Node& node : list.items()) rows.push_back(row_of(node, file));
  }
  return rows;
}

std::vector<PartPair> read_part_pairs(const std::string& file) {
  const SchemaRef item = document::object_schema(
      "pair", {needed("own", text()), needed("other", text()), needed("says", document::map_schema(text()))});
  const Node list = read(file, item, "pairs");
  std::vector<PartPair> pairs;
  for (const Node& node : list.items())
    pairs.push_back({place_of(file, node), document::text_or(node, "own"), document::text_or(node, "other"),
                     texts_of(node, "says")});
  return pairs;
}

}  // namespace cotter::kinds
