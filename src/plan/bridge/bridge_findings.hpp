#pragma once
// Joints that do not hold to the bridge engine and back: which adapters of the catalog would join the two, proposed and
// never chosen. Every proposal is judged by the stacks before it counts (see added_lengths.hpp).

#include <vector>

#include "model/finding.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

/// Chains shown to the stacks for one joint; the cheapest of them is named when all were refused.
inline constexpr std::int64_t k_most_bridge_proposals = 8;
inline constexpr int k_most_bridge_pieces = 4;

/// Goes through the joints with a `stop` on kinds or sizes, or with an `add` that names a part only by its kind. Where
/// a chain holds for certain and the stacks accept it, the finding becomes `add`; where it rests on something guarded
/// that nobody has measured, touches a composite part that it guards, or is open, `measure`; else it stays `stop` and
/// says what was refused. Joints of kinds that are never bridged are left alone.
void propose_bridges(const Assembly& assembly, std::vector<model::Finding>& findings);

}  // namespace cotter::plan
