#include "session/journal_file.hpp"

#include <cerrno>
#include <fcntl.h>
#include <filesystem>
#include <sys/file.h>
#include <unistd.h>

#include "document/parse.hpp"

namespace cotter::session {
namespace {

/// Writes all bytes; on failure cuts the file back to what it was.
bool write_whole(int file, const std::string& text, off_t before) {
  std::size_t written = 0;
  while (written < text.size()) {
    const ssize_t bytes = ::write(file, text.data() + written, text.size() - written);
    if (bytes < 0 && errno == EINTR) continue;
    if (bytes <= 0) break;
    written += static_cast<std::size_t>(bytes);
  }
  if (written == text.size() && ::fsync(file) == 0) return true;
  // Should this fail too, the next reader sets the torn line aside.
  if (::ftruncate(file, before) != 0) return false;
  return false;
}

}  // namespace

JournalLock::JournalLock(const std::string& job) : file_(::open(job.c_str(), O_RDONLY | O_CLOEXEC)) {
  if (file_ < 0) return;
  while (::flock(file_, LOCK_EX) != 0 && errno == EINTR) {
  }
}

JournalLock::~JournalLock() {
  if (file_ >= 0) ::close(file_);
}

document::Read<document::JournalText> read_journal(const std::string& job) {
  const std::string path = document::journal_path(job);
  std::error_code ignored;
  if (!std::filesystem::exists(path, ignored)) return document::JournalText{};
  document::Limits limits;
  limits.bytes = document::k_most_journal_bytes;
  const auto text = document::read_text(path, limits);
  if (!text) return tl::unexpected(text.error());
  return document::split_journal(*text, path);
}

bool append_to_journal(const std::string& job, const document::JournalText& journal, const model::JournalEntry& entry) {
  const std::string path = document::journal_path(job);
  const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
  if (file < 0) return false;
  const auto whole = static_cast<off_t>(journal.whole_bytes);
  const bool cut = journal.torn.empty() || ::ftruncate(file, whole) == 0;
  const std::string text = (journal.ended ? "" : "\n") + document::write_entry(entry);
  const bool done = cut && write_whole(file, text, whole);
  return ::close(file) == 0 && done;
}

}  // namespace cotter::session
