#include "session/answers.hpp"

#include "quantity/text.hpp"
#include "session/opened.hpp"

namespace cotter::session {

Answer refused(std::string trouble) {
  Answer answer;
  answer.outcome = Outcome::bad_input;
  answer.trouble = std::move(trouble);
  return answer;
}

Answer refused(const document::Diagnostics& diagnostics) {
  return refused(trouble_text(diagnostics));
}

Outcome outcome_of(const model::Plan& plan) {
  return model::count(plan, model::Verdict::stop) > 0 ? Outcome::stopped : Outcome::done;
}

words::Layout layout_of(const Report& report) {
  words::Layout layout;
  layout.width = report.width;
  layout.emphasis = report.emphasis == Emphasis::bold ? words::Emphasis::bold : words::Emphasis::none;
  return layout;
}

std::string no_such_finding(const model::Plan& plan, const std::string& wanted) {
  std::vector<std::string> ids;
  for (const model::Finding& finding : plan.findings) ids.push_back(finding.id);
  const auto nearest = quantity::nearest_word(wanted, ids);
  return "No finding begins with \"" + wanted + "\"." + (nearest ? " Did you mean \"" + *nearest + "\"?" : "") +
         " The plan prints the name of each finding below it.\n";
}

}  // namespace cotter::session
