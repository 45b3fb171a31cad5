#include "plan/decisions.hpp"

#include <algorithm>

namespace cotter::plan {
namespace {

/// A finding id with every old name replaced by the name now: `rule@old.x,b.y` -> `rule@new.x,b.y`.
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

}  // namespace

bool may_be_accepted(const model::Finding& finding) {
  return finding.verdict == model::Verdict::accept;
}

void apply_decisions(const model::Job& job, std::vector<model::Finding>& findings) {
  for (const model::Decision& decision : job.decisions) {
    const std::string id = renamed(decision.finding, job.sheet.aliases);
    for (model::Finding& finding : findings) {
      if (finding.id != id || !may_be_accepted(finding) || finding.margin < decision.margin) continue;
      if (decision.by.empty() || decision.reason.empty()) continue;
      finding.accepted_by = decision.by;
      finding.accepted_reason = decision.reason;
    }
  }
}

}  // namespace cotter::plan
