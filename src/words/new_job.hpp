#pragma once
// A new job as the text of a file: every place of a template open, with what it needs written beside it.

#include <set>
#include <string>

#include "model/catalog.hpp"
#include "model/needs.hpp"

namespace cotter::words {

struct NewJob {
  std::string title;          ///< empty: the template's label
  std::set<std::string> own;  ///< places whose part is written in the job, each dimension `?`
};

/// YAML that `cotter check` passes. A place that no part of the catalog could fill gets a part of its own.
std::string new_job_text(const model::Bicycle& bicycle, const model::TemplateNeeds& needs,
                         const model::Catalog& catalog, const NewJob& wished);

/// Entries of a catalog by kind and family, and those that nothing uses.
std::string catalog_text(const model::Catalog& catalog, const model::CatalogUse& use, int width);

}  // namespace cotter::words
