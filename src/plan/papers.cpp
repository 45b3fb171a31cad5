#include "plan/papers.hpp"

#include <algorithm>

#include "plan/decisions.hpp"
#include "plan/finding_parts.hpp"

namespace cotter::plan {
namespace {

using model::Finding;
using model::Paper;
using model::Verdict;
using quantity::Certainty;
using quantity::Mixed;
using quantity::Range;

bool is_complete(const Paper& paper) {
  for (const std::string* text :
       {&paper.written_by, &paper.document, &paper.page, &paper.on, &paper.signed_by, &paper.signed_when})
    if (is_blank(*text)) return false;
  return true;
}

/// The place of the finding that holds the part which the paper is for.
const Seated* seat_of(const Assembly& assembly, const Paper& paper, const Finding& finding) {
  for (const model::InterfaceRef& ref : finding.about) {
    const Seated* seated = assembly.place(assembly.template_name(ref.place));
    if (seated != nullptr && seated->part && seated->part->id == paper.part) return seated;
  }
  return nullptr;
}

bool is_of(const std::optional<quantity::Value>& end, quantity::Dimension dimension) {
  return !end || end->dimension == dimension;
}

/// What the paper allows; none when its ends leave nothing between them.
std::optional<Range> window_of(const Paper& paper, const Range& own) {
  const Mixed low = paper.limit.from ? Mixed::from_base(paper.limit.from->nominal) : own.low();
  const Mixed high = paper.limit.to ? Mixed::from_base(paper.limit.to->nominal) : own.high();
  if (high < low) return std::nullopt;
  return Range(low, high);
}

Certainty within(const Range& result, const Range& window) {
  if (result.low() >= window.low() && result.high() <= window.high()) return Certainty::holds;
  return result.high() < window.low() || result.low() > window.high() ? Certainty::fails : Certainty::open;
}

/// A maker's limit on the stress of a press fit is a limit of its own; no paper on the sizes passes it.
bool stress_stands_against(const Finding& finding) {
  return finding.press && finding.press->most_stress &&
         (finding.press->stress != Certainty::holds || finding.press->steps.empty() ||
          !finding.press->rests_on.empty());
}

class PaperJudge {
 public:
  PaperJudge(const Assembly& assembly, const Paper& paper) : assembly_(assembly), paper_(paper) {}

  void judge(Finding& finding) const {
    if (finding.paper) return;
    if (const char* key = unusable(finding); key != nullptr) return say(key, finding);
    const auto window = window_of(paper_, *finding.must);
    if (!window) return say("paper.exceeded", finding);
    const Certainty held = within(*finding.result, *window);
    if (finding.margin >= 0) return judge_stricter(held, finding);
    if (const char* key = objection(held, finding); key != nullptr) return say(key, finding);
    let_pass(finding);
    finding.advice.clear();  // it says what to take instead
    finding.accepted_by = paper_.signed_by;
    finding.accepted_when = paper_.signed_when;
    finding.accepted_reason = paper_.document + ", " + paper_.page;
    finding.paper = {paper_.id, paper_.written_by, paper_.document, paper_.page, paper_.on, *window};
  }

 private:
  void say(const char* key, Finding& finding) const {
    finding.facts.insert(finding.facts.end(),
                         {{key, ""}, {"paper", paper_.id}, {"part", paper_.part}, {"names", names(finding)}});
  }

  static std::string names(const Finding& finding) {
    std::string text;
    for (const std::string& name : finding.rests_on) text += (text.empty() ? "" : ", ") + name;
    return text;
  }

  /// Why the paper says nothing about this finding, whatever its number.
  const char* unusable(const Finding& finding) const {
    if (!is_complete(paper_)) return "paper.incomplete";
    if (seat_of(assembly_, paper_, finding) == nullptr) return "paper.other_part";
    if (compares_kinds(finding)) return "paper.unlike";
    if (!finding.result || !finding.must || finding.values.empty()) return "paper.no_number";
    const quantity::Dimension dimension = finding.values.front().value.dimension;
    const bool same = is_of(paper_.limit.from, dimension) && is_of(paper_.limit.to, dimension);
    return same && (paper_.limit.from || paper_.limit.to) ? nullptr : "paper.other_quantity";
  }

  /// Why a number outside its own limit does not pass.
  const char* objection(Certainty held, const Finding& finding) const {
    if (finding.may_pass == model::MayPass::nobody) return "paper.nobody";
    if (seat_of(assembly_, paper_, finding)->part->used) return "paper.used_part";
    if (held != Certainty::holds) return "paper.exceeded";
    if (!finding.rests_on.empty()) return "paper.unattested";
    return stress_stands_against(finding) ? "paper.stress" : nullptr;
  }

  void judge_stricter(Certainty held, Finding& finding) const {
    if (held == Certainty::holds) return;
    finding.verdict = std::max(finding.verdict, held == Certainty::fails ? Verdict::stop : Verdict::measure);
    say("paper.stricter", finding);
  }

  const Assembly& assembly_;
  const Paper& paper_;
};

/// A paper that leads nowhere would be read as one that counts.
Finding without_finding(const Paper& paper) {
  Finding finding;
  finding.rule = finding.law = "paper";
  finding.id = finding_id(finding.rule, {paper.id});
  finding.subject = paper.document;
  finding.verdict = Verdict::measure;
  finding.may_pass = model::MayPass::nobody;
  finding.facts = {{"paper.no_finding", ""}, {"paper", paper.id}, {"finding", paper.finding}};
  return finding;
}

}  // namespace

void apply_papers(const Assembly& assembly, std::vector<Finding>& findings) {
  std::vector<Finding> astray;
  for (const Paper& paper : assembly.job().sheet.papers) {
    const std::string id = renamed(paper.finding, assembly.job().sheet.aliases);
    const PaperJudge judge(assembly, paper);
    bool found = false;
    for (Finding& finding : findings) {
      if (finding.id != id) continue;
      found = true;
      judge.judge(finding);
    }
    if (!found) astray.push_back(without_finding(paper));
  }
  findings.insert(findings.end(), std::make_move_iterator(astray.begin()), std::make_move_iterator(astray.end()));
}

}  // namespace cotter::plan
