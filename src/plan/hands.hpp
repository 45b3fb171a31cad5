#pragma once
// Which hand works which brake: stated in the job, else by the custom of the shop's country until somebody has asked.

#include <string>
#include <vector>

#include "model/catalog.hpp"
#include "model/finding.hpp"
#include "model/job.hpp"

namespace cotter::plan {

/// True when the left hand works the front brake: as the job says, else by custom, else true.
bool left_is_front(const model::Job& job, const model::Catalog& catalog);

/// The fact that conditions can name: `hand:left=front` or `hand:left=rear`.
std::string hand_fact(const model::Job& job, const model::Catalog& catalog);

/// One finding: `ok` when a person has asked the rider, `measure` until then.
std::vector<model::Finding> hand_findings(const model::Job& job, const model::Catalog& catalog);

}  // namespace cotter::plan
