#include <algorithm>
#include <charconv>
#include <fmt/format.h>

#include "document/parse_tree.hpp"
#include "document/schema_checker.hpp"
#include "document/schema_words.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

constexpr std::size_t k_identifier_most = 64;

bool is_lower(char c) {
  return c >= 'a' && c <= 'z';
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
char to_lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool is_identifier(std::string_view word) {
  return !word.empty() && word.size() <= k_identifier_most && is_lower(word.front()) &&
         std::all_of(word.begin(), word.end(), [](char c) { return is_lower(c) || is_digit(c) || c == '_'; });
}

/// The word with small letters and `_` for what separates, if that makes an identifier.
std::string identifier_like(std::string_view word) {
  std::string out;
  for (const char c : word) out += c == ' ' || c == '-' || c == '.' ? '_' : to_lower(c);
  return is_identifier(out) ? out : std::string();
}

/// Numbers are written without quotes in YAML and as numbers in JSON.
bool may_be_number(const Node& node) {
  return node.kind() == Node::Kind::number || (node.kind() == Node::Kind::text && !node.quoted());
}

/// The number meant by one with leading zeros or a plus sign, for the mend.
std::string without_leading(const Node& node) {
  std::string_view text = node.scalar();
  const bool negative = text.starts_with('-');
  if (negative || text.starts_with('+')) text.remove_prefix(1);
  while (text.size() > 1 && text[0] == '0' && is_digit(text[1])) text.remove_prefix(1);
  const std::string meant = (negative ? "-" : "") + std::string(text);
  return is_number(meant) ? meant : std::string();
}

std::string flag_meant(std::string word) {
  std::transform(word.begin(), word.end(), word.begin(), to_lower);
  if (word == "yes" || word == "on" || word == "true" || word == "y") return "true";
  if (word == "no" || word == "off" || word == "false" || word == "n") return "false";
  return {};
}

bool takes_kind(const Schema& schema, const Node& node) {
  switch (schema.kind) {
    case Schema::Kind::list:
      return node.is_list();
    case Schema::Kind::map:
    case Schema::Kind::object:
      return node.is_map();
    case Schema::Kind::value:
      return !node.is_list();
    case Schema::Kind::either:
      return std::any_of(schema.choices.begin(), schema.choices.end(),
                         [&](const SchemaRef& choice) { return takes_kind(*choice, node); });
    case Schema::Kind::anything:
      return true;
    default:
      return node.is_scalar();
  }
}

std::vector<std::string> field_names(const Schema& schema) {
  std::vector<std::string> names;
  for (const Field& field : schema.fields) names.push_back(field.name);
  return names;
}

/// `A part` or `This map`, to begin a sentence with.
std::string subject(const Schema& schema) {
  if (schema.name.empty()) return "This map";
  const bool vowel = std::string_view("aeiou").find(schema.name.front()) != std::string_view::npos;
  return (vowel ? "An " : "A ") + schema.name;
}

std::string nearest(const std::string& word, const std::vector<std::string>& words) {
  return quantity::nearest_word(word, words).value_or("");
}

}  // namespace

void check(const Node& node, const Schema& schema, Diagnostics& diagnostics, const std::string& field) {
  Checker(diagnostics).check(node, schema, field);
}

void Checker::complain(Mark mark, const std::string& field, Complaint complaint) {
  diagnostics_.add({std::move(complaint.code), "", mark, field, std::move(complaint.message),
                    std::move(complaint.found), std::move(complaint.accepted), std::move(complaint.suggestion)});
}

void Checker::wrong_kind(const Node& node, const Schema& schema, const std::string& field, std::string suggestion) {
  const std::string message = node.is_null()
                                  ? "The value is missing here."
                                  : fmt::format("This is {}, which does not belong here.", kind_in_words(node));
  complain(node.mark(), field, {"wrong_kind", message, found_in(node), accepted_by(schema), std::move(suggestion)});
}

void Checker::check(const Node& node, const Schema& schema, const std::string& field) {
  switch (schema.kind) {
    case Schema::Kind::text:
    case Schema::Kind::identifier:
      return check_text(node, schema, field);
    case Schema::Kind::word:
      return check_word(node, schema, field);
    case Schema::Kind::integer:
      return check_integer(node, schema, field);
    case Schema::Kind::real:
      return check_real(node, schema, field);
    case Schema::Kind::boolean:
      return check_boolean(node, schema, field);
    case Schema::Kind::value:
      return check_value(node, schema, field);
    case Schema::Kind::list:
      return check_list(node, schema, field);
    case Schema::Kind::map:
      return check_map(node, schema, field);
    case Schema::Kind::object:
      return check_object(node, schema, field);
    case Schema::Kind::either:
      return check_either(node, schema, field);
    case Schema::Kind::anything:
      return;
  }
}

void Checker::check_text(const Node& node, const Schema& schema, const std::string& field) {
  if (node.kind() != Node::Kind::text) return wrong_kind(node, schema, field);
  if (schema.kind == Schema::Kind::identifier) return check_identifier(node.scalar(), node.mark(), field);
  if (node.scalar().size() <= static_cast<std::size_t>(schema.most)) return;
  const std::string message = fmt::format("The text has {} bytes, which is too long.", node.scalar().size());
  complain(node.mark(), field, {"too_long", message, node.scalar(), accepted_by(schema), ""});
}

