#pragma once
// What a tool can really say: nobody reads finer than its resolution, and some tools read a feature low that asks for
// another one. Which do is data of the catalog (`cotter: tools`).

#include <vector>

#include "model/finding.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// Widens measured values that are stated finer than the shop's tool resolves, and moves those read with a substitute
/// to where the true size can lie: reading and deviations plus `reads_low`. Values measured with a tool that the shop
/// does not name stay as they are.
void doubt_readings(const model::Catalog& catalog, const model::Shop& shop, model::Part& part);

/// Says in every `measure` finding that rests on a substitute's reading that this tool cannot decide it, and which can.
void name_substitutes(const Assembly& assembly, std::vector<model::Finding>& findings);

}  // namespace cotter::plan
