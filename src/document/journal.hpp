#pragma once
// The journal beside a job: one JSON object a line, appended and never edited.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "document/diagnostic.hpp"
#include "document/node.hpp"
#include "model/catalog.hpp"
#include "model/job.hpp"

namespace cotter::document {

/// A journal grows with the work, so it may be larger than a document.
constexpr std::size_t k_most_journal_bytes = 16u << 20;

/// `all_road.journal.jsonl` beside `all_road.yaml`.
std::string journal_path(const std::string& job_path);

/// The lines of a journal before anyone knows what they are about.
struct JournalText {
  struct Line {
    int number = 0;
    Node node;
  };
  std::vector<Line> lines;
  /// A last line that a power cut left incomplete; no entry. Whoever appends next cuts the file to `whole_bytes` first.
  std::string torn;
  int torn_line = 0;
  std::size_t whole_bytes = 0;
  bool ended = true;  ///< false: the last entry lacks its line end, which whoever appends next puts in front
};

/// Splits and parses a journal.
///
/// A last line without a line end that does not parse is `torn`; any other such line is a fault.
/// **Fails with** the parser's diagnostics, each with its line.
Read<JournalText> split_journal(std::string_view text, const std::string& file);

/// The entries, with targets in the job's names of today.
///
/// A value whose target is gone, or no longer may have this value, has been true once and stays in the journal: its
/// entry comes back without the value, and `notes` says so.
/// **Fails with** diagnostics for lines of another shape.
Read<std::vector<model::JournalEntry>> read_entries(const JournalText& journal, const model::Job& job,
                                                    const model::Catalog& catalog, Diagnostics& notes);

/// An entry as one line with its line end; `read_entries` reads it back to the same entry.
std::string write_entry(const model::JournalEntry& entry);

}  // namespace cotter::document
