#pragma once
// What a change to a job did, from its two plans; knows no engine.

#include <map>
#include <string>

#include "model/difference.hpp"

namespace cotter::plan {

/// Old name of a place -> its name now, for each of the two jobs.
struct Renames {
  std::map<std::string, std::string> before, after;
};

/// Everything that differs, findings worst first.
///
/// **Method** Findings are the same when their ids are, after the later job's old names have been replaced by the new
/// ones (and the earlier job's, so that the way back compares alike); parts go by place, runs by line, cuts by length,
/// steps by operation. A finding of the same verdict differs when its margin or the decision on it does.
model::PlanDifference compare(const model::Plan& before, const model::Plan& after, const Renames& renames);

}  // namespace cotter::plan
