#include "plan/needs.hpp"

#include <algorithm>

namespace cotter::plan {
namespace {

using Names = std::vector<std::string>;

void add_once(Names& names, const std::string& name) {
  if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

/// Interfaces that the template names in a place, in the order it names them.
Names features_of(const model::Bicycle& bicycle, const std::string& place) {
  Names names;
  const auto take = [&](const std::string& of, const std::string& interface) {
    if (of == place) add_once(names, interface);
  };
  for (const model::JointForm& joint : bicycle.joints) {
    take(joint.a.place, joint.a.interface);
    take(joint.b.place, joint.b.interface);
  }
  for (const model::FeatureForm& feature : bicycle.features) take(feature.feature.place, feature.feature.interface);
  for (const model::StackDefinition& stack : bicycle.stacks)
    for (const model::StackTerm& term : stack.terms)
      if (!term.fixed) take(term.value.place, term.value.interface);
  return names;
}

/// Parts that could go there, by id: those that offer the most of what the place asks, the place's own family in front;
/// then the rest of that family, most in front.
Names parts_for(const model::Catalog& catalog, const std::string& place, const Names& features) {
  std::map<std::string, std::ptrdiff_t> offered;
  std::ptrdiff_t most = 1;
  for (const auto& [id, part] : catalog.parts) {
    const auto& interfaces = part.interfaces;
    offered[id] = std::count_if(features.begin(), features.end(),
                                [&](const std::string& feature) { return interfaces.contains(feature); });
    most = std::max(most, offered[id]);
  }
  Names names;
  for (const auto& [id, part] : catalog.parts)
    if (offered[id] == most || part.family == place) names.push_back(id);
  std::stable_sort(names.begin(), names.end(), [&](const std::string& a, const std::string& b) {
    const auto rank = [&](const std::string& id) {
      return std::pair(-offered[id], catalog.parts.at(id).family != place);
    };
    return rank(a) < rank(b);
  });
  return names;
}

/// What the neighbours of a feature can meet, for a place that no part of the catalog fills.
Names kinds_beside(const model::TemplateNeeds& needs, const model::Bicycle& bicycle, const model::Catalog& catalog,
                   const model::InterfaceRef& feature) {
  Names kinds;
  for (const model::JointForm& joint : bicycle.joints) {
    if (joint.a != feature && joint.b != feature) continue;
    const model::InterfaceRef& other = joint.a == feature ? joint.b : joint.a;
    for (const model::PlaceNeeds& place : needs.places)
      for (const model::FeatureNeed& offered : place.features)
        if (place.place.id == other.place && offered.interface == other.interface)
          for (const std::string& kind : offered.kinds)
            for (const auto& [id, own] : catalog.kinds)
              if (model::find_meeting(catalog, id, kind).meeting != nullptr) add_once(kinds, id);
  }
  return kinds;
}

Names kinds_offered(const model::Catalog& catalog, const Names& parts, const std::string& feature) {
  Names kinds;
  for (const std::string& id : parts) {
    const auto& interfaces = catalog.parts.at(id).interfaces;
    if (const auto found = interfaces.find(feature); found != interfaces.end()) add_once(kinds, found->second.kind);
  }
  return kinds;
}

/// Families of a port, over all parts that could go into its place.
std::set<std::string> families_of(const model::TemplateNeeds& needs, const model::Catalog& catalog,
                                  const model::InterfaceRef& port) {
  std::set<std::string> families;
  for (const model::PlaceNeeds& place : needs.places) {
    if (place.place.id != port.place) continue;
    for (const std::string& id : place.parts)
      if (const auto& device = catalog.parts.at(id).device)
        for (const model::Port& one : device->ports)
          if (one.id == port.interface) families.insert(one.family);
  }
  return families;
}

Names lines_for(const model::TemplateNeeds& needs, const model::Catalog& catalog,
                const model::ConnectionForm& connection) {
  const auto a = families_of(needs, catalog, connection.a), b = families_of(needs, catalog, connection.b);
  Names lines;
  for (const auto& [id, part] : catalog.parts) {
    if (!part.line) continue;
    const std::string &one = part.line->family_a, &other = part.line->family_b;
    if ((a.contains(one) && b.contains(other)) || (a.contains(other) && b.contains(one))) lines.push_back(id);
  }
  return lines;
}

}  // namespace

model::TemplateNeeds needs_of(const model::Bicycle& bicycle, const model::Catalog& catalog) {
  model::TemplateNeeds needs;
  for (const model::PlaceForm& form : bicycle.places) {
    const Names features = features_of(bicycle, form.id);
    model::PlaceNeeds place{form, {}, parts_for(catalog, form.id, features)};
    for (const std::string& feature : features)
      place.features.push_back({feature, kinds_offered(catalog, place.parts, feature)});
    needs.places.push_back(std::move(place));
  }
  for (model::PlaceNeeds& place : needs.places)
    for (model::FeatureNeed& feature : place.features)
      if (feature.kinds.empty())
        feature.kinds = kinds_beside(needs, bicycle, catalog, {place.place.id, feature.interface});
  for (const model::ConnectionForm& connection : bicycle.connections)
    needs.lines.push_back({connection, lines_for(needs, catalog, connection)});
  return needs;
}

model::CatalogUse use_of(const model::Catalog& catalog, const std::set<std::string>& used) {
  model::CatalogUse use;
  for (const auto& [id, kind] : catalog.kinds) use.parts_by_kind[id];
  for (const auto& [id, part] : catalog.parts) {
    use.parts_by_family[part.family].push_back(id);
    for (const auto& [name, interface] : part.interfaces) add_once(use.parts_by_kind[interface.kind], id);
  }
  std::set<std::string> fit = used;
  for (const auto& [id, bicycle] : catalog.bicycles) {
    const model::TemplateNeeds needs = needs_of(bicycle, catalog);
    for (const model::PlaceNeeds& place : needs.places) fit.insert(place.parts.begin(), place.parts.end());
    for (const model::LineNeed& line : needs.lines) fit.insert(line.parts.begin(), line.parts.end());
  }
  for (const auto& [id, part] : catalog.parts)
    if (!fit.contains(id)) use.unused_parts.push_back(id);
  return use;
}

}  // namespace cotter::plan
