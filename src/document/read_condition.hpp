#pragma once
// Inspections of used parts, what a used part without one is, tools that read a feature low, customs of countries.

#include <optional>
#include <vector>

#include "document/read_kinds.hpp"
#include "document/read_spot.hpp"
#include "document/read_value.hpp"
#include "model/catalog.hpp"
#include "model/condition.hpp"

namespace cotter::document {

/// The record of one part. Wear without an origin counts as measured by the one who inspected.
/// **Fails with** `missing_field` for a wear without a limit, `bad_value` for a limit of another kind of quantity.
std::optional<model::Condition> read_condition(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics);

/// Rules of one `conditions` document, in their order. **Fails with** `duplicate_id`.
void read_condition_rules(const Spot& document, Names& names, std::vector<model::ConditionRule>& rules,
                          Diagnostics& diagnostics);

/// Which hand brakes which wheel, of one `customs` document. **Fails with** `duplicate_id` for a country named twice.
void read_customs(const Spot& document, std::vector<model::BrakeCustom>& customs, Names& names,
                  Diagnostics& diagnostics);

/// Substitutes of one `tools` document. **Fails with** `duplicate_id` for a pair of tools given twice.
void read_substitutes(const Spot& document, std::vector<model::ToolSubstitute>& substitutes, Names& names,
                      Diagnostics& diagnostics);

}  // namespace cotter::document
