#include "plan/decisions.hpp"

#include <algorithm>
#include <array>

namespace cotter::plan {
namespace {

using model::Acceptance;
using model::Finding;
using model::Verdict;

/// Laws that say whether two things are made for each other; short of them there is no "a little".
constexpr std::array<std::string_view, 4> k_pairing_laws = {"kinds", "thread", "equal_pattern", "equal_family"};

/// Why a number outside its window may or may not be passed.
Acceptance passing(const Finding& finding) {
  if (compares_kinds(finding)) return Acceptance::unlike;
  if (!finding.result || !finding.must || finding.margin >= 0 || finding.governs == model::Edge::none)
    return Acceptance::no_limit;
  if (finding.may_pass == model::MayPass::nobody) return Acceptance::nobody;
  if (finding.may_pass == model::MayPass::maker) return Acceptance::maker;
  return finding.rests_on.empty() ? Acceptance::may_pass : Acceptance::unattested;
}

bool covers(const model::Decision& decision, const Finding& finding) {
  if (is_blank(decision.by) || is_blank(decision.reason) || finding.margin < decision.margin) return false;
  const Acceptance may = acceptance(finding);
  return may == Acceptance::may_sign || (may == Acceptance::may_pass && decision.passes == passes_of(finding));
}

void apply(const model::Decision& decision, Finding& finding) {
  finding.accepted_by = decision.by;
  finding.accepted_reason = decision.reason;
  finding.accepted_when = decision.when;
  if (finding.verdict == Verdict::accept) return;
  let_pass(finding);
}

/// Bytes of the blank at the front of a text: ASCII, or one of the wide and hidden blanks of Unicode; 0 when there is
/// none.
std::size_t blank_at_front(std::string_view text) {
  constexpr std::array<std::string_view, 4> k_wide = {"\xC2\xA0", "\xE1\x9A\x80", "\xE3\x80\x80", "\xEF\xBB\xBF"};
  if (text.front() == ' ' || (text.front() >= '\t' && text.front() <= '\r')) return 1;
  for (const std::string_view blank : k_wide)
    if (text.starts_with(blank)) return blank.size();
  // U+2000 to U+200F, and U+2028 to U+202F.
  if (!text.starts_with("\xE2\x80") || text.size() < 3) return 0;
  const auto last = static_cast<unsigned char>(text[2]);
  return last <= 0x8F || (last >= 0xA8 && last <= 0xAF) ? 3 : 0;
}

}  // namespace

bool compares_kinds(const Finding& finding) {
  return !finding.mismatches.empty() ||
         std::find(k_pairing_laws.begin(), k_pairing_laws.end(), finding.law) != k_pairing_laws.end();
}

std::string renamed(const std::string& id, const std::map<std::string, std::string>& aliases) {
  const auto at = id.find('@');
  if (at == std::string::npos) return id;
  std::string out = id.substr(0, at + 1);
  std::size_t start = at + 1;
  while (start <= id.size()) {
    const std::size_t end = std::min(id.find(',', start), id.size());
    const std::string ref = id.substr(start, end - start);
    const std::size_t dot = std::min(ref.find('.'), ref.size());
    std::string place = ref.substr(0, dot);
    for (auto alias = aliases.find(place); alias != aliases.end(); alias = aliases.find(place)) place = alias->second;
    out += place + ref.substr(dot) + (end < id.size() ? "," : "");
    start = end + 1;
  }
  return out;
}

bool is_blank(std::string_view text) {
  while (!text.empty()) {
    const std::size_t bytes = blank_at_front(text);
    if (bytes == 0) return false;
    text.remove_prefix(bytes);
  }
  return true;
}

Acceptance acceptance(const Finding& finding) {
  if (!finding.accepted_by.empty()) return Acceptance::already;
  if (finding.guards != model::Guards::nothing && finding.verdict != Verdict::ok) return Acceptance::guarded;
  switch (finding.verdict) {
    case Verdict::ok:
      return Acceptance::nothing;
    case Verdict::accept:
      return Acceptance::may_sign;
    case Verdict::measure:
      return Acceptance::undecided;
    case Verdict::add:
    case Verdict::rework:
    case Verdict::stop:
      break;
  }
  return passing(finding);
}

model::Passes passes_of(const Finding& finding) {
  if (finding.margin >= 0 || finding.governs == model::Edge::none) return model::Passes::nothing;
  return finding.governs == model::Edge::from ? model::Passes::below : model::Passes::above;
}

void let_pass(Finding& finding) {
  finding.passed = finding.verdict;
  finding.verdict = Verdict::accept;
  finding.operation.clear();
  finding.operation_label.clear();
  finding.additions.clear();
  finding.measurements.clear();
  // Nothing is left that an adapter would have to mend.
  const auto proposal = std::find_if(finding.facts.begin(), finding.facts.end(),
                                     [](const auto& fact) { return fact.first.starts_with("bridge."); });
  finding.facts.erase(proposal, finding.facts.end());
}

void apply_decisions(const model::Job& job, std::vector<Finding>& findings) {
  std::vector<model::Decision> decisions = job.decisions;
  const auto journal = model::fold(job.journal).decisions;
  decisions.insert(decisions.end(), journal.begin(), journal.end());
  // The latest that stands is the one that is shown.
  std::reverse(decisions.begin(), decisions.end());
  for (const model::Decision& decision : decisions) {
    const std::string id = renamed(decision.finding, job.sheet.aliases);
    for (Finding& finding : findings)
      if (finding.id == id && covers(decision, finding)) apply(decision, finding);
  }
}

}  // namespace cotter::plan
