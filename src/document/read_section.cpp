#include "document/read_section.hpp"

#include <algorithm>
#include <set>

#include "document/read_bicycle.hpp"
#include "document/read_parts.hpp"
#include "document/read_rules.hpp"

namespace cotter::document {
namespace {

model::FeatureForm read_feature(const Spot& spot, const std::vector<std::string>& places, Diagnostics& diagnostics) {
  model::FeatureForm form;
  form.id = spot.at("id").text();
  form.label = spot.at("label").text();
  form.feature =
      read_pair(spot.at("feature"), places, "`place.interface`", diagnostics).value_or(model::InterfaceRef{});
  form.kinds = spot.at("kinds").texts();
  form.guards = read_protection(spot, diagnostics).guards;
  return form;
}

model::ConnectionForm read_connection(const Spot& spot, const std::vector<std::string>& places,
                                      Diagnostics& diagnostics) {
  model::ConnectionForm connection;
  connection.id = spot.at("id").text();
  connection.label = spot.at("label").text();
  connection.a = read_pair(spot.at("a"), places, "`place.port`", diagnostics).value_or(model::InterfaceRef{});
  connection.b = read_pair(spot.at("b"), places, "`place.port`", diagnostics).value_or(model::InterfaceRef{});
  connection.guards = read_protection(spot, diagnostics).guards;
  connection.when = spot.at("when").texts();
  return connection;
}

model::Clearance read_clearance(const Spot& spot, const std::vector<std::string>& places, Diagnostics& diagnostics) {
  model::Clearance clearance;
  clearance.id = spot.at("id").text();
  clearance.cell = spot.at("cell").text();
  read_pair(spot.at("cell"), places, "`place.cell`", diagnostics);
  clearance.inside = read_value_ref(spot.at("inside"), places, diagnostics).value_or(model::ValueRef{});
  clearance.shaft = read_value_ref(spot.at("shaft"), places, diagnostics).value_or(model::ValueRef{});
  clearance.keep = read_number(spot.at("keep"), quantity::Dimension::length, Sign::not_negative, {}, diagnostics)
                       .value_or(quantity::Value{});
  clearance.when = spot.at("when").texts();
  return clearance;
}

using Places = std::set<std::string>;

/// Every place a form of a stack rests on is there.
bool has_all(const model::StackDefinition& stack, const model::StackForm& form, const Places& places) {
  const auto has = [&](const std::optional<model::ValueRef>& ref) { return !ref || places.contains(ref->place); };
  return has(form.must_from) && has(form.must_to) &&
         std::all_of(stack.terms.begin(), stack.terms.end(), [&](const model::StackTerm& term) {
           return term.fixed || !form.terms.contains(term.id) || places.contains(term.value.place);
         });
}

void add_stack(model::StackDefinition stack, const Places& places, model::Bicycle& bicycle) {
  std::erase_if(stack.forms, [&](const model::StackForm& form) { return !has_all(stack, form, places); });
  if (!stack.forms.empty()) bicycle.stacks.push_back(std::move(stack));
}

template <class Entry>
std::optional<std::string> first_shared(const std::vector<Entry>& a, const std::vector<Entry>& b) {
  for (const Entry& one : a)
    if (std::any_of(b.begin(), b.end(), [&](const Entry& other) { return other.id == one.id; })) return one.id;
  return std::nullopt;
}

}  // namespace

Section read_entries(const Spot& spot, const TemplateNames& names, Diagnostics& diagnostics) {
  Section section;
  IdList feature_ids("feature", diagnostics);
  for (const Spot& item : spot.at("features").items()) {
    feature_ids.add(item.at("id"));
    section.features.push_back(read_feature(item, names.places, diagnostics));
  }
  IdList joint_ids("joint", diagnostics);
  for (const Spot& item : spot.at("joints").items()) {
    joint_ids.add(item.at("id"));
    section.joints.push_back(read_joint(item, names.places, diagnostics));
  }
  IdList connection_ids("connection", diagnostics);
  for (const Spot& item : spot.at("connections").items()) {
    connection_ids.add(item.at("id"));
    section.connections.push_back(read_connection(item, names.places, diagnostics));
  }
  section.stacks = read_stacks(spot.at("stacks"), names, diagnostics);
  IdList clearance_ids("clearance", diagnostics);
  for (const Spot& item : spot.at("clearances").items()) {
    clearance_ids.add(item.at("id"));
    section.clearances.push_back(read_clearance(item, names.places, diagnostics));
  }
  return section;
}

Section read_section(const Spot& spot, const std::vector<std::string>& operations, Diagnostics& diagnostics) {
  IdList place_ids("place", diagnostics);
  for (const Spot& item : spot.at("places").items()) place_ids.add(item);
  return read_entries(spot, {spot.at("places").texts(), operations}, diagnostics);
}

std::optional<std::string> given_twice(const Section& section, const model::Bicycle& bicycle) {
  if (const auto id = first_shared(section.features, bicycle.features)) return id;
  if (const auto id = first_shared(section.joints, bicycle.joints)) return id;
  if (const auto id = first_shared(section.connections, bicycle.connections)) return id;
  if (const auto id = first_shared(section.clearances, bicycle.clearances)) return id;
  return first_shared(section.stacks, bicycle.stacks);
}

void add_section(const Section& section, model::Bicycle& bicycle) {
  Places places;
  for (const model::PlaceForm& place : bicycle.places) places.insert(place.id);
  const auto joins = [&](const auto& entry) {
    return places.contains(entry.a.place) && places.contains(entry.b.place);
  };
  for (const model::FeatureForm& feature : section.features)
    if (places.contains(feature.feature.place)) bicycle.features.push_back(feature);
  std::copy_if(section.joints.begin(), section.joints.end(), std::back_inserter(bicycle.joints), joins);
  std::copy_if(section.connections.begin(), section.connections.end(), std::back_inserter(bicycle.connections), joins);
  for (const model::StackDefinition& stack : section.stacks) add_stack(stack, places, bicycle);
  for (const model::Clearance& clearance : section.clearances)
    if (places.contains(clearance.inside.place) && places.contains(clearance.shaft.place))
      bicycle.clearances.push_back(clearance);
}

}  // namespace cotter::document
