// A route problem from its document.
#include <charconv>
#include <string_view>

#include "engine/route/solve.hpp"
#include "problem/route_problem.hpp"

namespace cotter::problem {

namespace {

using document::Diagnostic;
using document::Diagnostics;
using document::integer_or;
using document::Node;
using quantity::Length;

Length tenths(std::int64_t n) {
  return quantity::micrometres(100 * n);
}

std::int64_t number(const Node& map, std::string_view key) {
  return document::integer_of(*map.find(key));
}

int index(const Node& map, std::string_view key) {
  return static_cast<int>(number(map, key));
}

std::string at(const std::string& list, std::size_t i) {
  return list + "[" + std::to_string(i) + "]";
}

std::optional<int> index_or_none(const Node& map, std::string_view key) {
  const std::int64_t i = integer_or(map, key, -1);
  return i < 0 ? std::nullopt : std::optional(static_cast<int>(i));
}

std::vector<int> indices(const Node& map, std::string_view key) {
  std::vector<int> list;
  if (const Node* items = map.find(key))
    for (const Node& item : items->items()) list.push_back(static_cast<int>(document::integer_of(item)));
  return list;
}

geometry::GridPoint position(const Node& map) {
  const auto& list = map.find("pos")->items();
  return {document::integer_of(list[0]), document::integer_of(list[1]), document::integer_of(list[2])};
}

template <std::size_t n>
void read_numbers(const Node* list, std::array<std::int64_t, n>& numbers) {
  for (std::size_t i = 0; list && i < n; ++i) numbers[i] = document::integer_of(list->items()[i]);
}

void missing(const Node& node, const std::string& field, const std::string& message, Diagnostics& diagnostics) {
  diagnostics.add({"missing_field", "", node.mark(), field, message, "", "a whole number", ""});
}

class Reader {
 public:
  Reader(const Node& node, Diagnostics& diagnostics) : node_(node), diagnostics_(diagnostics) {}

  engine::route::Problem read() {
    problem_.name = document::text_of(*node_.find("name"));
    read_rules(*node_.find("rules"));
    for (const Node& cell : node_.find("cells")->items()) problem_.cells.push_back(document::text_of(cell));
    if (const Node* rules = node_.find("cell_rules"))
      for (const Node& rule : rules->items()) read_cell_rule(rule);
    const auto& apertures = node_.find("apertures")->items();
    for (std::size_t i = 0; i < apertures.size(); ++i) read_aperture(apertures[i], i);
    const auto& devices = node_.find("devices")->items();
    for (std::size_t i = 0; i < devices.size(); ++i) read_device(devices[i], at("devices", i));
    const auto& lines = node_.find("lines")->items();
    for (std::size_t i = 0; i < lines.size(); ++i) read_line(lines[i], at("lines", i));
    return std::move(problem_);
  }

 private:
  void read_rules(const Node& node) {
    engine::route::Rules& rules = problem_.rules;
    const bool exact = document::text_or(node, "packing", "density") == "exact";
    rules.packing = exact ? engine::route::Packing::exact : engine::route::Packing::density;
    rules.pack_permille = static_cast<int>(integer_or(node, "pack_permille", rules.pack_permille));
    rules.pull_permille = static_cast<int>(integer_or(node, "pull_permille", rules.pull_permille));
    rules.per_aperture = number(node, "per_aperture");
    read_numbers(node.find("turn_costs"), rules.turn_costs);
    read_numbers(node.find("equal_table"), rules.equal_table);
  }

  void read_cell_rule(const Node& node) {
    engine::route::CellRule rule;
    rule.cell = index(node, "cell");
    if (node.find("room")) rule.room = tenths(number(node, "room"));
    rule.bare_cable = document::boolean_or(node, "bare_cable", true);
    problem_.cell_rules.push_back(rule);
  }

  void read_aperture(const Node& node, std::size_t i) {
    engine::route::Aperture aperture;
    aperture.id = document::text_of(*node.find("name"));
    aperture.a = index(node, "a");
    aperture.b = index(node, "b");
    const bool exclusive = document::text_of(*node.find("kind")) == "exclusive";
    aperture.kind = exclusive ? engine::route::ApertureKind::exclusive : engine::route::ApertureKind::shared;
    const bool oval = document::text_or(node, "shape", "slot") == "oval";
    aperture.opening = {tenths(number(node, "D")), tenths(integer_or(node, "length", number(node, "D"))),
                        oval ? geometry::Shape::oval : geometry::Shape::slot};
    aperture.position = position(node);
    aperture.enlarge_max = static_cast<int>(integer_or(node, "enlarge_max", 0));
    aperture.enlarge_cost = integer_or(node, "enlarge_cost", 0);
    aperture.taken = document::boolean_or(node, "taken", false);
    problem_.apertures.push_back(aperture);
    const Node* id = node.find("id");
    if (id && document::integer_of(*id) != static_cast<std::int64_t>(i))
      diagnostics_.add({"id_not_position", "", id->mark(), at("apertures", i) + ".id",
                        "The id of an aperture is its position in the list.", id->scalar(), std::to_string(i), ""});
  }

  void read_device(const Node& node, const std::string& field) {
    engine::route::Device device;
    device.id = document::text_of(*node.find("name"));
    if (const Node* body = node.find("body")) device.body = read_connector(*body, field + ".body", Length{});
    for (const Node& seat : node.find("seats")->items())
      device.seats.push_back({index(seat, "node"), position(seat), index_or_none(seat, "aperture"),
                              index_or_none(seat, "place"), integer_or(seat, "cost", 0), indices(seat, "entries")});
    problem_.devices.push_back(device);
  }

