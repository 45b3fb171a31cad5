#pragma once
// The plan of a job: every engine run once, in one fixed order.

#include <string>

#include "model/catalog.hpp"
#include "model/job.hpp"
#include "model/plan.hpp"

namespace cotter::plan {

/// What the plan says of its own making.
struct Stamp {
  std::string program_version;
  std::string job_hash;
};

/// Pure: the same job, catalog and stamp give the same plan, whatever the locale, time zone, threads or build type.
/// Order: stack and fit, bridge, route, sequence; each adapter reads the job and the results before it.
/// Requires a job that `document::read_job` has accepted against this catalog.
model::Plan make_plan(const model::Job& job, const model::Catalog& catalog, const Stamp& stamp);

}  // namespace cotter::plan
