#include "words/brief.hpp"

#include "words/finding_words.hpp"
#include "words/phrase.hpp"

namespace cotter::words {
namespace {

std::string with_capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

}  // namespace

std::string brief(const model::Finding& finding) {
  // Findings without a number say what they have to say in their facts.
  if (!finding.result && !finding.facts.empty()) {
    const std::vector<std::string> all = sentences(finding);
    if (!all.empty()) return with_capital(all.front());
  }
  std::string text = with_capital(finding.rule_label) + ".";
  if (!finding.measurements.empty())
    text += " " + fill("measure.what_short", {{"label", finding.measurements.front().label}});
  else if (!finding.additions.empty())
    text += " " + fill("add.short", {{"what", finding.additions.front().what}});
  else if (!finding.operation_label.empty())
    text += " " + finding.operation_label + ".";
  else
    text += " " + with_capital(finding.subject) + ".";
  return text;
}

}  // namespace cotter::words
