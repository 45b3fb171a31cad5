#include "plan/thickest_line.hpp"

#include <optional>

namespace cotter::plan {
namespace {

using quantity::OriginKind;
using quantity::Value;

/// Deviations that nobody stated are those of the kind.
Value with_deviations(Value value, const model::KindDimension& dimension) {
  if (value.deviations != quantity::Deviations::unstated) return value;
  value.lower = dimension.unstated.low().base();
  value.upper = dimension.unstated.high().base();
  value.deviations = quantity::Deviations::filled;
  return value;
}

std::optional<Value> thickest(const model::Job& job, const FindPart& find_part, const model::KindDimension& dimension) {
  std::optional<Value> most;
  for (const model::LineWish& wish : job.sheet.lines) {
    const model::Part* part = find_part(wish.part);
    if (part == nullptr || !part->line || !part->line->diameter.range_known) return std::nullopt;
    Value value = with_deviations(part->line->diameter, dimension);
    if (part->used && value.origin.kind != OriginKind::measured)
      value.origin = {OriginKind::assumed, "", "", "", part->label + ", used"};
    if (!most || most->range().high() < value.range().high()) most = std::move(value);
  }
  return most;
}

}  // namespace

void fill_thickest_line(const model::Job& job, const model::Catalog& catalog, const FindPart& find_part,
                        model::Part& part) {
  for (auto& [id, feature] : part.interfaces) {
    const auto kind = catalog.kinds.find(feature.kind);
    if (kind == catalog.kinds.end()) continue;
    for (const model::KindDimension& dimension : kind->second.dimensions) {
      if (!dimension.thickest_line) continue;
      const auto stated = feature.values.find(dimension.id);
      if (stated != feature.values.end() && stated->second.origin.kind == OriginKind::measured) continue;
      if (auto value = thickest(job, find_part, dimension))
        feature.values[dimension.id] = std::move(*value);
      else if (!job.sheet.lines.empty())
        feature.values.erase(dimension.id);
    }
  }
}

}  // namespace cotter::plan
