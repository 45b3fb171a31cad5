#include "document/read_bicycle.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "document/read_parts.hpp"
#include "document/read_section.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

bool contains(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// The parts of a dotted name whose first is a place.
std::vector<std::string> read_dotted(const Spot& spot, std::size_t count, const std::vector<std::string>& places,
                                     std::string_view shape, Diagnostics& diagnostics) {
  if (!spot.is_scalar()) return {};
  auto names = dotted(spot.text(), count);
  if (names.empty()) {
    report(diagnostics, spot, "bad_reference", "This does not name a thing of a place.", std::string(shape));
    return {};
  }
  if (contains(places, names[0])) return names;
  report(diagnostics, spot, "unknown_name", fmt::format("There is no place `{}`.", names[0]), std::string(shape),
         quantity::nearest_word(names[0], places).value_or(""));
  return {};
}

model::PlaceForm read_place(const Spot& spot, const std::vector<std::string>& operations, Diagnostics& diagnostics) {
  const Spot before = spot.at("decide_before");
  if (before.is_scalar() && !contains(operations, before.text()))
    report_unknown(diagnostics, before, "operation", operations);
  return {spot.at("id").text(), spot.at("label").text(), spot.at("optional").flag(false), before.text(),
          spot.at("unchecked").text()};
}

void read_offset(const Spot& list, model::Seat& seat) {
  const auto offset = list.items();
  if (offset.size() != 3) return;
  seat.x = offset[0].integer(0);
  seat.y = offset[1].integer(0);
  seat.z = offset[2].integer(0);
}

model::Seat read_seat(const Spot& spot, const std::vector<std::string>& places, Diagnostics& diagnostics) {
  model::Seat seat;
  seat.id = spot.at("id").text();
  seat.place = spot.at("place").text();
  seat.cell = spot.at("cell").text();
  seat.point = spot.at("point").text();
  seat.opening = spot.at("opening").text();
  seat.cost = spot.at("cost").integer(0);
  read_offset(spot.at("offset"), seat);
  if (spot.at("place").is_scalar() && !contains(places, seat.place))
    report_unknown(diagnostics, spot.at("place"), "place", places);
  if (seat.cell != "outside") read_pair(spot.at("cell"), places, "`outside` or `place.cell`", diagnostics);
  read_pair(spot.at("opening"), places, "`place.opening`", diagnostics);
  for (const Spot& entry : spot.at("entries").items()) {
    read_pair(entry, places, "`place.opening`", diagnostics);
    seat.entries.push_back(entry.text());
  }
  return seat;
}

}  // namespace

std::vector<std::string> dotted(const std::string& text, std::size_t count) {
  std::vector<std::string> names(1);
  for (const char c : text) {
    if (c == '.') {
      names.emplace_back();
    } else {
      names.back() += c;
    }
  }
  const bool whole = std::none_of(names.begin(), names.end(), [](const std::string& name) { return name.empty(); });
  return names.size() == count && whole ? names : std::vector<std::string>{};
}

std::optional<model::InterfaceRef> read_pair(const Spot& spot, const std::vector<std::string>& places,
                                             std::string_view shape, Diagnostics& diagnostics) {
  const auto names = read_dotted(spot, 2, places, shape, diagnostics);
  if (names.empty()) return std::nullopt;
  return model::InterfaceRef{names[0], names[1]};
}

std::optional<model::ValueRef> read_value_ref(const Spot& spot, const std::vector<std::string>& places,
                                              Diagnostics& diagnostics) {
  const auto names = read_dotted(spot, 3, places, "`place.interface.dimension`", diagnostics);
  if (names.empty()) return std::nullopt;
  return model::ValueRef{names[0], names[1], names[2]};
}

std::string read_spoilt(const Spot& spot, const std::vector<std::string>& places, Diagnostics& diagnostics) {
  if (spot.is_scalar() && !contains(places, spot.text())) report_unknown(diagnostics, spot, "place", places);
  return spot.text();
}

model::JointForm read_joint(const Spot& spot, const std::vector<std::string>& places, Diagnostics& diagnostics) {
  model::JointForm joint;
  joint.id = spot.at("id").text();
  joint.label = spot.at("label").text();
  joint.a = read_pair(spot.at("a"), places, "`place.interface`", diagnostics).value_or(model::InterfaceRef{});
  joint.b = read_pair(spot.at("b"), places, "`place.interface`", diagnostics).value_or(model::InterfaceRef{});
  joint.only_with = spot.at("only_with").text();
  joint.when = spot.at("when").texts();
  joint.late = spot.at("late").hundredths();
  joint.spoils = read_spoilt(spot.at("spoils"), places, diagnostics);
  return joint;
}

model::Bicycle read_bicycle(const Spot& spot, const std::vector<std::string>& operations, const Sections& sections,
                            Diagnostics& diagnostics) {
  model::Bicycle bicycle;
  bicycle.id = spot.at("id").text();
  bicycle.label = spot.at("label").text();
  std::vector<std::string> places;
  IdList place_ids("place", diagnostics);
  for (const Spot& item : spot.at("places").items()) {
    place_ids.add(item.at("id"));
    bicycle.places.push_back(read_place(item, operations, diagnostics));
    places.push_back(bicycle.places.back().id);
  }
  Section own = read_entries(spot, {places, operations}, diagnostics);
  bicycle.features = std::move(own.features);
  bicycle.joints = std::move(own.joints);
  bicycle.connections = std::move(own.connections);
  bicycle.stacks = std::move(own.stacks);
  bicycle.clearances = std::move(own.clearances);
  for (const Spot& item : spot.at("sections").items()) {
    const auto section = sections.find(item.text());
    if (section == sections.end()) {
      report_unknown(diagnostics, item, "section", names_of(sections));
      continue;
    }
    if (const auto twice = given_twice(section->second, bicycle))
      report(diagnostics, item, "duplicate_id",
             fmt::format("The section brings `{}`, which is there already.", *twice));
    add_section(section->second, bicycle);
  }
  for (const Spot& item : spot.at("seats").items()) bicycle.seats.push_back(read_seat(item, places, diagnostics));
  IdList passage_ids("passage", diagnostics);
  for (const Spot& item : spot.at("passages").items()) {
    passage_ids.add(item.at("id"));
    bicycle.passages.push_back(read_passage(item, {}, diagnostics));
    for (const char* cell : {"a", "b", "tube"}) read_pair(item.at(cell), places, "`place.cell`", diagnostics);
  }
  return bicycle;
}

}  // namespace cotter::document
