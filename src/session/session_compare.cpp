// `compare`: two jobs planned against one catalog, and what tells their plans apart.
#include "document/parse.hpp"
#include "document/write_difference.hpp"
#include "plan/compare.hpp"
#include "session/answers.hpp"
#include "session/opened.hpp"
#include "words/difference_words.hpp"

namespace cotter::session {

Answer Session::compare(const std::string& before, const std::string& after, const Report& report) const {
  const auto catalog = open_catalog(settings_.catalogs);
  if (!catalog) return refused(catalog.error());
  const auto earlier = plan_job(settings_.version, *catalog, before);
  const auto later = plan_job(settings_.version, *catalog, after);
  if (!earlier || !later)
    return refused((earlier ? "" : trouble_text(earlier.error())) + (later ? "" : trouble_text(later.error())));
  const model::PlanDifference difference =
      plan::compare(earlier->plan, later->plan, {earlier->aliases, later->aliases});
  Answer answer;
  answer.outcome = outcome_of(later->plan);
  answer.trouble = trouble_text(earlier->notes) + trouble_text(later->notes);
  answer.text = report.form == Form::json ? document::write_json(document::difference_node(difference)) + "\n"
                                          : words::difference_text(difference, layout_of(report));
  return answer;
}

}  // namespace cotter::session
