#include "document/schema_words.hpp"

#include <fmt/format.h>

#include "document/schema_value.hpp"

namespace cotter::document {
namespace {

std::string any_of(const std::vector<SchemaRef>& choices) {
  std::string out;
  for (const SchemaRef& choice : choices) out += (out.empty() ? "" : ", or ") + accepted_by(*choice);
  return out;
}

std::string entries(const Schema& schema, std::string_view container) {
  const std::string item = schema.item->name.empty() ? std::string() : fmt::format(" ({} each)", schema.item->name);
  return fmt::format("{} of {} to {} entries{}", container, schema.least, schema.most, item);
}

}  // namespace

std::string comma_list(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string shortest(double number) {
  return Node::real(number).scalar();
}

std::string accepted_by(const Schema& schema) {
  switch (schema.kind) {
    case Schema::Kind::text:
      return fmt::format("text of at most {} bytes", schema.most);
    case Schema::Kind::identifier:
      return "a lower-case letter, then lower-case letters, digits and `_`, at most 64 in all";
    case Schema::Kind::word:
      return "one of: " + comma_list(schema.words);
    case Schema::Kind::integer:
      return fmt::format("a whole number from {} to {}", schema.least, schema.most);
    case Schema::Kind::real:
      return fmt::format("a number from {} to {}", shortest(schema.real_least), shortest(schema.real_most));
    case Schema::Kind::boolean:
      return "true or false";
    case Schema::Kind::value:
      return value_in_words(schema.dimension);
    case Schema::Kind::list:
      return entries(schema, "a list");
    case Schema::Kind::map:
      return entries(schema, "a map");
    case Schema::Kind::object:
      return schema.name.empty() ? "a map of fields" : fmt::format("a map of fields ({})", schema.name);
    case Schema::Kind::either:
      return any_of(schema.choices);
    case Schema::Kind::anything:
      break;
  }
  return "anything";
}

std::string kind_in_words(const Node& node) {
  switch (node.kind()) {
    case Node::Kind::null:
      return "nothing";
    case Node::Kind::boolean:
      return "true or false";
    case Node::Kind::number:
      return "a number";
    case Node::Kind::text:
      return node.quoted() ? "text in quotes" : "text";
    case Node::Kind::list:
      return "a list";
    case Node::Kind::map:
      break;
  }
  return "a map";
}

std::string found_in(const Node& node) {
  return node.is_scalar() ? node.scalar() : kind_in_words(node);
}

}  // namespace cotter::document
