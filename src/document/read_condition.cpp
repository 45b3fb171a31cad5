#include "document/read_condition.hpp"

#include "document/read_parts.hpp"
#include "document/read_rules.hpp"
#include "document/schema.hpp"

namespace cotter::document {
namespace {

using quantity::Dimension;

std::optional<Dimension> dimension_of(const model::Window& limit) {
  if (limit.from) return limit.from->dimension;
  if (limit.to) return limit.to->dimension;
  return std::nullopt;
}

/// A reading is an interval: it says its deviations, or the tool that gives them. A count is exact.
void require_deviations(const Spot& spot, const quantity::Value& value, Diagnostics& diagnostics) {
  if (value.deviations != quantity::Deviations::unstated || value.dimension == Dimension::count) return;
  report(diagnostics, spot, "bad_value", "A reading of wear needs its deviations.",
         "deviations such as `1.2 ±0.05 mm`, or the shop's tool it was read with");
}

std::optional<quantity::Value> read_reading(const Spot& spot, Dimension dimension, const std::string& by,
                                            const std::string& on, const ValueContext& context,
                                            Diagnostics& diagnostics) {
  if (!spot.exists()) return std::nullopt;
  check(spot.node(), *value_schema(dimension), diagnostics, spot.field());
  auto value = read_written(spot, dimension, {"", context.shop});
  if (!value || !value->range_known) return std::nullopt;
  const bool says_origin = spot.is_map() || value->origin.kind == quantity::OriginKind::measured;
  if (!says_origin) value->origin = {quantity::OriginKind::measured, by, "", on, ""};
  *value = with_reading_error(*std::move(value), context.shop);
  require_deviations(spot, *value, diagnostics);
  return value;
}

std::optional<model::Wear> read_wear(const Spot& spot, const model::Condition& condition, const ValueContext& context,
                                     Diagnostics& diagnostics) {
  model::Wear wear{spot.at("id").text(), spot.at("what").text(), std::nullopt,
                   read_window(spot.at("limit"), diagnostics), read_source(spot.at("source"), diagnostics)};
  const auto dimension = dimension_of(wear.limit);
  if (!dimension) {
    if (spot.at("limit").is_map() && spot.at("limit").entries().empty())
      report(diagnostics, spot.at("limit"), "missing_field", "A limit has at least one end.", "`from`, `to`, or both");
    return std::nullopt;
  }
  wear.value = read_reading(spot.at("value"), *dimension, condition.by, condition.on, context, diagnostics);
  return wear;
}

}  // namespace

std::optional<model::Condition> read_condition(const Spot& spot, const ValueContext& context,
                                               Diagnostics& diagnostics) {
  if (!spot.is_map()) return std::nullopt;
  model::Condition condition;
  condition.inspected = spot.at("inspected").text();
  condition.by = spot.at("by").text();
  condition.on = spot.at("on").text();
  condition.sound = spot.at("result").text() == "sound";
  condition.found = spot.at("found").text();
  IdList ids("wear", diagnostics);
  for (const Spot& item : spot.at("wear").items()) {
    ids.add(item.at("id"));
    if (auto wear = read_wear(item, condition, context, diagnostics)) condition.wear.push_back(std::move(*wear));
  }
  return condition;
}

void read_condition_rules(const Spot& document, Names& names, std::vector<model::ConditionRule>& rules,
                          Diagnostics& diagnostics) {
  for (const Spot& item : document.at("used").items()) {
    claim(item.at("id"), "rule on used parts", names, diagnostics);
    model::ConditionRule rule;
    rule.id = item.at("id").text();
    rule.label = item.at("label").text();
    rule.families = item.at("families").texts();
    rule.places = item.at("places").texts();
    for (const std::string& word : item.at("materials").texts()) rule.materials.push_back(material_of(word));
    rule.stop = item.at("without").text() != "measure";
    rule.guards = read_protection(item, diagnostics).guards;
    rule.advice = item.at("advice").text();
    rule.source = read_source(item.at("source"), diagnostics);
    rules.push_back(std::move(rule));
  }
}

void read_customs(const Spot& document, std::vector<model::BrakeCustom>& customs, Names& names,
                  Diagnostics& diagnostics) {
  for (const Spot& item : document.at("brakes").items()) {
    for (const Spot& country : item.at("countries").items()) {
      if (!country.is_scalar()) continue;
      const auto [seen, is_new] = names.emplace(country.text(), Seen{diagnostics.file(), country.mark()});
      if (!is_new) report_duplicate(diagnostics, country, "country", seen->second);
    }
    customs.push_back(
        {item.at("left").text() != "rear", item.at("countries").texts(), read_source(item.at("source"), diagnostics)});
  }
}

void read_substitutes(const Spot& document, std::vector<model::ToolSubstitute>& substitutes, Names& names,
                      Diagnostics& diagnostics) {
  for (const Spot& item : document.at("substitutes").items()) {
    model::ToolSubstitute out;
    out.tool = item.at("tool").text();
    out.label = item.at("label").text();
    out.instead_of = item.at("instead_of").text();
    out.needed_label = item.at("needed_label").text();
    const Seen here{diagnostics.file(), item.mark()};
    const auto [seen, is_new] = names.emplace(out.tool + " instead of " + out.instead_of, here);
    if (!is_new) report_duplicate(diagnostics, item.at("tool"), "pair of tools", seen->second);
    const model::Window window = read_window(item.at("reads_low"), diagnostics);
    require_dimension(item.at("reads_low"), window, {Dimension::length}, diagnostics);
    if (!window.from || !window.to) {
      report(diagnostics, item.at("reads_low"), "missing_field", "This range needs both ends.", "`from` and `to`");
      continue;
    }
    if (window.to->nominal < window.from->nominal) continue;
    out.reads_low = quantity::Range(quantity::Mixed::from_base(window.from->nominal),
                                    quantity::Mixed::from_base(window.to->nominal));
    out.source = read_source(item.at("source"), diagnostics);
    substitutes.push_back(std::move(out));
  }
}

}  // namespace cotter::document
