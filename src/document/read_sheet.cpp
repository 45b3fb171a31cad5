#include "document/read_sheet.hpp"

#include <algorithm>

namespace cotter::document {

const model::Bicycle* SheetNames::bicycle() const {
  const auto found = catalog_.bicycles.find(sheet_.bicycle);
  return found == catalog_.bicycles.end() ? nullptr : &found->second;
}

std::vector<std::string> SheetNames::template_places() const {
  std::vector<std::string> names;
  if (bicycle() == nullptr) return names;
  for (const model::PlaceForm& place : bicycle()->places) names.push_back(place.id);
  return names;
}

std::vector<std::string> SheetNames::place_names() const {
  auto names = template_places();
  for (const model::Place& place : sheet_.places)
    if (std::find(names.begin(), names.end(), place.id) == names.end()) names.push_back(place.id);
  return names;
}

std::vector<std::string> SheetNames::part_names() const {
  auto names = names_of(catalog_.parts);
  for (const model::Part& part : sheet_.parts) names.push_back(part.id);
  return names;
}

const model::Part* SheetNames::find_part(const std::string& id) const {
  for (const model::Part& part : sheet_.parts)
    if (part.id == id) return &part;
  const auto found = catalog_.parts.find(id);
  return found == catalog_.parts.end() ? nullptr : &found->second;
}

const model::Part* SheetNames::part_in(const std::string& place) const {
  const std::string name = name_now(place);
  for (const model::Place& candidate : sheet_.places)
    if (candidate.id == name) return find_part(candidate.part);
  return nullptr;
}

std::string SheetNames::name_now(const std::string& place) const {
  std::string name = place;
  std::set<std::string> met;
  // A circle of aliases is a diagnostic of its own; here it only has to end.
  for (auto alias = sheet_.aliases.find(name); alias != sheet_.aliases.end() && met.insert(name).second;
       alias = sheet_.aliases.find(name))
    name = alias->second;
  for (const model::Place& candidate : sheet_.places)
    if (candidate.id == name) return name;
  for (const model::Place& candidate : sheet_.places)
    if (candidate.is == name) return candidate.id;
  return name;
}

}  // namespace cotter::document
