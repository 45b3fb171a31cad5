#include "document/schema_value.hpp"

#include <charconv>
#include <chrono>

#include "document/parse_tree.hpp"
#include "document/schema_checker.hpp"
#include "document/schema_words.hpp"
#include "quantity/ensure.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

using quantity::Dimension;
using quantity::OriginKind;
using quantity::ValueError;

constexpr std::size_t k_paper_most = 500;

std::string message_of(ValueError::Code code) {
  switch (code) {
    case ValueError::Code::empty:
      return "The value is empty.";
    case ValueError::Code::not_a_number:
      return "The value does not begin with a number.";
    case ValueError::Code::unit_missing:
      return "The value has no unit.";
    case ValueError::Code::unit_unknown:
      return "The unit is not known.";
    case ValueError::Code::unit_wrong:
      return "The unit is one of another kind of quantity.";
    case ValueError::Code::deviation_wrong:
      return "The deviations cannot be read, or the lower one is above the upper one.";
    case ValueError::Code::too_large:
      return "The amount is too large.";
    case ValueError::Code::too_fine:
      return "The amount is finer than can be kept exactly.";
    case ValueError::Code::trailing:
      break;
  }
  return "There is text behind the value that means nothing here.";
}

OriginKind origin_named(std::string_view paper) {
  if (paper == "measured") return OriginKind::measured;
  if (paper == "maker") return OriginKind::maker;
  return paper == "standard" ? OriginKind::standard : OriginKind::assumed;
}

std::vector<std::string> papers_in(const Node& map) {
  std::vector<std::string> papers;
  for (const std::string_view paper : k_papers) {
    if (map.find(paper) != nullptr) papers.emplace_back(paper);
  }
  return papers;
}

/// Shape of the map `measured`.
SchemaRef measurement_schema() {
  static const SchemaRef schema =
      object_schema("measurement", {{"by", text_schema(200), Field::Need::required, "The person who measured."},
                                    {"with", text_schema(200), Field::Need::required, "The tool."},
                                    {"on", text_schema(200), Field::Need::required, "The day, such as 2025-03-14."}});
  return schema;
}

std::optional<int> number_in(std::string_view digits) {
  int number = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  const bool whole = error == std::errc() && end == digits.data() + digits.size();
  return whole && digits[0] != '-' ? std::optional(number) : std::nullopt;
}

}  // namespace

bool is_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  const auto year = number_in(text.substr(0, 4));
  const auto month = number_in(text.substr(5, 2));
  const auto day = number_in(text.substr(8, 2));
  if (!year || !month || !day) return false;
  return std::chrono::year_month_day(std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(*month)),
                                     std::chrono::day(static_cast<unsigned>(*day)))
      .ok();
}

std::string value_in_words(Dimension dimension) {
  switch (dimension) {
    case Dimension::length:
      return "a length such as 41.5 mm";
    case Dimension::angle:
      return "an angle such as 73.5°";
    case Dimension::torque:
      return "a torque such as 5 N·m";
    case Dimension::force:
      return "a force such as 900 N";
    case Dimension::mass:
      return "a mass such as 250 g";
    case Dimension::pressure:
      return "a pressure such as 3.5 bar";
    case Dimension::duration:
      return "a time such as 12 min";
    case Dimension::count:
      break;
  }
  return "a whole number such as 24";
}

SchemaRef value_map_schema() {
  static const SchemaRef schema = object_schema(
      "value", {{"value", anything_schema(), Field::Need::required, "The value with its unit."},
                {"measured", measurement_schema(), Field::Need::optional, "Who measured it, with what, on which day."},
                {"maker", text_schema(k_paper_most), Field::Need::optional, "The maker's paper and the place in it."},
                {"standard", text_schema(k_paper_most), Field::Need::optional, "The standard and its clause or table."},
                {"assumed", text_schema(k_paper_most), Field::Need::optional, "Why it is taken to be so."}});
  return schema;
}

