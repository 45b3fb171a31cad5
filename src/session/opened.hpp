#pragma once
// Catalog and job brought together from files, with every diagnostic in words.

#include <map>
#include <string>
#include <vector>

#include "document/read_catalog.hpp"
#include "document/read_job.hpp"
#include "model/plan.hpp"

namespace cotter::session {

/// One diagnostic a line, and how many were left out.
std::string trouble_text(const document::Diagnostics& diagnostics);

/// The catalog of some folders, its rules held against the laws of the fit engine.
document::Read<model::Catalog> open_catalog(const std::vector<std::string>& folders);

struct Planned {
  model::Plan plan;
  document::Diagnostics notes;
  std::map<std::string, std::string> aliases;  ///< the job's old names of places
};

/// Reads the job and plans it against an open catalog.
document::Read<Planned> plan_job(const std::string& version, const model::Catalog& catalog, const std::string& job);

/// Reads the catalog and the job, and plans it.
document::Read<Planned> open_and_plan(const std::string& version, const std::vector<std::string>& catalogs,
                                      const std::string& job);

}  // namespace cotter::session
