#include "problem/fit_press.hpp"

#include <cmath>
#include <fmt/format.h>

#include "problem/fit_operand.hpp"
#include "problem/fit_read.hpp"
#include "problem/fit_write.hpp"
#include "problem/names.hpp"
#include "quantity/text.hpp"

namespace cotter::problem {
namespace {

using document::Diagnostics;
using document::Node;
using document::SchemaRef;
using engine::fit::Elastic;
using engine::fit::Operand;
using engine::fit::PressFault;
using engine::fit::PressFit;
using engine::fit::PressNumber;
using quantity::Dimension;
using quantity::Mixed;
using quantity::Range;
using Need = document::Field::Need;

constexpr double k_most_number = 10;

/// A plain number, or two as the ends of a range.
SchemaRef number_schema() {
  const SchemaRef number = document::real_schema(0, k_most_number);
  return document::either_schema(
      {number, document::object_schema("number range", {{"from", number, Need::required, "Least."},
                                                        {"to", number, Need::required, "Greatest."}})});
}

SchemaRef material_schema() {
  return document::either_schema(
      {document::word_schema(engine::fit::elastic_materials()),
       document::object_schema("material", {{"modulus", fit_operand_schema(), Need::required, "Young's modulus."},
                                            {"poisson", number_schema(), Need::required, "Poisson's ratio."}})});
}

SchemaRef limit_schema() {
  const SchemaRef end = document::text_schema(200);
  return document::object_schema(
      "limit", {{"from", end, Need::optional, "Least amount."}, {"to", end, Need::optional, "Greatest amount."}});
}

std::string_view code_of(PressFault::Kind kind) {
  switch (kind) {
    case PressFault::Kind::wrong_dimension:
      return "wrong_dimension";
    case PressFault::Kind::out_of_bounds:
      return "out_of_bounds";
    case PressFault::Kind::wall:
      return "no_wall";
    case PressFault::Kind::solid_or_not:
      return "solid_or_not";
    case PressFault::Kind::too_much:
      return "too_much_interference";
    case PressFault::Kind::window_swapped:
      return "wrong_window";
  }
  return "";
}

std::string_view message_of(PressFault::Kind kind) {
  switch (kind) {
    case PressFault::Kind::wrong_dimension:
      return "The operand has another dimension.";
    case PressFault::Kind::out_of_bounds:
      return "The operand is out of bounds.";
    case PressFault::Kind::wall:
      return "No wall is left beside the joint.";
    case PressFault::Kind::solid_or_not:
      return "The range holds a solid shaft and a hollow one; they are two cases.";
    case PressFault::Kind::too_much:
      return "The shaft is too large for elastic parts.";
    case PressFault::Kind::window_swapped:
      return "The window ends before it begins.";
  }
  return "";
}

class PressReader {
 public:
  PressReader(const Node& node, const std::string& field, Diagnostics& diagnostics)
      : node_(node), field_(field), diagnostics_(diagnostics), trouble_(diagnostics.file()) {}

  std::optional<PressFit> read() {
    fit_.id = document::text_of(*node_.find("id"));
    fit_.bore = length("bore");
    fit_.shaft = length("shaft");
    fit_.outer = length("outer");
    fit_.inner = node_.find("inner") ? length("inner") : Operand{"inner", Range(Mixed::from_base(0))};
    fit_.length = length("length");
    fit_.hub_material = material("hub_material");
    fit_.shaft_material = material("shaft_material");
    fit_.friction = millionths(*node_.find("friction"), "friction");
    fit_.pressure = window("must_pressure");
    fit_.hub_hoop = window("must_hub_hoop");
    if (trouble_.empty()) read_faults();
    diagnostics_.append(trouble_);
    if (!trouble_.empty()) return std::nullopt;
    return fit_;
  }

 private:
  Operand length(const std::string& role) {
    return read_operand(*node_.find(role), role, Dimension::length, field_ + "." + role, trouble_).value_or(Operand{});
  }

  void swapped(const Node& node, const std::string& role) {
    trouble_.add({"bad_range", "", node.mark(), field_ + "." + role, "The range has its ends swapped.", "",
                  "`from` no greater than `to`", ""});
  }

  Range millionths(const Node& node, const std::string& role) {
    const auto of = [](const Node& number) {
      return Mixed::from_base(static_cast<std::int64_t>(std::llround(document::real_of(number) * 1e6)));
    };
    if (!node.is_map()) return Range(of(node));
    const Mixed low = of(*node.find("from")), high = of(*node.find("to"));
    if (high < low) swapped(node, role);
    return {std::min(low, high), std::max(low, high)};
  }

