// What fills the places of the template, with the values that were measured on this very piece.

#include <algorithm>
#include <fmt/format.h>

#include "document/read_bicycle.hpp"
#include "document/read_condition.hpp"
#include "document/read_parts.hpp"
#include "document/read_sheet.hpp"
#include "document/schema.hpp"
#include "document/schema_words.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

/// The kind of an interface; an empty one when the catalog does not have it.
const model::InterfaceKind& kind_of(const model::Interface& interface, const Kinds& kinds) {
  static const model::InterfaceKind none;
  const auto found = kinds.find(interface.kind);
  return found == kinds.end() ? none : found->second;
}

/// `interface.dimension` of every dimension that the part's kinds have.
std::vector<std::string> target_names(const model::Part& part, const Kinds& kinds) {
  std::vector<std::string> names;
  for (const auto& [id, interface] : part.interfaces)
    for (const std::string& dimension : dimension_names(kind_of(interface, kinds)))
      names.push_back(fmt::format("{}.{}", id, dimension));
  return names;
}

std::optional<quantity::Value> read_geometry_override(const std::string& name, const Spot& value,
                                                      const ValueContext& context, Diagnostics& diagnostics) {
  const auto dimension = names_an_angle(name) ? quantity::Dimension::angle : quantity::Dimension::length;
  check(value.node(), *value_schema(dimension), diagnostics, value.field());
  return read_number(value, dimension, Sign::any, context, diagnostics);
}

/// Reads the places one after the other and remembers what is taken.
class PlaceReader {
 public:
  PlaceReader(const SheetNames& names, const model::Shop& shop, Diagnostics& diagnostics)
      : names_(names), shop_(shop), diagnostics_(diagnostics), template_places_(names.template_places()) {}

  model::Place read(const SpotEntry& entry);

 private:
  void check_template_place(const Spot& where, const model::Place& place);
  void check_part(const Spot& where, const Spot& entry);
  void check_seat(const Spot& where, const model::Place& place);
  void read_values(const Spot& spot, model::Place& place);
  void check_replaced_sizes(const Spot& spot, const model::Place& place, const model::Part& part);

  const SheetNames& names_;
  const model::Shop& shop_;
  Diagnostics& diagnostics_;
  std::vector<std::string> template_places_;
  Names filled_;
  Names parts_;
};

void PlaceReader::check_template_place(const Spot& where, const model::Place& place) {
  // Without a template nothing can be said about its places; that it is missing is said where it is named.
  if (names_.bicycle() == nullptr) return;
  if (std::find(template_places_.begin(), template_places_.end(), place.is) == template_places_.end()) {
    report_unknown(diagnostics_, where, "place", template_places_);
    return;
  }
  const auto [seen, is_new] = filled_.emplace(place.is, Seen{diagnostics_.file(), where.mark()});
  if (!is_new) report_duplicate(diagnostics_, where, "place of the template", seen->second);
}

void PlaceReader::check_seat(const Spot& where, const model::Place& place) {
  if (!where.is_scalar() || names_.bicycle() == nullptr) return;
  std::vector<std::string> known;
  for (const model::Seat& seat : names_.bicycle()->seats)
    if (seat.place == place.is && !seat.id.empty()) known.push_back(seat.id);
  if (std::find(known.begin(), known.end(), place.seat) == known.end())
    report_unknown(diagnostics_, where, "seat", known);
}

void PlaceReader::check_part(const Spot& where, const Spot& entry) {
  if (!where.is_scalar()) return;
  if (names_.find_part(where.text()) == nullptr) {
    report_unknown(diagnostics_, where, "part", names_.part_names());
    return;
  }
  const auto [seen, is_new] = parts_.emplace(where.text(), Seen{diagnostics_.file(), where.mark()});
  if (is_new || entry.at("another").flag(false)) return;
  report(diagnostics_, where, "part_twice",
         fmt::format("This part is already in another place, see line {}.", seen->second.mark.line),
         "`another: true` beside it, when it is a further piece of the same part");
}

