#include "plan/tool_readings.hpp"

#include <algorithm>

#include "quantity/text.hpp"

namespace cotter::plan {
namespace {

using quantity::Deviations;
using quantity::Value;

const model::Tool* tool_of(const model::Shop& shop, const Value& value) {
  if (value.origin.kind != quantity::OriginKind::measured || value.origin.tool.empty()) return nullptr;
  auto tool = std::ranges::find(shop.tools, value.origin.tool, &model::Tool::id);
  if (tool == shop.tools.end()) tool = std::ranges::find(shop.tools, value.origin.tool, &model::Tool::kind);
  return tool == shop.tools.end() ? nullptr : &*tool;
}

void widen(const model::Tool& tool, Value& value) {
  if (value.deviations != Deviations::stated) return;
  const auto step = quantity::parse_value(tool.resolution, value.dimension);
  if (!step || !step->range_known || (value.lower <= -step->nominal && value.upper >= step->nominal)) return;
  value.lower = std::min(value.lower, -step->nominal);
  value.upper = std::max(value.upper, step->nominal);
  value.deviations = Deviations::widened;
}

const model::ToolSubstitute* substitute_of(const model::Catalog& catalog, const model::Tool& tool,
                                           const model::KindDimension& dimension) {
  const auto found = std::ranges::find_if(catalog.substitutes, [&](const model::ToolSubstitute& one) {
    return one.tool == tool.kind && one.instead_of == dimension.measure.tool;
  });
  return found == catalog.substitutes.end() || dimension.dimension != quantity::Dimension::length ? nullptr : &*found;
}

/// The nominal moves to the middle of where the true size can lie.
void move(const model::ToolSubstitute& substitute, Value& value) {
  const std::int64_t low = value.range().low().base() + substitute.reads_low.low().base();
  const std::int64_t high = value.range().high().base() + substitute.reads_low.high().base();
  value.nominal = low + (high - low) / 2;
  value.lower = low - value.nominal;
  value.upper = high - value.nominal;
  value.deviations = Deviations::shifted;
}

const model::KindDimension* dimension_of(const model::Catalog& catalog, const model::Interface& feature,
                                         const std::string& dimension) {
  const auto kind = catalog.kinds.find(feature.kind);
  return kind == catalog.kinds.end() ? nullptr : model::find_dimension(kind->second, dimension);
}

}  // namespace

void doubt_readings(const model::Catalog& catalog, const model::Shop& shop, model::Part& part) {
  for (auto& [id, feature] : part.interfaces)
    for (auto& [name, value] : feature.values) {
      const model::Tool* tool = tool_of(shop, value);
      const model::KindDimension* dimension = dimension_of(catalog, feature, name);
      if (tool == nullptr || dimension == nullptr) continue;
      widen(*tool, value);
      if (const auto* substitute = substitute_of(catalog, *tool, *dimension)) move(*substitute, value);
    }
}

void name_substitutes(const Assembly& assembly, std::vector<model::Finding>& findings) {
  const model::Shop& shop = assembly.job().sheet.shop;
  for (model::Finding& finding : findings) {
    if (finding.verdict != model::Verdict::measure) continue;
    for (const model::NamedValue& named : finding.values) {
      if (!named.ref || named.value.deviations != Deviations::shifted) continue;
      const model::Tool* tool = tool_of(shop, named.value);
      const auto found =
          assembly.unstated({assembly.template_name(named.ref->place), named.ref->interface, named.ref->dimension});
      if (tool == nullptr || !found || found->dimension == nullptr) continue;
      if (const auto* substitute = substitute_of(assembly.catalog(), *tool, *found->dimension))
        finding.facts.insert(finding.facts.end(), {{"measure.wrong_tool", ""},
                                                   {"value", named.place_label + ", " + named.label},
                                                   {"tool", substitute->label},
                                                   {"needed", substitute->needed_label}});
    }
  }
}

}  // namespace cotter::plan
