#include "model/plan.hpp"

#include <algorithm>

namespace cotter::model {

std::size_t count(const Plan& plan, Verdict verdict) {
  return static_cast<std::size_t>(std::count_if(plan.findings.begin(), plan.findings.end(),
                                                [&](const Finding& finding) { return finding.verdict == verdict; }));
}

}  // namespace cotter::model
