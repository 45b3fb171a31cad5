#pragma once
// What templates ask for and which parts of the catalog answer; knows no engine and no job.

#include <set>
#include <string>

#include "model/catalog.hpp"
#include "model/needs.hpp"

namespace cotter::plan {

/// Places and lines of a template with what could fill them.
///
/// **Method** A place asks for the interfaces that joints, features and stacks of the template name there. The parts
/// that offer the most of these interfaces answer it, whatever their family; then those of the place's own family.
model::TemplateNeeds needs_of(const model::Bicycle& bicycle, const model::Catalog& catalog);

/// Entries by kind and family; `used` are the parts that some jobs name.
model::CatalogUse use_of(const model::Catalog& catalog, const std::set<std::string>& used);

}  // namespace cotter::plan