void PlaceReader::read_values(const Spot& spot, model::Place& place) {
  if (!spot.exists()) return;
  const model::Part* part = names_.find_part(place.part);
  if (!spot.is_map()) {
    report(diagnostics_, spot, "wrong_kind", "Values are written as a map.", "`interface.dimension: value`");
    return;
  }
  if (part == nullptr) {
    if (place.part.empty())
      report(diagnostics_, spot, "bad_value", "A place without a part has no values.", "a part beside the values");
    return;
  }
  const ValueContext context{"", &shop_};
  for (const SpotEntry& entry : spot.entries())
    if (const auto value =
            read_override(entry.name, entry.key, entry.value, *part, names_.catalog().kinds, context, diagnostics_))
      place.values[entry.key] = *value;
  check_replaced_sizes(spot, place, *part);
}

/// The order of sizes again, where a replaced value takes part in it.
void PlaceReader::check_replaced_sizes(const Spot& spot, const model::Place& place, const model::Part& part) {
  for (const auto& [id, interface] : part.interfaces) {
    auto values = interface.values;
    const auto key = [&interface_id = id](const std::string& dimension) { return interface_id + "." + dimension; };
    for (auto& [dimension, value] : values)
      if (const auto replaced = place.values.find(key(dimension)); replaced != place.values.end())
        value = replaced->second;
    for (const SizeFault& fault : size_faults(kind_of(interface, names_.catalog().kinds), values)) {
      const bool smaller = place.values.contains(key(fault.smaller));
      if (!smaller && !place.values.contains(key(fault.larger))) continue;
      report(diagnostics_, spot.at(key(smaller ? fault.smaller : fault.larger)), "not_smaller", fault.message,
             smaller ? fault.accepted : "");
    }
  }
}

model::Place PlaceReader::read(const SpotEntry& entry) {
  const Spot& spot = entry.value;
  const Spot is = spot.at("is");
  const Spot part = spot.is_scalar() ? spot : spot.at("part");
  model::Place place;
  place.id = entry.key;
  place.is = is.text(entry.key);
  place.part = part.text();
  place.ordered = spot.at("at_hand").flag(false);
  place.seat = spot.at("seat").text();
  check_seat(spot.at("seat"), place);
  place.condition = read_condition(spot.at("condition"), ValueContext{"", &shop_}, diagnostics_);
  place.used = spot.at("used").flag(false) || place.condition;
  if (place.part.empty() && place.used)
    report(diagnostics_, spot.at(place.condition ? "condition" : "used"), "bad_value",
           "A place without a part has nothing in it that was used.", "a part beside it");
  check_template_place(is.is_scalar() ? is : entry.name, place);
  check_part(part, spot);
  read_values(spot.at("values"), place);
  return place;
}

}  // namespace

std::optional<quantity::Value> read_override(const Spot& name, const std::string& target, const Spot& value,
                                             const model::Part& part, const Kinds& kinds, const ValueContext& context,
                                             Diagnostics& diagnostics) {
  const auto names = dotted(target, 2);
  if (names.empty()) {
    report(diagnostics, name, "bad_reference", "This does not name a value of a part.",
           "`interface.dimension`, or `geometry.name`");
    return std::nullopt;
  }
  if (names[0] == "geometry") return read_geometry_override(names[1], value, context, diagnostics);
  const auto interface = part.interfaces.find(names[0]);
  const model::InterfaceKind* kind = interface == part.interfaces.end() ? nullptr : &kind_of(interface->second, kinds);
  const auto* dimension = kind == nullptr ? nullptr : model::find_dimension(*kind, names[1]);
  if (dimension == nullptr) {
    const auto known = target_names(part, kinds);
    report(diagnostics, name, "unknown_name", fmt::format("The part has no value `{}`.", target), comma_list(known),
           quantity::nearest_word(target, known).value_or(""));
    return std::nullopt;
  }
  check(value.node(), *value_schema(dimension->dimension), diagnostics, value.field());
  return read_dimension(value, *kind, *dimension, context, diagnostics);
}

std::vector<model::Place> read_places(const Spot& spot, const SheetNames& names, const model::Shop& shop,
                                      Diagnostics& diagnostics) {
  PlaceReader reader(names, shop, diagnostics);
  std::vector<model::Place> places;
  for (const SpotEntry& entry : spot.entries()) places.push_back(reader.read(entry));
  return places;
}

}  // namespace cotter::document
