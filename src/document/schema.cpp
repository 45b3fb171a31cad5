#include "document/schema.hpp"

#include <charconv>

#include "quantity/ensure.hpp"

namespace cotter::document {
namespace {

std::shared_ptr<Schema> of_kind(Schema::Kind kind) {
  auto schema = std::make_shared<Schema>();
  schema->kind = kind;
  return schema;
}

SchemaRef entries_schema(Schema::Kind kind, SchemaRef item, std::size_t fewest, std::size_t most) {
  auto schema = of_kind(kind);
  schema->item = std::move(item);
  schema->least = static_cast<std::int64_t>(fewest);
  schema->most = static_cast<std::int64_t>(most);
  return schema;
}

template <class Number>
Number read_number(const Node& node) {
  const std::string& digits = node.scalar();
  Number number{};
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  quantity::ensure(error == std::errc() && end == digits.data() + digits.size(), "a checked number can be read");
  return number;
}

}  // namespace

SchemaRef text_schema(std::size_t most_bytes) {
  auto schema = of_kind(Schema::Kind::text);
  schema->most = static_cast<std::int64_t>(most_bytes);
  return schema;
}

SchemaRef identifier_schema() {
  return of_kind(Schema::Kind::identifier);
}

SchemaRef word_schema(std::vector<std::string> words) {
  auto schema = of_kind(Schema::Kind::word);
  schema->words = std::move(words);
  return schema;
}

SchemaRef integer_schema(std::int64_t least, std::int64_t most) {
  auto schema = of_kind(Schema::Kind::integer);
  schema->least = least;
  schema->most = most;
  return schema;
}

SchemaRef real_schema(double least, double most) {
  auto schema = of_kind(Schema::Kind::real);
  schema->real_least = least;
  schema->real_most = most;
  return schema;
}

SchemaRef boolean_schema() {
  return of_kind(Schema::Kind::boolean);
}

SchemaRef value_schema(quantity::Dimension dimension) {
  auto schema = of_kind(Schema::Kind::value);
  schema->dimension = dimension;
  return schema;
}

SchemaRef list_schema(SchemaRef item, std::size_t fewest, std::size_t most) {
  return entries_schema(Schema::Kind::list, std::move(item), fewest, most);
}

SchemaRef map_schema(SchemaRef item, std::size_t most) {
  return entries_schema(Schema::Kind::map, std::move(item), 0, most);
}

SchemaRef object_schema(std::string name, std::vector<Field> fields) {
  auto schema = of_kind(Schema::Kind::object);
  schema->name = std::move(name);
  schema->fields = std::move(fields);
  return schema;
}

SchemaRef either_schema(std::vector<SchemaRef> choices) {
  quantity::ensure(!choices.empty(), "an either needs a choice");
  auto schema = of_kind(Schema::Kind::either);
  schema->choices = std::move(choices);
  return schema;
}

SchemaRef anything_schema() {
  return of_kind(Schema::Kind::anything);
}

const std::string& text_of(const Node& node) {
  quantity::ensure(node.kind() == Node::Kind::text, "a checked text is text");
  return node.scalar();
}

std::int64_t integer_of(const Node& node) {
  return read_number<std::int64_t>(node);
}

double real_of(const Node& node) {
  return read_number<double>(node);
}

bool boolean_of(const Node& node) {
  quantity::ensure(node.scalar() == "true" || node.scalar() == "false", "a checked flag is true or false");
  return node.scalar() == "true";
}

std::string text_or(const Node& map, std::string_view key, std::string fallback) {
  const Node* node = map.find(key);
  return node == nullptr ? std::move(fallback) : text_of(*node);
}

std::int64_t integer_or(const Node& map, std::string_view key, std::int64_t fallback) {
  const Node* node = map.find(key);
  return node == nullptr ? fallback : integer_of(*node);
}

bool boolean_or(const Node& map, std::string_view key, bool fallback) {
  const Node* node = map.find(key);
  return node == nullptr ? fallback : boolean_of(*node);
}

}  // namespace cotter::document
