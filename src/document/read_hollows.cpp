// Tubes with their holes, ports, and lines: what routing needs of a part.

#include <algorithm>
#include <fmt/format.h>

#include "document/read_bicycle.hpp"
#include "document/read_parts.hpp"

namespace cotter::document {
namespace {

using quantity::Dimension;

model::Cell read_cell(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics) {
  model::Cell cell;
  cell.id = spot.at("id").text();
  cell.tube = spot.at("tube").text();
  const auto outer = read_number(spot.at("outer_diameter"), Dimension::length, Sign::positive, context, diagnostics);
  const auto bore = read_number(spot.at("bore"), Dimension::length, Sign::positive, context, diagnostics);
  cell.outer_diameter = outer.value_or(quantity::Value{});
  cell.bore = bore.value_or(quantity::Value{});
  if (outer && bore && bore->nominal >= outer->nominal)
    report(diagnostics, spot.at("bore"), "not_smaller",
           fmt::format("bore {} is not smaller than outer diameter {}.", shown(*bore), shown(*outer)),
           fmt::format("less than {}", shown(*outer)));
  return cell;
}

const model::Cell* find_cell(const model::Part& part, const std::string& id) {
  const auto cell =
      std::find_if(part.cells.begin(), part.cells.end(), [&](const model::Cell& c) { return c.id == id; });
  return cell == part.cells.end() ? nullptr : &*cell;
}

/// The cell of this name, or a diagnostic with the nearest.
const model::Cell* require_cell(const Spot& spot, const model::Part& part, Diagnostics& diagnostics) {
  if (!spot.is_scalar()) return nullptr;
  const model::Cell* cell = find_cell(part, spot.text());
  if (cell != nullptr) return cell;
  std::vector<std::string> names;
  for (const model::Cell& known : part.cells) names.push_back(known.id);
  report_unknown(diagnostics, spot, "cell", names);
  return nullptr;
}

/// The spot at which a clear width was written.
Spot width_spot(const Spot& shape) {
  return shape.at("round").exists() ? shape.at("round") : shape.at("width");
}

void check_hole(const Spot& shape, const model::ClearShape& clear, const model::Cell& cell, Diagnostics& diagnostics) {
  // A cell without a size was reported where it stands.
  if (cell.outer_diameter.nominal == 0 || clear.width.nominal <= cell.outer_diameter.nominal) return;
  report(diagnostics, width_spot(shape), "not_smaller",
         fmt::format("The hole is {} wide, and the tube it is on only {}.", shown(clear.width),
                     shown(cell.outer_diameter)),
         fmt::format("at most {}", shown(cell.outer_diameter)));
}

void read_enlargement(const Spot& spot, const ValueContext& context, model::Opening& opening,
                      Diagnostics& diagnostics) {
  if (!spot.is_map()) return;
  const auto most = read_number(spot.at("most"), Dimension::length, Sign::positive, context, diagnostics);
  if (most) opening.enlarge_most = most->nominal;
  opening.enlarge_paper = spot.at("paper").text();
  if (opening.enlarge_paper.empty())
    report(diagnostics, spot.at("paper"), "missing_field",
           "An opening may be enlarged only as far as a paper of the frame's maker permits.",
           "the paper and the place in it; without one, leave `enlarge` out");
}

model::Opening read_opening(const Spot& spot, const ValueContext& context, const model::Part& part,
                            Diagnostics& diagnostics) {
  model::Opening opening;
  opening.id = spot.at("id").text();
  opening.label = spot.at("label").text();
  opening.cell = spot.at("cell").text();
  opening.from = spot.at("from").text();
  opening.side = spot.at("side").text();
  opening.insert = spot.at("insert").text();
  opening.thread = spot.at("thread").text();
  for (const Spot& bore : spot.at("holds").items())
    opening.holds.push_back(
        read_number(bore, Dimension::length, Sign::positive, context, diagnostics).value_or(quantity::Value{}));
  opening.shared = spot.at("shared").flag(false);
  opening.distance = read_number(spot.at("distance"), Dimension::length, Sign::not_negative, context, diagnostics)
                         .value_or(quantity::Value{});
  const auto shape = read_shape(spot.at("shape"), context, diagnostics);
  if (shape) opening.shape = *shape;
  const model::Cell* cell = require_cell(spot.at("cell"), part, diagnostics);
  if (cell != nullptr && shape) check_hole(spot.at("shape"), *shape, *cell, diagnostics);
  read_enlargement(spot.at("enlarge"), context, opening, diagnostics);
  return opening;
}

/// A passage may lead into a part that another place holds, `place.cell`; whether one is there shows in a bicycle only.
bool leads_to_another_part(const model::Passage& passage) {
  return dotted(passage.b, 2).size() == 2;
}

void check_passage(const Spot& spot, const model::Passage& passage, const model::Part& part, Diagnostics& diagnostics) {
  const model::Cell* a = require_cell(spot.at("a"), part, diagnostics);
  const model::Cell* b = leads_to_another_part(passage) ? nullptr : require_cell(spot.at("b"), part, diagnostics);
  const model::Cell* tube = require_cell(spot.at("tube"), part, diagnostics);
  if (a != nullptr && a == b)
    report(diagnostics, spot.at("b"), "bad_value", "The passage leads from a cell into itself.", "another cell");
  if (tube != nullptr && passage.shape.width.nominal > 0)
    check_hole(spot.at("shape"), passage.shape, *tube, diagnostics);
}

/// A travel of a full turn or more is no travel, and distances are those of the frame as drawn, which must be in it.
void check_travel(const Spot& spot, const model::Pivot& pivot, Diagnostics& diagnostics) {
  constexpr std::int64_t k_most = 180'000'000;
  if (pivot.from.nominal < -k_most || pivot.from.nominal > 0)
    report(diagnostics, spot.at("from"), "bad_value", "The travel does not hold the frame as drawn, which is 0°.",
           "an angle from -180° to 0°");
  if (pivot.to.nominal > k_most || pivot.to.nominal < 0)
    report(diagnostics, spot.at("to"), "bad_value", "The travel does not hold the frame as drawn, which is 0°.",
           "an angle from 0° to 180°");
}

model::Pivot read_pivot(const Spot& spot, const ValueContext& context, const model::Part& part,
                        Diagnostics& diagnostics) {
  const auto number = [&](const Spot& at, Dimension dimension) {
    return read_number(at, dimension, Sign::any, context, diagnostics).value_or(quantity::Value{});
  };
  model::Pivot pivot;
  pivot.id = spot.at("id").text();
  pivot.label = spot.at("label").text();
  for (const Spot& cell : spot.at("cells").items()) {
    require_cell(cell, part, diagnostics);
    pivot.cells.push_back(cell.text());
  }
  pivot.points = spot.at("points").texts();
  pivot.x = number(spot.at("at").at("x"), Dimension::length);
  pivot.y = number(spot.at("at").at("y"), Dimension::length);
  pivot.from = number(spot.at("from"), Dimension::angle);
  pivot.to = number(spot.at("to"), Dimension::angle);
  check_travel(spot, pivot, diagnostics);
  return pivot;
}

/// Cross-section of a line's end or of a device: round, or a rectangle.
model::ClearShape read_connector(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics) {
  const auto length = [&](const char* key) {
    return read_number(spot.at(key), Dimension::length, Sign::positive, context, diagnostics);
  };
  const bool is_round = spot.at("round").exists();
  const bool is_rectangle = spot.at("width").exists() && spot.at("height").exists();
  if (spot.is_map() && is_round == is_rectangle)
    report(diagnostics, spot, is_round ? "too_many" : "missing_field",
           "A cross-section is either round or a rectangle.", "`round: 5 mm`, or `width: 3.3 mm, height: 4.2 mm`");
  const auto first = length(is_round ? "round" : "width");
  const auto second = is_round ? first : length("height");
  if (!first || !second) return {};
  return {*first, *second, is_round ? model::ClearShape::Outline::round : model::ClearShape::Outline::slot};
}

void check_lengths(const Spot& spot, Diagnostics& diagnostics) {
  const bool offered = spot.at("lengths").exists();
  if (offered != spot.at("longest").exists()) return;
  report(diagnostics, spot, offered ? "too_many" : "missing_field",
         "A line is either offered in lengths or cut to length.", "`lengths: [600 mm]`, or `longest: 2000 mm`");
}

}  // namespace

model::Passage read_passage(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics) {
  model::Passage passage;
  passage.id = spot.at("id").text();
  passage.label = spot.at("label").text();
  passage.a = spot.at("a").text();
  passage.b = spot.at("b").text();
  passage.tube = spot.at("tube").text();
  passage.from = spot.at("from").text();
  passage.shared = spot.at("shared").flag(true);
  passage.distance = read_number(spot.at("distance"), Dimension::length, Sign::not_negative, context, diagnostics)
                         .value_or(quantity::Value{});
  passage.shape = read_shape(spot.at("shape"), context, diagnostics).value_or(model::ClearShape{});
  return passage;
}

void read_hollows(const Spot& spot, const ValueContext& context, model::Part& part, Diagnostics& diagnostics) {
  IdList cells("cell", diagnostics);
  for (const Spot& item : spot.at("cells").items()) {
    cells.add(item.at("id"));
    part.cells.push_back(read_cell(item, context, diagnostics));
  }
  // A line passes openings and passages alike, so they share their names.
  IdList holes("opening or passage", diagnostics);
  for (const Spot& item : spot.at("openings").items()) {
    holes.add(item.at("id"));
    part.openings.push_back(read_opening(item, context, part, diagnostics));
  }
  for (const Spot& item : spot.at("passages").items()) {
    holes.add(item.at("id"));
    part.passages.push_back(read_passage(item, context, diagnostics));
    check_passage(item, part.passages.back(), part, diagnostics);
  }
  IdList pivots("pivot", diagnostics);
  if (spot.at("pivots").exists() && part.family != "frame")
    report(diagnostics, spot.at("pivots"), "bad_value", "Only a frame turns about a pivot.",
           "a part of family `frame`");
  for (const Spot& item : spot.at("pivots").items()) {
    pivots.add(item.at("id"));
    part.pivots.push_back(read_pivot(item, context, part, diagnostics));
  }
}

namespace {

/// What lines and captive leads have in common: all but the ends.
model::LineForm read_line_body(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics) {
  const auto length = [&](const Spot& at) {
    return read_number(at, Dimension::length, Sign::positive, context, diagnostics).value_or(quantity::Value{});
  };
  model::LineForm line;
  const std::string kind = spot.at("kind").text();
  if (kind == "hose") line.kind = model::LineForm::Kind::hose;
  if (kind == "housing") line.kind = model::LineForm::Kind::housing;
  line.diameter = length(spot.at("diameter"));
  for (const Spot& item : spot.at("lengths").items()) line.lengths.push_back(length(item));
  check_lengths(spot, diagnostics);
  line.longest = length(spot.at("longest"));
  line.bend_radius = length(spot.at("bend_radius"));
  line.bare = spot.at("bare").flag(false);
  return line;
}

/// The captive end is as thick as the line; only the free one is ever pulled.
std::optional<model::LineForm> read_lead(const Spot& spot, const std::string& family, const ValueContext& context,
                                         Diagnostics& diagnostics) {
  if (!spot.is_map()) return std::nullopt;
  model::LineForm lead = read_line_body(spot, context, diagnostics);
  lead.family_a = family;
  lead.family_b = spot.at("plug").at("family").text();
  lead.connector_a = {lead.diameter, lead.diameter, model::ClearShape::Outline::round};
  lead.connector_b = read_connector(spot.at("plug"), context, diagnostics);
  return lead;
}

}  // namespace

std::optional<model::Device> read_device(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics) {
  if (!spot.is_map()) return std::nullopt;
  model::Device device;
  IdList ports("port", diagnostics);
  for (const Spot& item : spot.at("ports").items()) {
    ports.add(item.at("id"));
    const std::string family = item.at("family").text();
    device.ports.push_back({item.at("id").text(), family, read_lead(item.at("lead"), family, context, diagnostics)});
  }
  if (spot.at("body").is_map()) device.body = read_connector(spot.at("body"), context, diagnostics);
  return device;
}

std::optional<model::LineForm> read_line(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics) {
  if (!spot.is_map()) return std::nullopt;
  model::LineForm line = read_line_body(spot, context, diagnostics);
  const auto ends = spot.at("ends").items();
  if (ends.size() == 2) {
    line.family_a = ends[0].at("family").text();
    line.family_b = ends[1].at("family").text();
    line.connector_a = read_connector(ends[0], context, diagnostics);
    line.connector_b = read_connector(ends[1], context, diagnostics);
  }
  return line;
}

}  // namespace cotter::document
