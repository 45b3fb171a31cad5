#pragma once
// Jobs from documents and files.

#include <string>

#include "document/diagnostic.hpp"
#include "document/node.hpp"
#include "model/catalog.hpp"
#include "model/job.hpp"

namespace cotter::document {

/// The sheet and the decisions of a job; the journal is empty.
///
/// A job that is read rests on a template and on parts that exist, so that a plan needs no check of its own. A line
/// whose ends were written the other way round has `from` and `to` exchanged: end a of the line belongs to `from`.
/// **Fails with** everything that is wrong, in the order of the text.
Read<model::Job> read_job(const Node& document, const std::string& file, const model::Catalog& catalog);

struct LoadedJob {
  model::Job job;
  Node node;         ///< the document, for a save that changes nothing else
  std::string hash;  ///< of the document and its journal
  Diagnostics
      notes;  ///< what was set aside without harm: a torn last line of the journal, a value whose target is gone
};

/// A job file and the journal beside it. **Fails with** what `parse_file`, `read_job` and the journal say.
Read<LoadedJob> load_job(const std::string& path, const model::Catalog& catalog);

}  // namespace cotter::document
