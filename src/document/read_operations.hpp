#pragma once
// Operations of the work from checked `operations` documents.

#include "document/read_kinds.hpp"
#include "document/read_spot.hpp"
#include "model/bicycle.hpp"
#include "model/operation.hpp"

namespace cotter::document {

/// Where the ids of all documents were first given.
struct OperationNames {
  Names accesses;
  Names operations;
};
/// Accesses and operations of one document, added to `work`. **Fails with** `duplicate_id`.
void read_operations(const Spot& document, model::OperationCatalog& work, OperationNames& names,
                     Diagnostics& diagnostics);

/// What the facts of `when` may be about.
struct FactNames {
  std::vector<std::string> places;
  std::vector<std::string> kinds;
  std::vector<std::string> cut_forms;
  std::vector<std::string> operations;
};
FactNames fact_names(const std::map<std::string, model::Bicycle>& bicycles, const Kinds& kinds,
                     const OperationNames& work);

/// One fact. **Fails with** `unknown_word`, `unknown_name`.
void check_fact(const Spot& spot, const FactNames& names, Diagnostics& diagnostics);

/// Facts and kinds that the entries of a template or section name. **Fails with** `unknown_word`, `unknown_name`.
void check_template_facts(const Spot& document, const FactNames& names, Diagnostics& diagnostics);

/// References between operations and to accesses, and the facts they wait for; call when all documents are read.
/// **Fails with** `unknown_name`, `unknown_word` for a fact that does not exist.
void check_operations(const Spot& document, const OperationNames& names, const FactNames& facts,
                      Diagnostics& diagnostics);

}  // namespace cotter::document