  /// `line` is what the connector is on; nothing is thinner than that.
  engine::route::Connector read_connector(const Node& node, const std::string& field, Length line) {
    engine::route::Connector connector;
    const Node* w = node.find("w");
    const Node* h = node.find("h");
    if ((w == nullptr) != (h == nullptr))
      missing(node, field + (w ? ".h" : ".w"), "A rectangular connector needs both w and h.", diagnostics_);
    if (w && h)
      connector.section = geometry::Rectangle{tenths(document::integer_of(*w)), tenths(document::integer_of(*h))};
    if (node.find("c")) {
      connector.diameter = tenths(number(node, "c"));
    } else if (connector.section) {
      connector.diameter = std::max(line, geometry::diagonal(*connector.section));
    } else {
      missing(node, field + ".c", "A connector needs its diameter c, or w and h.", diagnostics_);
    }
    return connector;
  }

  engine::route::LineEnd read_end(const Node& node, const std::string& field, Length line) {
    return {index(node, "device"), read_connector(node, field, line)};
  }

  void read_line(const Node& node, const std::string& field) {
    engine::route::Line line;
    line.id = document::text_of(*node.find("name"));
    line.diameter = tenths(number(node, "d"));
    for (std::size_t i = 0; i < 2; ++i)
      line.ends[i] = read_end(node.find("ends")->items()[i], at(field + ".ends", i), line.diameter);
    if (const Node* lengths = node.find("lengths"))
      for (const Node& length : lengths->items()) line.lengths.push_back(document::integer_of(length));
    if (line.lengths.empty() && !node.find("cut_max"))
      missing(node, field + ".cut_max", "A line that is cut to length needs cut_max.", diagnostics_);
    if (!line.lengths.empty() && !node.find("max_stow"))
      missing(node, field + ".max_stow", "A line with fixed lengths needs max_stow.", diagnostics_);
    line.cut_max = integer_or(node, "cut_max", 0);
    line.min_slack = number(node, "min_slack");
    line.max_stow = integer_or(node, "max_stow", 0);
    line.surface = static_cast<int>(integer_or(node, "surface", 0));
    line.bend_radius = integer_or(node, "bend_radius", 0);
    line.bare_cable = document::boolean_or(node, "bare_cable", false);
    if (node.find("captive_end")) line.captive_end = index(node, "captive_end");
    line.correction = integer_or(node, "correction", 0);
    line.through = indices(node, "through");
    line.avoids = indices(node, "avoids");
    problem_.lines.push_back(line);
  }

  const Node& node_;
  Diagnostics& diagnostics_;
  engine::route::Problem problem_;
};

struct FaultWords {
  std::string_view what;
  const char* message;
  const char* accepted;
};

constexpr std::array k_fault_words = {
    FaultWords{"no_such_cell", "There is no such cell, or both sides are the same cell.",
               "a position in the list of cells, or -1 for the outside"},
    FaultWords{"no_such_aperture", "There is no such aperture.", "a position in the list of apertures, or -1"},
    FaultWords{"no_such_device", "There is no such device.", "a position in the list of devices"},
    FaultWords{"lead_wider_than_its_device", "The free end of a captive line is wider than its device.",
               "a connector no wider than the body"},
    FaultWords{"connector_thinner_than_line", "The connector is thinner than the line it is on.",
               "a diameter of at least d"},
    FaultWords{"connector_inside_its_section", "The circle does not enclose the rectangular connector.",
               "at least the diagonal of w and h, or no c"},
    FaultWords{"slot_shorter_than_wide", "The slot is shorter than it is wide, or too long.", "D to 2000"},
    FaultWords{"table_not_rising", "The table of equal lines must start at 10000 or more and never fall.",
               "seven rising numbers"},
};

/// The node at a path such as `lines[2].ends[0].c`, or the last one on the way to it.
const Node& node_at(const Node& root, std::string_view path) {
  const Node* node = &root;
  while (!path.empty()) {
    const std::size_t end = std::min(path.find_first_of(".[", 1), path.size());
    std::string_view step = path.substr(0, end);
    path.remove_prefix(end);
    if (step.front() == '[') {
      std::size_t i = 0;
      std::from_chars(step.data() + 1, step.data() + step.size(), i);
      if (!node->is_list() || i >= node->items().size()) break;
      node = &node->items()[i];
      continue;
    }
    if (step.front() == '.') step.remove_prefix(1);
    const Node* child = node->is_map() ? node->find(step) : nullptr;
    if (!child) break;
    node = child;
  }
  return *node;
}

Diagnostic fault_diagnostic(const engine::route::Fault& fault, const Node& root) {
  const Node& node = node_at(root, fault.where);
  Diagnostic diagnostic{fault.what,
                        "",
                        node.mark(),
                        fault.where,
                        "The number is out of its range.",
                        node.is_scalar() ? node.scalar() : "",
                        "",
                        ""};
  for (const FaultWords& words : k_fault_words) {
    if (words.what != fault.what) continue;
    diagnostic.message = words.message;
    diagnostic.accepted = words.accepted;
  }
  return diagnostic;
}

}  // namespace

document::Read<engine::route::Problem> read_route(const Node& node, const std::string& file) {
  Diagnostics diagnostics(file);
  document::check(node, *route_schema(), diagnostics);
  if (!diagnostics.empty()) return tl::unexpected(diagnostics);
  engine::route::Problem problem = Reader(node, diagnostics).read();
  if (!diagnostics.empty()) return tl::unexpected(diagnostics);
  for (const engine::route::Fault& fault : engine::route::faults_in(problem))
    diagnostics.add(fault_diagnostic(fault, node));
  if (!diagnostics.empty()) return tl::unexpected(diagnostics);
  return problem;
}

}  // namespace cotter::problem
