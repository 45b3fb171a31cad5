// The shop, the aliases and the decisions of a job.

#include <algorithm>
#include <set>

#include "document/read_parts.hpp"
#include "document/read_sheet.hpp"
#include "document/schema_words.hpp"

namespace cotter::document {
namespace {

/// The names of a circle that starts and ends at `start`; empty when there is none.
std::vector<std::string> circle_from(const std::map<std::string, std::string>& aliases, const std::string& start) {
  std::vector<std::string> names{start};
  std::set<std::string> met;
  for (auto next = aliases.find(start); next != aliases.end() && met.insert(next->second).second;
       next = aliases.find(next->second)) {
    names.push_back(next->second);
    if (next->second == start) return names;
  }
  return {};
}

model::KitPiece read_piece(const Spot& spot, Diagnostics& diagnostics) {
  const auto thickness =
      read_number(spot.at("thickness"), quantity::Dimension::length, Sign::positive, {}, diagnostics);
  const auto bore = read_number(spot.at("bore"), quantity::Dimension::length, Sign::positive, {}, diagnostics);
  return {spot.at("id").text(),        spot.at("label").text(),
          spot.at("piece").text(),     thickness.value_or(quantity::Value{}),
          spot.at("count").integer(0), bore};
}

}  // namespace

model::Shop read_shop(const Spot& spot, Diagnostics& diagnostics) {
  model::Shop shop;
  shop.name = spot.at("name").text();
  shop.country = spot.at("country").text();
  if (const auto rate = read_money(spot.at("rate"), diagnostics)) {
    shop.rate_hundredths = rate->hundredths;
    shop.currency = rate->currency;
  }
  IdList tools("tool", diagnostics);
  for (const Spot& item : spot.at("tools").items()) {
    tools.add(item.at("id"));
    read_any_value(item.at("resolution"), diagnostics);
    shop.tools.push_back(
        {item.at("id").text(), item.at("label").text(), item.at("kind").text(), item.at("resolution").text()});
  }
  IdList pieces("kit piece", diagnostics);
  for (const Spot& item : spot.at("kit").items()) {
    pieces.add(item.at("id"));
    shop.kit.push_back(read_piece(item, diagnostics));
  }
  return shop;
}

std::map<std::string, std::string> read_aliases(const Spot& spot, const std::vector<model::Place>& places,
                                                Diagnostics& diagnostics) {
  std::map<std::string, std::string> aliases;
  for (const SpotEntry& entry : spot.entries())
    if (entry.value.is_scalar()) aliases[entry.key] = entry.value.text();
  for (const SpotEntry& entry : spot.entries()) {
    const auto circle = circle_from(aliases, entry.key);
    // Each circle is said once, at the first of its names.
    if (!circle.empty() && *std::min_element(circle.begin(), circle.end()) == entry.key)
      report(diagnostics, entry.value, "alias_circle", "The old names lead in a circle: " + comma_list(circle) + ".",
             "the name that is used now");
    if (std::any_of(places.begin(), places.end(), [&](const model::Place& place) { return place.id == entry.key; }))
      report(diagnostics, entry.name, "duplicate_id", "This old name is the name of a place now.",
             "a name that is no longer used");
  }
  return aliases;
}

std::vector<model::Decision> read_decisions(const Spot& list, Diagnostics& diagnostics) {
  std::vector<model::Decision> decisions;
  for (const Spot& item : list.items()) {
    const auto margin = read_any_value(item.at("margin"), diagnostics);
    decisions.push_back({item.at("finding").text(), item.at("by").text(), item.at("on").text(),
                         item.at("reason").text(), margin ? margin->nominal : 0,
                         model::passes_from(item.at("passes").text())});
  }
  return decisions;
}

}  // namespace cotter::document