  Elastic material(const std::string& role) {
    const Node& node = *node_.find(role);
    if (!node.is_map()) return *engine::fit::elastic_constants(document::text_of(node));
    const auto modulus =
        read_operand(*node.find("modulus"), "modulus", Dimension::pressure, field_ + "." + role + ".modulus", trouble_);
    Elastic material;
    if (modulus) material.modulus = modulus->range;
    material.attested = modulus && modulus->attested;
    material.poisson = millionths(*node.find("poisson"), role + ".poisson");
    return material;
  }

  engine::fit::Window window(const std::string& name) {
    engine::fit::Window window;
    const Node* node = node_.find(name);
    if (!node) return window;
    for (const auto& [end, into] : {std::pair("from", &window.low), std::pair("to", &window.high)}) {
      const Node* written = node->find(end);
      if (!written) continue;
      const auto operand = read_operand(*written, end, Dimension::pressure, field_ + "." + name + "." + end, trouble_);
      if (!operand) continue;
      if (operand->range.low() == operand->range.high())
        *into = operand->range.low();
      else
        trouble_.add({"wrong_window", "", written->mark(), field_ + "." + name + "." + end,
                      "An end of a window is one exact amount.", document::text_of(*written),
                      "an amount without deviations", ""});
    }
    return window;
  }

  void read_faults() {
    for (const PressFault& fault : engine::fit::faults(fit_)) {
      const bool windows = fault.kind == PressFault::Kind::window_swapped;
      const std::string name = (windows ? "must_" : "") + fault.name;
      const Node* place = node_.find(name);
      trouble_.add({std::string(code_of(fault.kind)), "", place ? place->mark() : node_.mark(), field_ + "." + name,
                    std::string(message_of(fault.kind)), "", fault.accepted, ""});
    }
  }

  const Node& node_;
  const std::string& field_;
  Diagnostics& diagnostics_;
  Diagnostics trouble_;
  PressFit fit_;
};

}  // namespace

SchemaRef fit_press_schema() {
  const SchemaRef operand = fit_operand_schema();
  return document::object_schema(
      "press fit",
      {{"id", document::identifier_schema(), Need::required, "Name of the press fit, once in the problem."},
       {"bore", operand, Need::required, "Bore of the outer part, before pressing."},
       {"shaft", operand, Need::required, "Outside diameter of the inner part, before pressing."},
       {"outer", operand, Need::required, "Outside diameter of the outer part."},
       {"inner", operand, Need::optional, "Inside diameter of the inner part; solid when left out."},
       {"length", operand, Need::required, "Length over which the two touch."},
       {"hub_material", material_schema(), Need::required, "Of the outer part: a name, or its elastic constants."},
       {"shaft_material", material_schema(), Need::required, "Of the inner part."},
       {"friction", number_schema(), Need::required, "Coefficient of friction."},
       {"must_pressure", limit_schema(), Need::optional, "Where the pressure must lie."},
       {"must_hub_hoop", limit_schema(), Need::optional, "Where the tension at the bore must lie."},
       {"source", document::text_schema(), Need::optional, "Where the limits come from; handed through."}});
}

std::optional<PressFit> read_fit_press(const Node& node, const std::string& field, Diagnostics& diagnostics) {
  return PressReader(node, field, diagnostics).read();
}

Node fit_press_node(const PressFit& fit, const engine::fit::PressResult& result, const std::string& source) {
  Node node = Node::map();
  node.set("id", Node::text(result.id)).set("certainty", certainty_node(result.must));
  for (const engine::fit::PressStep& step : result.steps) {
    Node number = range_node(step.range, dimension_of(step.number));
    number.set("formula", Node::text(std::string(formula_of(step.number))));
    node.set(std::string(engine::fit::word_for(step.number)), std::move(number));
  }
  Node bounds = Node::list();
  for (const engine::fit::PressBound& bound : result.bounds) {
    const Dimension dimension = dimension_of(bound.number);
    bounds.push(Node::map()
                    .set("of", Node::text(std::string(engine::fit::word_for(bound.number))))
                    .set("certainty", certainty_node(bound.must))
                    .set("margin", Node::text(quantity::print_amount(bound.margin, dimension)))
                    .set(counted("margin", dimension), Node::integer(bound.margin))
                    .set("governs", Node::text(word_for(bound.governs))));
  }
  node.set("bounds", std::move(bounds));
  node.set("rests_on", text_list(result.rests_on));
  Node materials = Node::map();
  if (!fit.hub_material.source.empty()) materials.set("hub", Node::text(fit.hub_material.source));
  if (!fit.shaft_material.source.empty()) materials.set("shaft", Node::text(fit.shaft_material.source));
  if (!materials.entries().empty()) node.set("material_sources", std::move(materials));
  if (!source.empty()) node.set("source", Node::text(source));
  return node;
}

}  // namespace cotter::problem
