// What is wrong with a problem before anything is computed: references, signs, sizes.
#include <algorithm>
#include <cstdlib>

#include "engine/route/apertures.hpp"
#include "engine/route/solve.hpp"

namespace cotter::engine::route {

namespace {

/// Costs, lengths and steps beyond this are refused, so that sums stay inside 64 bits with room for prices.
constexpr std::int64_t k_most_number = 10'000'000;
constexpr int k_most_steps = 1000;

class Checker {
 public:
  explicit Checker(const Problem& problem) : problem_(problem) {}

  std::vector<Fault> check() {
    check_counts();
    check_rules();
    each("cell_rules", problem_.cell_rules, [&](const CellRule& rule) {
      require(is_cell(rule.cell), "no_such_cell", ".cell");
      if (rule.room)
        require(*rule.room >= quantity::Length{} && *rule.room <= k_most_diameter, "diameter_out_of_range", ".room");
    });
    each("apertures", problem_.apertures, [&](const Aperture& aperture) { check_aperture(aperture); });
    each("devices", problem_.devices, [&](const Device& device) { check_device(device); });
    each("lines", problem_.lines, [&](const Line& line) { check_line(line); });
    return std::move(faults_);
  }

 private:
  void require(bool good, const char* what, const std::string& field = "") {
    if (!good) faults_.push_back({what, where_ + field});
  }

  template <class T, class Check>
  void each(const std::string& name, const std::vector<T>& list, const Check& check) {
    const std::string before = where_;
    for (std::size_t i = 0; i < list.size(); ++i) {
      where_ = before + name + "[" + std::to_string(i) + "]";
      check(list[i]);
    }
    where_ = before;
  }

  void require_number(std::int64_t number, const std::string& field) {
    require(number >= 0 && number <= k_most_number, "number_out_of_range", field);
  }

  void require_position(geometry::GridPoint p) {
    const auto inside = [](std::int64_t c) {
      return -geometry::k_most_coordinate_mm <= c && c <= geometry::k_most_coordinate_mm;
    };
    require(inside(p.x) && inside(p.y) && inside(p.z), "position_out_of_range", ".pos");
  }

  void require_diameter(quantity::Length diameter, const std::string& field) {
    require(diameter > quantity::Length{} && diameter <= k_most_diameter, "diameter_out_of_range", field);
  }

  bool is_node(int node) const { return node == k_outside || is_cell(node); }
  bool is_cell(int node) const { return node >= 0 && node < static_cast<int>(problem_.cells.size()); }
  bool is_aperture(int a) const { return a >= 0 && a < static_cast<int>(problem_.apertures.size()); }
  bool is_device(int d) const { return d >= 0 && d < static_cast<int>(problem_.devices.size()); }

  void check_counts() {
    require(problem_.cells.size() <= k_most_cells, "too_many", "cells");
    require(problem_.apertures.size() <= k_most_apertures, "too_many", "apertures");
    require(problem_.lines.size() <= k_most_lines, "too_many", "lines");
    const auto bodies = std::count_if(problem_.devices.begin(), problem_.devices.end(),
                                      [](const Device& device) { return device.body.has_value(); });
    require(bodies <= k_most_bodies, "too_many", "devices");
  }

  void check_rules() {
    const Rules& rules = problem_.rules;
    require(rules.pack_permille > 0 && rules.pack_permille <= 1000, "permille_out_of_range", "rules.pack_permille");
    require(rules.pull_permille > 0 && rules.pull_permille <= 1000, "permille_out_of_range", "rules.pull_permille");
    require_number(rules.per_aperture, "rules.per_aperture");
    for (const std::int64_t cost : rules.turn_costs) require_number(cost, "rules.turn_costs");
    const auto& table = rules.equal_table;
    require(table[0] >= 10000 && table.back() <= k_most_number && std::is_sorted(table.begin(), table.end()),
            "table_not_rising", "rules.equal_table");
  }

  void check_aperture(const Aperture& aperture) {
    require(is_cell(aperture.a), "no_such_cell", ".a");
    require(is_node(aperture.b) && aperture.b != aperture.a, "no_such_cell", ".b");
    require_diameter(aperture.opening.width, ".D");
    require(aperture.opening.length >= aperture.opening.width && aperture.opening.length <= k_most_diameter,
            "slot_shorter_than_wide", ".length");
    require_position(aperture.position);
    require(aperture.enlarge_max >= 0 && aperture.enlarge_max <= k_most_steps, "number_out_of_range", ".enlarge_max");
    require_number(aperture.enlarge_cost, ".enlarge_cost");
  }

  void check_device(const Device& device) {
    require(!device.seats.empty(), "no_seat", ".seats");
    require(device.seats.size() <= k_most_seats, "too_many", ".seats");
    each(".seats", device.seats, [&](const Seat& seat) {
      require(is_node(seat.node), "no_such_cell", ".node");
      require(!seat.aperture || is_aperture(*seat.aperture), "no_such_aperture", ".aperture");
      require_position(seat.position);
      require_number(seat.cost, ".cost");
      require_apertures(seat.entries, ".entries");
    });
    if (device.body) require_connector(*device.body, ".body");
  }

  void require_apertures(const std::vector<int>& apertures, const std::string& field) {
    for (const int a : apertures) require(is_aperture(a), "no_such_aperture", field);
  }

  void require_connector(const Connector& connector, const std::string& field) {
    require_diameter(connector.diameter, field + ".c");
    if (!connector.section) return;
    require_diameter(connector.section->width, field + ".w");
    require_diameter(connector.section->height, field + ".h");
    require(connector.diameter >= geometry::diagonal(*connector.section), "connector_inside_its_section", field + ".c");
  }

  void check_line(const Line& line) {
    require_diameter(line.diameter, ".d");
    for (std::size_t end = 0; end < 2; ++end) {
      const std::string field = ".ends[" + std::to_string(end) + "]";
      const Connector& connector = line.ends[end].connector;
      require(is_device(line.ends[end].device), "no_such_device", field + ".device");
      require_connector(connector, field);
      require(connector.diameter >= line.diameter, "connector_thinner_than_line", field + ".c");
    }
    for (const std::int64_t length : line.lengths) require_number(length, ".lengths");
    require_number(line.cut_max, ".cut_max");
    require_number(line.min_slack, ".min_slack");
    require_number(line.max_stow, ".max_stow");
    require(line.surface >= 0 && line.surface <= k_most_steps, "number_out_of_range", ".surface");
    require_number(line.bend_radius, ".bend_radius");
    require(std::abs(line.correction) <= k_most_number, "number_out_of_range", ".correction");
    check_captive(line);
    require_apertures(line.through, ".through");
    require_apertures(line.avoids, ".avoids");
  }

  /// A lead goes in before its device, through the same entries: it must pass wherever the device does.
  void check_captive(const Line& line) {
    if (!line.captive_end) return;
    const int end = *line.captive_end;
    require(end == 0 || end == 1, "no_such_end", ".captive_end");
    if (end != 0 && end != 1) return;
    const int device = line.ends[static_cast<std::size_t>(end)].device;
    if (!is_device(device)) return;
    const std::optional<Connector>& body = problem_.devices[static_cast<std::size_t>(device)].body;
    const Connector& free = line.ends[static_cast<std::size_t>(1 - end)].connector;
    require(!body || free.diameter <= body->diameter, "lead_wider_than_its_device", ".captive_end");
  }

  const Problem& problem_;
  std::string where_;
  std::vector<Fault> faults_;
};

}  // namespace

std::vector<Fault> faults_in(const Problem& problem) {
  return Checker(problem).check();
}

}  // namespace cotter::engine::route
