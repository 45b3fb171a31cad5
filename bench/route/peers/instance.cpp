#include "instance.hpp"

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>

namespace route_peers {

std::int64_t Line::longest_way() const {
  if (lengths.empty()) return cut_max - min_slack;
  return *std::max_element(lengths.begin(), lengths.end()) - min_slack;
}

bool Line::suits(std::int64_t way) const {
  if (lengths.empty()) return way + min_slack <= cut_max;
  return std::any_of(lengths.begin(), lengths.end(),
                     [&](std::int64_t length) { return min_slack <= length - way && length - way <= max_stow; });
}

Instance read_instance(const std::string& path) {
  std::ifstream file(path);
  const nlohmann::json j = nlohmann::json::parse(file);
  const auto& rules = j["rules"];
  Instance instance{
      j["name"],
      j.value("size", ""),
      {rules["pack_permille"], rules["pull_permille"], rules["per_aperture"],
       rules["turn_costs"].get<std::array<std::int64_t, 5>>(), rules["equal_table"].get<std::array<std::int64_t, 7>>()},
      static_cast<int>(j["cells"].size()),
      {},
      {},
      {}};
  for (const auto& a : j["apertures"])
    instance.apertures.push_back(
        {a["a"], a["b"], a["kind"] == "exclusive", a["D"], a["pos"].get<Point>(), a["enlarge_max"], a["enlarge_cost"]});
  for (const auto& device : j["devices"]) {
    std::vector<Seat> seats;
    for (const auto& s : device["seats"])
      seats.push_back({s["node"], s["pos"].get<Point>(), s["aperture"], s["place"], s["cost"]});
    instance.devices.push_back(seats);
  }
  for (const auto& l : j["lines"]) {
    const auto& ends = l["ends"];
    instance.lines.push_back({l["d"],
                              {ends[0]["device"], ends[1]["device"]},
                              std::min(ends[0]["c"].get<std::int64_t>(), ends[1]["c"].get<std::int64_t>()),
                              l["lengths"].get<std::vector<std::int64_t>>(),
                              l["cut_max"],
                              l["min_slack"],
                              l["max_stow"],
                              l["surface"]});
  }
  return instance;
}

Instance without_lines(const Instance& instance, const std::vector<int>& kept) {
  Instance out = instance;
  out.lines.clear();
  for (const int line : kept) out.lines.push_back(instance.lines[static_cast<std::size_t>(line)]);
  return out;
}

}  // namespace route_peers
