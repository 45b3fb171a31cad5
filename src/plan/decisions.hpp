#pragma once
// Standing decisions on findings: which still hold, and which never could.

#include <vector>

#include "model/finding.hpp"
#include "model/job.hpp"

namespace cotter::plan {

/// Whether a person may sign for this finding at all: it says `accept`, that is, every limit holds for certain and only
/// common practice is departed from. Nothing signs away a `stop`, a `measure` or a `rework`.
bool may_be_accepted(const model::Finding& finding);

/// Marks each finding that a decision covers. A decision holds while the finding's identity stays (through the job's
/// aliases) and its margin is not worse than when it was signed.
void apply_decisions(const model::Job& job, std::vector<model::Finding>& findings);

}  // namespace cotter::plan
