#pragma once
// The one place that writes to a journal. Lines are only ever added, whole, one writer at a time.

#include <memory>
#include <string>

#include "document/diagnostic.hpp"
#include "document/journal.hpp"

namespace cotter::session {

/// Keeps other writers of this job's journal waiting while it lives. Locks the job file itself, so that a refusal
/// leaves no file behind.
class JournalLock {
 public:
  explicit JournalLock(const std::string& job);
  ~JournalLock();
  JournalLock(const JournalLock&) = delete;
  JournalLock& operator=(const JournalLock&) = delete;

 private:
  int file_;
};

/// The journal beside a job as it stands; empty when there is none.
document::Read<document::JournalText> read_journal(const std::string& job);

/// Adds one entry, with one write that reaches the disk before it returns. A torn last line is cut off first, a missing
/// line end put in front. False when the file cannot be written; it is then as it was.
bool append_to_journal(const std::string& job, const document::JournalText& journal, const model::JournalEntry& entry);

}  // namespace cotter::session
