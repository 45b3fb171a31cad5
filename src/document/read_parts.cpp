#include "document/read_parts.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "document/read_condition.hpp"
#include "document/schema_value.hpp"
#include "document/schema_words.hpp"
#include "document/schemas.hpp"

namespace cotter::document {
namespace {

void report_missing(const Spot& interface, const model::InterfaceKind& kind, const std::string& field,
                    std::string accepted, Diagnostics& diagnostics) {
  if (interface.node().find(field) != nullptr) return;
  report(diagnostics, interface.at(field), "missing_field",
         fmt::format("A {} interface needs the field `{}`.", kind.id, field), std::move(accepted));
}

/// Named numbers; one that is written `?` is left out, since nothing permits a range for it.
std::map<std::string, quantity::Value> read_geometry(const Spot& spot, const ValueContext& context,
                                                     Diagnostics& diagnostics) {
  std::map<std::string, quantity::Value> geometry;
  for (const SpotEntry& entry : spot.entries()) {
    const auto dimension = names_an_angle(entry.key) ? quantity::Dimension::angle : quantity::Dimension::length;
    check(entry.value.node(), *value_schema(dimension), diagnostics, entry.value.field());
    const auto value = read_written(entry.value, dimension, context);
    if (value && value->range_known) geometry[entry.key] = *value;
  }
  return geometry;
}

/// Pairs of interfaces that the part joins by itself.
void read_joins(const Spot& list, const Kinds& kinds, model::Part& part, Diagnostics& diagnostics) {
  const auto read_side = [&](const Spot& side) {
    const auto interface = part.interfaces.find(side.text());
    if (interface == part.interfaces.end()) {
      report_unknown(diagnostics, side, "interface", names_of(part.interfaces));
      return false;
    }
    if (!kinds.at(interface->second.kind).never_bridged) return true;
    report(diagnostics, side, "bad_value",
           fmt::format("No part may stand between a {} and what it meets.", kinds.at(interface->second.kind).label),
           "an interface of another kind");
    return false;
  };
  for (const Spot& pair : list.items()) {
    const auto sides = pair.items();
    if (sides.size() != 2) continue;
    const bool first_there = read_side(sides[0]), second_there = read_side(sides[1]);
    if (!first_there || !second_there) continue;
    if (sides[0].text() == sides[1].text()) {
      report(diagnostics, sides[1], "bad_value", "A part cannot join an interface with itself.", "another interface");
      continue;
    }
    part.joins.push_back({sides[0].text(), sides[1].text()});
  }
}

/// An interface of a kind that parts of this material or family cannot have is a part typed wrongly: a permitted change
/// for steel must never be asked of another material.
void check_stands_on(const Spot& spot, const Kinds& kinds, const model::Part& part, Diagnostics& diagnostics) {
  for (const auto& [name, interface] : part.interfaces) {
    const model::InterfaceKind& kind = kinds.at(interface.kind);
    const auto refuse = [&](const std::vector<std::string>& on, const std::string& is, std::string_view what) {
      if (on.empty() || std::find(on.begin(), on.end(), is) != on.end()) return;
      report(diagnostics, spot.at("interfaces").at(name).at("kind"), "wrong_part",
             fmt::format("No part of this {} has this: {}.", what, kind.label),
             fmt::format("{}: {}", what, comma_list(on)));
    };
    refuse(kind.on_materials, spot.at("material").text("unknown"), "material");
    refuse(kind.on_families, part.family, "family");
  }
}

}  // namespace

model::Material material_of(const std::string& word) {
  using model::Material;
  if (word == "steel") return Material::steel;
  if (word == "aluminium") return Material::aluminium;
  if (word == "titanium") return Material::titanium;
  if (word == "composite") return Material::composite;
  if (word == "plastic") return Material::plastic;
  return word == "other" ? Material::other : Material::unknown;
}

void IdList::add(const Spot& id) {
  if (!id.is_scalar()) return;
  const auto [seen, is_new] = seen_.emplace(id.text(), Seen{diagnostics_.file(), id.mark()});
  if (!is_new) report_duplicate(diagnostics_, id, noun_, seen->second);
}

bool names_an_angle(std::string_view name) {
  return name == "angle" || name.ends_with("_angle");
}

std::vector<SizeFault> size_faults(const model::InterfaceKind& kind,
                                   const std::map<std::string, quantity::Value>& values) {
  std::vector<SizeFault> faults;
  for (const auto& [smaller, larger] : kind.smaller_than) {
    const auto a = values.find(smaller);
    const auto b = values.find(larger);
    if (a == values.end() || b == values.end()) continue;
    const bool known = a->second.origin.kind != quantity::OriginKind::unknown &&
                       b->second.origin.kind != quantity::OriginKind::unknown;
    if (!known || a->second.nominal < b->second.nominal) continue;
    faults.push_back({smaller, larger,
                      fmt::format("{} {} is not smaller than {} {}.", model::find_dimension(kind, smaller)->label,
                                  shown(a->second), model::find_dimension(kind, larger)->label, shown(b->second)),
                      fmt::format("less than {}", shown(b->second))});
  }
  return faults;
}

std::optional<model::Interface> read_interface(const SpotEntry& entry, const Kinds& kinds, const ValueContext& context,
                                               Diagnostics& diagnostics) {
  const Spot& spot = entry.value;
  if (!spot.is_map()) return std::nullopt;
  if (!spot.at("kind").is_scalar()) {
    // Anything but a text under `kind` has nothing that could be looked up, so it counts as missing.
    report(diagnostics, spot.at("kind"), "missing_field", "An interface needs the field `kind`.",
           "the id of an interface kind");
    return std::nullopt;
  }
  const auto known = kinds.find(spot.at("kind").text());
  if (known == kinds.end()) {
    report_unknown(diagnostics, spot.at("kind"), "interface kind", names_of(kinds));
    return std::nullopt;
  }
  const model::InterfaceKind& kind = known->second;
  check(spot.node(), *interface_fields(kind, Completeness::any), diagnostics, spot.field());
  model::Interface interface{entry.key, kind.id, {}, {}};
  for (const model::KindDimension& dimension : kind.dimensions) {
    const Spot written = spot.at(dimension.id);
    if (dimension.required)
      report_missing(spot, kind, dimension.id, value_in_words(dimension.dimension) + ", or `?` when it is not known",
                     diagnostics);
    if (const auto value = read_dimension(written, kind, dimension, context, diagnostics))
      interface.values[dimension.id] = *value;
  }
  for (const model::KindWord& word : kind.words) {
    if (word.required)
      report_missing(spot, kind, word.id, "one of: " + comma_list(word.accepted) + ", or `?` when it is not known",
                     diagnostics);
    if (spot.at(word.id).is_scalar() && spot.at(word.id).text() != k_unknown_word)
      interface.words[word.id] = spot.at(word.id).text();
  }
  for (const SizeFault& fault : size_faults(kind, interface.values))
    report(diagnostics, spot.at(fault.smaller), "not_smaller", fault.message, fault.accepted);
  return interface;
}

model::Part read_part(const Spot& spot, const Kinds& kinds, const model::Shop* shop, Diagnostics& diagnostics) {
  model::Part part;
  part.id = spot.at("id").text();
  part.label = spot.at("label").text();
  part.family = spot.at("family").text();
  part.material = material_of(spot.at("material").text());
  part.used = spot.at("used").flag(false);
  part.paper = spot.at("paper").text();
  const ValueContext context{part.paper, shop};
  part.condition = read_condition(spot.at("condition"), context, diagnostics);
  if (part.condition && spot.at("used").exists() && !part.used)
    report(diagnostics, spot.at("used"), "bad_value", "A part with a record of its condition is a used part.",
           "`true`, or no `condition`");
  part.used = part.used || part.condition;
  if (const auto mass = read_written(spot.at("mass"), quantity::Dimension::mass, context); mass && mass->range_known)
    part.mass = *mass;
  part.price = read_money(spot.at("price"), diagnostics);
  for (const SpotEntry& entry : spot.at("interfaces").entries())
    if (auto interface = read_interface(entry, kinds, context, diagnostics))
      part.interfaces[entry.key] = std::move(*interface);
  check_stands_on(spot, kinds, part, diagnostics);
  read_joins(spot.at("joins"), kinds, part, diagnostics);
  part.geometry = read_geometry(spot.at("geometry"), context, diagnostics);
  read_hollows(spot, context, part, diagnostics);
  part.device = read_device(spot.at("device"), context, diagnostics);
  part.line = read_line(spot.at("line"), context, diagnostics);
  return part;
}

}  // namespace cotter::document
