#pragma once
// Reads the reference instances, which are not part of this repository, for tests of the engine alone.

#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "engine/route/problem.hpp"
#include "engine/route/solve_relaxed.hpp"

namespace cotter::engine::route::reference {

inline quantity::Length tenths(const nlohmann::json& number) {
  return quantity::micrometres(100 * number.get<std::int64_t>());
}

inline geometry::GridPoint point(const nlohmann::json& list) {
  return {list[0], list[1], list[2]};
}

inline std::optional<int> number_or_none(const nlohmann::json& number) {
  return number.get<int>() < 0 ? std::nullopt : std::optional(number.get<int>());
}

inline Aperture aperture(const nlohmann::json& j) {
  return {j["name"],
          j["a"],
          j["b"],
          j["kind"] == "exclusive" ? ApertureKind::exclusive : ApertureKind::shared,
          {tenths(j["D"]), tenths(j["D"])},
          point(j["pos"]),
          j["enlarge_max"],
          j["enlarge_cost"]};
}

inline Device device(const nlohmann::json& j) {
  Device device{j["name"], {}};
  for (const auto& s : j["seats"])
    device.seats.push_back(
        {s["node"], point(s["pos"]), number_or_none(s["aperture"]), number_or_none(s["place"]), s["cost"]});
  return device;
}

inline Line line(const nlohmann::json& j) {
  const auto end = [&](std::size_t i) { return LineEnd{j["ends"][i]["device"], {tenths(j["ends"][i]["c"]), {}}}; };
  return {j["name"],    tenths(j["d"]), {end(0), end(1)}, j["lengths"].get<std::vector<std::int64_t>>(),
          j["cut_max"], j["min_slack"], j["max_stow"],    j["surface"]};
}

inline Problem read(const std::string& path) {
  std::ifstream file(path);
  const nlohmann::json j = nlohmann::json::parse(file);
  Problem problem;
  problem.name = j["name"];
  problem.rules.packing = Packing::density;
  problem.rules.pack_permille = j["rules"]["pack_permille"];
  problem.rules.pull_permille = j["rules"]["pull_permille"];
  problem.rules.per_aperture = j["rules"]["per_aperture"];
  problem.rules.turn_costs = j["rules"]["turn_costs"].get<std::array<std::int64_t, 5>>();
  problem.rules.equal_table = j["rules"]["equal_table"].get<std::array<std::int64_t, 7>>();
  for (const auto& cell : j["cells"]) problem.cells.push_back(cell);
  for (const auto& a : j["apertures"]) problem.apertures.push_back(aperture(a));
  for (const auto& d : j["devices"]) problem.devices.push_back(device(d));
  for (const auto& l : j["lines"]) problem.lines.push_back(line(l));
  return problem;
}

inline std::optional<std::int64_t> cost_or_none(const nlohmann::json& cost) {
  return cost.get<std::int64_t>() < 0 ? std::nullopt : std::optional(cost.get<std::int64_t>());
}

inline Relief relief(const std::string& path) {
  std::ifstream file(path);
  const nlohmann::json j = nlohmann::json::parse(file);
  Relief relief;
  for (const auto& a : j["apertures"]) {
    const auto& relax = a["relax"];
    relief.apertures.push_back({relax["extra_steps"], relax["extra_cost"], cost_or_none(relax["share_cost"])});
  }
  for (const auto& l : j["lines"])
    relief.lines.push_back({cost_or_none(l["relax"]["drop_cost"]), cost_or_none(l["relax"]["length_cost"])});
  return relief;
}

}  // namespace cotter::engine::route::reference