quantity::Origin origin_of(const Node& map) {
  const std::vector<std::string> papers = papers_in(map);
  quantity::ensure(papers.size() == 1, "a value map names one paper");
  const Node& paper = *map.find(papers.front());
  quantity::Origin origin;
  origin.kind = origin_named(papers.front());
  if (origin.kind == OriginKind::measured) {
    origin.by = text_or(paper, "by");
    origin.tool = text_or(paper, "with");
    origin.when = text_or(paper, "on");
  } else {
    origin.source = paper.scalar();
  }
  return origin;
}

void Checker::check_value(const Node& node, const Schema& schema, const std::string& field) {
  if (!node.is_map()) {
    check_written(node, schema, field);
    return;
  }
  check_object(node, *value_map_schema(), field);
  check_papers(node, schema, field);
  if (const Node* value = node.find("value")) check_written(*value, schema, path_of_key(field, "value"));
}

void Checker::check_written(const Node& node, const Schema& schema, const std::string& field) {
  if (node.kind() != Node::Kind::text && node.kind() != Node::Kind::number) {
    wrong_kind(node, schema, field);
    return;
  }
  const auto value = quantity::parse_value(node.scalar(), schema.dimension);
  if (value) return;
  const ValueError& error = value.error();
  complain(node.mark(), field,
           {"bad_value", message_of(error.code), node.scalar(),
            error.accepted.empty() ? value_in_words(schema.dimension) : error.accepted, error.suggestion});
}

void Checker::check_papers(const Node& node, const Schema& schema, const std::string& field) {
  const std::vector<std::string> papers = papers_in(node);
  const std::string all = "one of: measured, maker, standard, assumed";
  if (papers.empty()) {
    complain(node.mark(), field, {"missing_field", "The value does not say where it comes from.", "", all, ""});
    return;
  }
  if (papers.size() > 1) {
    complain(node.mark(), field,
             {"too_many", "The value says more than once where it comes from.", comma_list(papers), all, ""});
    return;
  }
  const Node& paper = *node.find(papers.front());
  const std::string paper_field = path_of_key(field, papers.front());
  if (paper.is_map()) {
    check_measurement(paper, paper_field);
  } else if (paper.kind() == Node::Kind::text && paper.scalar().empty()) {
    complain(
        paper.mark(), paper_field,
        {"bad_value", "The origin is named but left empty.", "", "the document and the place in it, or a reason", ""});
  }
  const Node* written = node.find("value");
  if (written == nullptr) return;
  const auto value = quantity::parse_value(written->scalar(), schema.dimension);
  if (!value) return;
  // Text without an origin word reads as assumed, so only another word can contradict the paper.
  const OriginKind word = value->origin.kind;
  if (word == OriginKind::assumed || word == origin_named(papers.front())) return;
  complain(written->mark(), path_of_key(field, "value"),
           {"bad_value", "The value and its map name different origins.", written->scalar(),
            "the value without an origin word", ""});
}

void Checker::check_measurement(const Node& measured, const std::string& field) {
  for (const Node::Entry& entry : measured.entries()) {
    if (entry.value.kind() != Node::Kind::text) continue;
    const std::string& text = entry.value.scalar();
    const std::string entry_field = path_of_key(field, entry.key);
    if (entry.key == "on" && !is_date(text)) {
      complain(entry.value.mark(), entry_field,
               {"bad_value", "This is not a day of the calendar.", text, "a day such as 2025-03-14", ""});
    } else if (text.empty()) {
      complain(entry.value.mark(), entry_field, {"bad_value", "This field is left empty.", "", "text", ""});
    }
  }
}

quantity::Value value_of(const Node& node, Dimension dimension) {
  const Node* written = node.is_map() ? node.find("value") : &node;
  quantity::ensure(written != nullptr, "a value map has a value");
  auto value = quantity::parse_value(written->scalar(), dimension);
  quantity::ensure(value.has_value(), "a checked value can be read");
  if (node.is_map()) value->origin = origin_of(node);
  return *std::move(value);
}

}  // namespace cotter::document
