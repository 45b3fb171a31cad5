#include "document/read_kinds.hpp"

#include <cmath>
#include <fmt/format.h>

#include "document/read_value.hpp"
#include "document/schema.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

using quantity::Dimension;

std::optional<Dimension> dimension_of(const std::string& word) {
  for (const Dimension dimension : {Dimension::length, Dimension::angle, Dimension::torque, Dimension::force,
                                    Dimension::mass, Dimension::pressure, Dimension::duration, Dimension::count})
    if (word == quantity::word_for(dimension)) return dimension;
  return std::nullopt;
}

/// A limit of a kind; its shape depends on the dimension, so the schema of the document could not check it.
std::optional<quantity::Value> read_limit(const Spot& spot, Dimension dimension, Diagnostics& diagnostics) {
  if (!spot.is_scalar()) return std::nullopt;
  check(spot.node(), *value_schema(dimension), diagnostics, spot.field());
  return read_number(spot, dimension, Sign::any, {}, diagnostics);
}

/// Stands in for limits that were refused, so that no part is called out of range because of them.
quantity::Range any_range() {
  constexpr std::int64_t k_far = 1'000'000'000'000'000;
  return {quantity::Mixed::from_base(-k_far), quantity::Mixed::from_base(k_far)};
}

quantity::Range read_permitted(const Spot& spot, Dimension dimension, Diagnostics& diagnostics) {
  const auto from = read_limit(spot.at("from"), dimension, diagnostics);
  const auto to = read_limit(spot.at("to"), dimension, diagnostics);
  if (!from || !to) return any_range();
  if (to->nominal < from->nominal) {
    report(diagnostics, spot.at("to"), "out_of_range", "The most is less than the least.",
           fmt::format("at least {}", shown(*from)));
    return any_range();
  }
  return {quantity::Mixed::from_base(from->nominal), quantity::Mixed::from_base(to->nominal)};
}

model::MeasureGuide read_measure(const Spot& spot) {
  constexpr double k_usual_minutes = 5;
  model::MeasureGuide guide;
  if (!spot.is_map()) return guide;
  guide.feature = spot.at("feature").text();
  guide.faces = spot.at("faces").text();
  guide.tool = spot.at("tool").text();
  guide.resolution = spot.at("resolution").text();
  guide.minutes = std::llround(spot.at("minutes").real(k_usual_minutes) * 100);
  return guide;
}

std::optional<model::KindDimension> read_kind_dimension(const SpotEntry& entry, Diagnostics& diagnostics) {
  const Spot& spot = entry.value;
  const auto kind = dimension_of(spot.at("is").text());
  if (!kind) return std::nullopt;
  if (entry.key == "kind") {
    report(diagnostics, entry.name, "bad_identifier", "A dimension cannot have this name; it names the kind itself.",
           "another name");
    return std::nullopt;
  }
  model::KindDimension dimension;
  dimension.id = entry.key;
  dimension.label = spot.at("label").text();
  dimension.dimension = *kind;
  dimension.permitted = read_permitted(spot, *kind, diagnostics);
  if (const auto deviations = read_deviations(spot.at("unstated"), *kind, diagnostics))
    dimension.unstated = *deviations;
  dimension.required = spot.at("needed").flag(true);
  dimension.thickest_line = spot.at("thickest_line").flag(false);
  if (dimension.thickest_line && *kind != Dimension::length)
    report(diagnostics, spot.at("thickest_line"), "bad_value", "Only a length can be that of the thickest line.",
           "`is: length`, or `thickest_line` left out");
  dimension.measure = read_measure(spot.at("measure"));
  return dimension;
}

std::optional<model::KindWord> read_kind_word(const SpotEntry& entry, const model::InterfaceKind& kind,
                                              Diagnostics& diagnostics) {
  if (entry.key == "kind" || model::find_dimension(kind, entry.key) != nullptr) {
    report(diagnostics, entry.name, "duplicate_id", "The kind has a dimension of this name.", "another name");
    return std::nullopt;
  }
  return model::KindWord{entry.key, entry.value.at("label").text(), entry.value.at("accepted").texts(),
                         entry.value.at("needed").flag(true)};
}

void read_smaller_than(const Spot& list, model::InterfaceKind& kind, Diagnostics& diagnostics) {
  for (const Spot& pair : list.items()) {
    const auto sides = pair.items();
    if (sides.size() != 2) continue;
    const auto* a = model::find_dimension(kind, sides[0].text());
    const auto* b = model::find_dimension(kind, sides[1].text());
    if (a == nullptr) report_unknown(diagnostics, sides[0], "dimension", dimension_names(kind));
    if (b == nullptr) report_unknown(diagnostics, sides[1], "dimension", dimension_names(kind));
    if (a == nullptr || b == nullptr) continue;
    if (a->dimension != b->dimension) {
      report(diagnostics, sides[1], "bad_value", "The two dimensions cannot be compared.",
             fmt::format("a {}", quantity::word_for(a->dimension)));
      continue;
    }
    kind.smaller_than.emplace_back(a->id, b->id);
  }
}

}  // namespace

void claim(const Spot& id, std::string_view noun, Names& names, Diagnostics& diagnostics) {
  if (!id.is_scalar()) return;
  const auto [seen, is_new] = names.emplace(id.text(), Seen{diagnostics.file(), id.mark()});
  if (!is_new) report_duplicate(diagnostics, id, noun, seen->second);
}

std::vector<std::string> dimension_names(const model::InterfaceKind& kind) {
  std::vector<std::string> names;
  for (const model::KindDimension& dimension : kind.dimensions) names.push_back(dimension.id);
  return names;
}

std::vector<std::string> word_names(const model::InterfaceKind& kind) {
  std::vector<std::string> names;
  for (const model::KindWord& word : kind.words) names.push_back(word.id);
  return names;
}

model::InterfaceKind read_kind(const Spot& spot, Diagnostics& diagnostics) {
  model::InterfaceKind kind;
  kind.id = spot.at("id").text();
  kind.label = spot.at("label").text();
  kind.about = spot.at("about").text();
  for (const SpotEntry& entry : spot.at("dimensions").entries())
    if (auto dimension = read_kind_dimension(entry, diagnostics)) kind.dimensions.push_back(std::move(*dimension));
  for (const SpotEntry& entry : spot.at("words").entries())
    if (auto word = read_kind_word(entry, kind, diagnostics)) kind.words.push_back(std::move(*word));
  kind.on_materials = spot.at("stands_on").at("materials").texts();
  kind.on_families = spot.at("stands_on").at("families").texts();
  kind.never_bridged = spot.at("never_bridged").flag(false);
  read_smaller_than(spot.at("smaller_than"), kind, diagnostics);
  return kind;
}

}  // namespace cotter::document
