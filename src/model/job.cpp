#include "model/job.hpp"

#include <set>

#include "quantity/ensure.hpp"

namespace cotter::model {
namespace {

/// The first entry of each id, in order.
std::vector<const JournalEntry*> applied_once(const std::vector<JournalEntry>& journal) {
  std::vector<const JournalEntry*> entries;
  std::set<std::string> seen;
  for (const JournalEntry& entry : journal)
    if (seen.insert(entry.id).second) entries.push_back(&entry);
  return entries;
}

/// Ids that an undo takes back; only entries before it. Read from the end, so that an undo which was itself undone
/// takes nothing back.
std::set<std::string> undone(const std::vector<const JournalEntry*>& entries) {
  std::map<std::string, std::size_t> index;
  for (std::size_t i = 0; i < entries.size(); ++i) index[entries[i]->id] = i;
  std::set<std::string> gone;
  for (std::size_t i = entries.size(); i-- > 0;) {
    const JournalEntry& entry = *entries[i];
    if (entry.kind != JournalEntry::Kind::undo || gone.contains(entry.id)) continue;
    const auto target = index.find(entry.target);
    if (target != index.end() && target->second < i) gone.insert(entry.target);
  }
  return gone;
}

}  // namespace

std::string_view word_for(Passes passes) {
  switch (passes) {
    case Passes::nothing:
      return "nothing";
    case Passes::below:
      return "below";
    case Passes::above:
      return "above";
  }
  quantity::ensure(false, "a pass outside its three words");
  return {};
}

Passes passes_from(std::string_view word) {
  if (word == "below") return Passes::below;
  return word == "above" ? Passes::above : Passes::nothing;
}

WorkState fold(const std::vector<JournalEntry>& journal) {
  const auto entries = applied_once(journal);
  const auto gone = undone(entries);
  WorkState state;
  state.revision = static_cast<std::int64_t>(entries.size());
  for (const JournalEntry* entry : entries) {
    if (gone.contains(entry->id)) continue;
    if (entry->kind == JournalEntry::Kind::value && entry->value) state.values[entry->target] = *entry->value;
    if (entry->kind == JournalEntry::Kind::sign_off) state.signed_off[entry->target] = entry->by;
    if (entry->kind == JournalEntry::Kind::accept)
      state.decisions.push_back({entry->target, entry->by, entry->when, entry->note,
                                 entry->value ? entry->value->nominal : 0, entry->passes});
  }
  return state;
}

}  // namespace cotter::model
