#include <map>

#include "document/schema.hpp"
#include "document/schema_value.hpp"
#include "quantity/ensure.hpp"

namespace cotter::document {
namespace {

constexpr const char* k_identifier_pattern = "^[a-z][a-z0-9_]{0,63}$";

Node typed(std::string type) {
  Node node = Node::map();
  node.set("type", Node::text(std::move(type)));
  return node;
}

Node texts(const std::vector<std::string>& words) {
  Node list = Node::list();
  for (const std::string& word : words) list.push(Node::text(word));
  return list;
}

Node identifier_node() {
  Node node = typed("string");
  node.set("pattern", Node::text(k_identifier_pattern));
  return node;
}

class Publisher {
 public:
  /// The schema in place, or a reference to its definition when it has a name.
  Node node_for(const Schema& schema);
  /// The schema in place even when it has a name.
  Node body_of(const Schema& schema);
  const std::map<std::string, Node>& definitions() const { return definitions_; }

 private:
  Node reference(const std::string& wish, const Schema& schema);
  Node list_node(const Schema& schema);
  Node map_node(const Schema& schema);
  Node object_node(const Schema& schema);
  Node value_node(const Schema& schema);
  Node either_node(const Schema& schema);

  std::map<std::string, Node> definitions_;
  std::map<const Schema*, std::string> names_;
};

Node Publisher::node_for(const Schema& schema) {
  if (schema.kind == Schema::Kind::value) {
    return reference("value_" + std::string(quantity::word_for(schema.dimension)), schema);
  }
  if (schema.kind == Schema::Kind::object && !schema.name.empty()) return reference(schema.name, schema);
  return body_of(schema);
}

/// Schemas that are alike share a definition; one that only has the name in common gets a number behind it.
Node Publisher::reference(const std::string& wish, const Schema& schema) {
  std::string& name = names_[&schema];
  if (name.empty()) {
    const Node body = body_of(schema);
    name = wish;
    for (int number = 2; !definitions_.emplace(name, body).second && !(definitions_[name] == body); ++number) {
      name = wish + "_" + std::to_string(number);
    }
  }
  Node node = Node::map();
  node.set("$ref", Node::text("#/$defs/" + name));
  return node;
}

Node Publisher::body_of(const Schema& schema) {
  Node node = Node::map();
  switch (schema.kind) {
    case Schema::Kind::text:
      return std::move(typed("string").set("maxLength", Node::integer(schema.most)));
    case Schema::Kind::identifier:
      return identifier_node();
    case Schema::Kind::word:
      return std::move(typed("string").set("enum", texts(schema.words)));
    case Schema::Kind::integer:
      node = typed("integer");
      return std::move(node.set("minimum", Node::integer(schema.least)).set("maximum", Node::integer(schema.most)));
    case Schema::Kind::real:
      node = typed("number");
      return std::move(node.set("minimum", Node::real(schema.real_least)).set("maximum", Node::real(schema.real_most)));
    case Schema::Kind::boolean:
      return typed("boolean");
    case Schema::Kind::value:
      return value_node(schema);
    case Schema::Kind::list:
      return list_node(schema);
    case Schema::Kind::map:
      return map_node(schema);
    case Schema::Kind::object:
      return object_node(schema);
    case Schema::Kind::either:
      return either_node(schema);
    case Schema::Kind::anything:
      break;
  }
  return node;
}

Node Publisher::list_node(const Schema& schema) {
  Node node = typed("array");
  node.set("items", node_for(*schema.item));
  node.set("minItems", Node::integer(schema.least)).set("maxItems", Node::integer(schema.most));
  return node;
}

Node Publisher::map_node(const Schema& schema) {
  Node node = typed("object");
  node.set("propertyNames", identifier_node()).set("additionalProperties", node_for(*schema.item));
  node.set("maxProperties", Node::integer(schema.most));
  return node;
}

Node Publisher::object_node(const Schema& schema) {
  Node properties = Node::map();
  Node required = Node::list();
  for (const Field& field : schema.fields) {
    Node property = node_for(*field.schema);
    if (!field.about.empty()) property.set("description", Node::text(field.about));
    properties.set(field.name, std::move(property));
    if (field.need == Field::Need::required) required.push(Node::text(field.name));
  }
  Node node = typed("object");
  node.set("properties", std::move(properties)).set("required", std::move(required));
  node.set("additionalProperties", Node::boolean(false));
  return node;
}

Node Publisher::value_node(const Schema& schema) {
  Node written = typed("string").set("description", Node::text(value_in_words(schema.dimension)));
  if (schema.dimension == quantity::Dimension::count) written = Node::map().set("type", texts({"string", "integer"}));
  Node map = body_of(*value_map_schema());
  *map.find("properties")->find("value") = written;
  Node papers = Node::list();
  for (const std::string_view paper : k_papers) {
    papers.push(Node::map().set("required", texts({std::string(paper)})));
  }
  map.set("oneOf", std::move(papers));
  return Node::map().set("anyOf", Node::list_of({written, std::move(map)}));
}

Node Publisher::either_node(const Schema& schema) {
  Node choices = Node::list();
  for (const SchemaRef& choice : schema.choices) choices.push(node_for(*choice));
  return Node::map().set("anyOf", std::move(choices));
}

}  // namespace

Node json_schema(const Schema& schema, std::string_view title) {
  Publisher publisher;
  const Node body = publisher.body_of(schema);
  Node document = Node::map();
  document.set("$schema", Node::text("https://json-schema.org/draft/2020-12/schema"));
  document.set("title", Node::text(std::string(title)));
  for (const Node::Entry& entry : body.entries()) document.set(entry.key, entry.value);
  Node definitions = Node::map();
  for (const auto& [name, definition] : publisher.definitions()) definitions.set(name, definition);
  if (!definitions.entries().empty()) document.set("$defs", std::move(definitions));
  return document;
}

}  // namespace cotter::document
