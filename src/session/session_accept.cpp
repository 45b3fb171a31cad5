// `accept`: a person's signature under a finding, written into the journal beside the job.
#include <algorithm>
#include <set>

#include "document/journal.hpp"
#include "plan/decisions.hpp"
#include "quantity/ensure.hpp"
#include "quantity/text.hpp"
#include "session/answers.hpp"
#include "session/journal_file.hpp"
#include "session/opened.hpp"
#include "words/acceptance_words.hpp"
#include "words/layout.hpp"
#include "words/phrase.hpp"

namespace cotter::session {
namespace {

const model::Finding* find(const model::Plan& plan, const std::string& id) {
  const auto found = std::find_if(plan.findings.begin(), plan.findings.end(),
                                  [&](const model::Finding& finding) { return finding.id == id; });
  return found == plan.findings.end() ? nullptr : &*found;
}

/// An acceptance is for one finding, so its beginning is not enough; says which ones begin so.
std::string not_by_whole_name(const model::Plan& plan, const std::string& wanted) {
  std::string names;
  for (const model::Finding& finding : plan.findings)
    if (!wanted.empty() && finding.id.starts_with(wanted)) names += (names.empty() ? "" : ", ") + finding.id;
  if (names.empty()) return no_such_finding(plan, wanted);
  return words::fill("accept.beginning", {{"wanted", wanted}, {"names", names}}) + "\n";
}

std::string unused_id(const document::JournalText& journal) {
  std::set<std::string> used;
  for (const document::JournalText::Line& line : journal.lines)
    if (const document::Node* id = line.node.find("id"); id != nullptr) used.insert(id->scalar());
  std::size_t number = journal.lines.size() + 1;
  while (used.contains("accept-" + std::to_string(number))) ++number;
  return "accept-" + std::to_string(number);
}

model::JournalEntry entry_for(const model::Finding& finding, model::Acceptance acceptance, const Signature& signature,
                              const document::JournalText& journal) {
  model::JournalEntry entry;
  entry.id = unused_id(journal);
  entry.revision = static_cast<std::int64_t>(journal.lines.size());
  entry.kind = model::JournalEntry::Kind::accept;
  entry.by = signature.by;
  entry.when = signature.when;
  entry.target = finding.id;
  entry.note = signature.reason;
  if (acceptance == model::Acceptance::may_pass) entry.passes = plan::passes_of(finding);
  if (!finding.result || finding.values.empty()) return entry;
  const quantity::Dimension dimension = finding.values.front().value.dimension;
  if (auto margin = quantity::parse_value(quantity::print_amount(finding.margin, dimension), dimension))
    entry.value = *std::move(margin);
  return entry;
}

}  // namespace

Answer Session::accept(const std::string& job, const std::string& finding, const Signature& signature,
                       const Report& report) const {
  if (plan::is_blank(signature.by)) return refused(std::string(words::phrase("accept.no_name")) + "\n");
  if (plan::is_blank(signature.reason)) return refused(std::string(words::phrase("accept.no_reason")) + "\n");
  const JournalLock lock(job);
  const auto catalog = open_catalog(settings_.catalogs);
  if (!catalog) return refused(catalog.error());
  const auto planned = plan_job(settings_.version, *catalog, job);
  if (!planned) return refused(planned.error());
  const model::Finding* found = find(planned->plan, finding);
  if (found == nullptr) return refused(not_by_whole_name(planned->plan, finding));
  const model::Acceptance acceptance = plan::acceptance(*found);
  if (acceptance != model::Acceptance::may_sign && acceptance != model::Acceptance::may_pass)
    return refused(words::refused_acceptance(*found, acceptance) + "\n");
  const auto journal = read_journal(job);
  if (!journal) return refused(journal.error());
  const model::JournalEntry entry = entry_for(*found, acceptance, signature, *journal);
  const std::string file = document::journal_path(job);
  if (!append_to_journal(job, *journal, entry)) {
    Answer unwritten = refused(words::fill("accept.unwritten", {{"file", file}}) + "\n");
    unwritten.outcome = Outcome::unwritten;
    return unwritten;
  }

  const auto after = plan_job(settings_.version, *catalog, job);
  if (!after) return refused(after.error());
  const model::Finding* now = find(after->plan, finding);
  quantity::ensure(now != nullptr && !now->accepted_by.empty(), "an acceptance that does not stand once it is written");
  Answer answer;
  answer.outcome = outcome_of(after->plan);
  answer.trouble = trouble_text(after->notes);
  answer.text = words::why_text(*now, layout_of(report)) + "\n" +
                words::hanging("", words::fill("accept.done", {{"file", file}, {"entry", entry.id}}), report.width);
  return answer;
}

}  // namespace cotter::session
