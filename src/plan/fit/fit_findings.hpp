#pragma once
// Every joint of the bicycle to the fit engine and back: one finding for each rule of the meeting of its two kinds.

#include <string>
#include <vector>

#include "model/finding.hpp"
#include "plan/assembly.hpp"

namespace cotter::plan {

std::vector<model::Finding> fit_findings(const Assembly& assembly);

/// A rule of the catalog that the engine could never judge: no such law, a role missing or too many.
struct RuleFault {
  std::string kind;
  std::string rule;
  std::string message;  ///< one sentence
};
std::vector<RuleFault> rule_faults(const model::Catalog& catalog);

}  // namespace cotter::plan