void Checker::check_identifier(const std::string& word, Mark mark, const std::string& field) {
  if (is_identifier(word)) return;
  complain(mark, field,
           {"bad_identifier", "This cannot serve as a name for reference.", word, accepted_by(*identifier_schema()),
            identifier_like(word)});
}

void Checker::check_word(const Node& node, const Schema& schema, const std::string& field) {
  if (node.kind() != Node::Kind::text) return wrong_kind(node, schema, field);
  const std::string& word = node.scalar();
  if (std::find(schema.words.begin(), schema.words.end(), word) != schema.words.end()) return;
  complain(node.mark(), field,
           {"unknown_word", "The word is not one of those known here.", word, accepted_by(schema),
            nearest(word, schema.words)});
}

void Checker::check_integer(const Node& node, const Schema& schema, const std::string& field) {
  const std::string& digits = node.scalar();
  if (!may_be_number(node) || !is_whole_number(digits)) {
    return wrong_kind(node, schema, field, is_whole_number(without_leading(node)) ? without_leading(node) : "");
  }
  std::int64_t number = 0;
  const auto error = std::from_chars(digits.data(), digits.data() + digits.size(), number).ec;
  if (error == std::errc() && number >= schema.least && number <= schema.most) return;
  complain(node.mark(), field, {"out_of_range", "The number is outside its range.", digits, accepted_by(schema), ""});
}

void Checker::check_real(const Node& node, const Schema& schema, const std::string& field) {
  const std::string& digits = node.scalar();
  if (!may_be_number(node) || !is_number(digits)) return wrong_kind(node, schema, field, without_leading(node));
  double number = 0;
  const auto error = std::from_chars(digits.data(), digits.data() + digits.size(), number).ec;
  if (error == std::errc() && number >= schema.real_least && number <= schema.real_most) return;
  complain(node.mark(), field, {"out_of_range", "The number is outside its range.", digits, accepted_by(schema), ""});
}

void Checker::check_boolean(const Node& node, const Schema& schema, const std::string& field) {
  const bool plain = node.kind() == Node::Kind::text && !node.quoted();
  const bool flag = plain && (node.scalar() == "true" || node.scalar() == "false");
  if (flag || node.kind() == Node::Kind::boolean) return;
  wrong_kind(node, schema, field, flag_meant(node.scalar()));
}

void Checker::check_count(std::size_t count, const Node& node, const Schema& schema, const std::string& field) {
  const auto entries = static_cast<std::int64_t>(count);
  if (entries < schema.least) {
    complain(node.mark(), field,
             {"too_few", "There are too few entries here.", fmt::format("{} entries", count), accepted_by(schema), ""});
  }
  if (entries > schema.most) {
    complain(
        node.mark(), field,
        {"too_many", "There are too many entries here.", fmt::format("{} entries", count), accepted_by(schema), ""});
  }
}

void Checker::check_list(const Node& node, const Schema& schema, const std::string& field) {
  if (!node.is_list()) return wrong_kind(node, schema, field);
  check_count(node.items().size(), node, schema, field);
  for (std::size_t i = 0; i < node.items().size(); ++i) check(node.items()[i], *schema.item, path_of_item(field, i));
}

void Checker::check_map(const Node& node, const Schema& schema, const std::string& field) {
  if (!node.is_map()) return wrong_kind(node, schema, field);
  check_count(node.entries().size(), node, schema, field);
  for (const Node::Entry& entry : node.entries()) {
    const std::string path = path_of_key(field, entry.key);
    check_identifier(entry.key, entry.key_mark, path);
    check(entry.value, *schema.item, path);
  }
}

void Checker::check_object(const Node& node, const Schema& schema, const std::string& field) {
  if (!node.is_map()) return wrong_kind(node, schema, field);
  for (const Node::Entry& entry : node.entries()) {
    const auto known = std::find_if(schema.fields.begin(), schema.fields.end(),
                                    [&](const Field& candidate) { return candidate.name == entry.key; });
    const std::string path = path_of_key(field, entry.key);
    if (known != schema.fields.end()) {
      check(entry.value, *known->schema, path);
      continue;
    }
    const std::vector<std::string> names = field_names(schema);
    complain(entry.key_mark, path,
             {"unknown_field", subject(schema) + " has no such field.", entry.key, comma_list(names),
              nearest(entry.key, names)});
  }
  for (const Field& wanted : schema.fields) {
    if (wanted.need != Field::Need::required || node.find(wanted.name) != nullptr) continue;
    complain(node.mark(), path_of_key(field, wanted.name),
             {"missing_field", fmt::format("{} needs the field `{}`.", subject(schema), wanted.name), "",
              accepted_by(*wanted.schema), ""});
  }
}

void Checker::check_either(const Node& node, const Schema& schema, const std::string& field) {
  const Schema* first = nullptr;
  for (const SchemaRef& choice : schema.choices) {
    if (!takes_kind(*choice, node)) continue;
    Diagnostics trial(diagnostics_.file());
    Checker(trial).check(node, *choice, field);
    if (trial.empty()) return;
    if (first == nullptr) first = choice.get();
  }
  if (first == nullptr) return wrong_kind(node, schema, field);
  const auto of_this_kind = std::count_if(schema.choices.begin(), schema.choices.end(),
                                          [&](const SchemaRef& choice) { return takes_kind(*choice, node); });
  // Several scalar choices: none is the one that was meant for certain, so all are named.
  if (of_this_kind > 1 && node.is_scalar()) return wrong_kind(node, schema, field);
  check(node, *first, field);
}

}  // namespace cotter::document
