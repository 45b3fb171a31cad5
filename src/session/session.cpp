#include "session/session.hpp"

#include "document/parse.hpp"
#include "document/write_plan.hpp"
#include "draw/elevation.hpp"
#include "draw/stylesheet.hpp"
#include "problem/engines.hpp"
#include "session/answers.hpp"
#include "session/opened.hpp"
#include "words/brief.hpp"
#include "words/finding_words.hpp"
#include "words/plan_words.hpp"

namespace cotter::session {
namespace {

std::string drawing_of(const model::Plan& plan) {
  draw::Style style;
  style.fonts_css = draw::embedded_fonts_css();
  style.text_of = [](const model::Finding& finding) {
    return draw::FindingText{words::brief(finding), words::number_shown(finding)};
  };
  return draw::elevation_svg(plan, style);
}

/// Findings whose id begins with `wanted`; an exact match stands alone.
std::vector<const model::Finding*> matching(const model::Plan& plan, const std::string& wanted) {
  std::vector<const model::Finding*> found;
  for (const model::Finding& finding : plan.findings) {
    if (finding.id == wanted) return {&finding};
    if (finding.id.starts_with(wanted)) found.push_back(&finding);
  }
  return found;
}

}  // namespace

Session::Session(Settings settings) : settings_(std::move(settings)) {}

Answer Session::plan(const std::string& job, const Report& report) const {
  const auto planned = open_and_plan(settings_.version, settings_.catalogs, job);
  if (!planned) return refused(planned.error());
  Answer answer;
  answer.outcome = outcome_of(planned->plan);
  answer.trouble = trouble_text(planned->notes);
  answer.text = report.form == Form::json ? document::write_json(document::plan_node(planned->plan)) + "\n"
                                          : words::plan_text(planned->plan, layout_of(report));
  return answer;
}

Answer Session::why(const std::string& job, const std::string& finding, const Report& report) const {
  const auto planned = open_and_plan(settings_.version, settings_.catalogs, job);
  if (!planned) return refused(planned.error());
  const auto found = matching(planned->plan, finding);
  if (finding.empty() || found.empty()) return refused(no_such_finding(planned->plan, finding));
  Answer answer;
  answer.trouble = trouble_text(planned->notes);
  document::Node list = document::Node::list();
  for (const model::Finding* one : found) {
    list.push(document::finding_node(*one));
    answer.text += (answer.text.empty() ? "" : "\n") + words::why_text(*one, layout_of(report));
    if (one->verdict == model::Verdict::stop) answer.outcome = Outcome::stopped;
  }
  if (report.form == Form::json) answer.text = document::write_json(list) + "\n";
  return answer;
}

Answer Session::next(const std::string& job, const Report& report) const {
  const auto planned = open_and_plan(settings_.version, settings_.catalogs, job);
  if (!planned) return refused(planned.error());
  Answer answer;
  answer.outcome = outcome_of(planned->plan);
  answer.trouble = trouble_text(planned->notes);
  answer.text = report.form == Form::json ? document::write_json(document::measure_next_node(planned->plan)) + "\n"
                                          : words::bench_list_text(planned->plan, layout_of(report));
  return answer;
}

Answer Session::draw(const std::string& job) const {
  const auto planned = open_and_plan(settings_.version, settings_.catalogs, job);
  if (!planned) return refused(planned.error());
  Answer answer;
  answer.outcome = outcome_of(planned->plan);
  answer.trouble = trouble_text(planned->notes);
  answer.text = drawing_of(planned->plan);
  return answer;
}

Answer Session::solve(const std::string& engine, const std::string& file) const {
  const problem::EngineDocument* known = problem::find_engine(engine);
  if (known == nullptr) {
    std::string names;
    for (const problem::EngineDocument& one : problem::engines())
      names += (names.empty() ? "" : ", ") + std::string(one.name);
    return refused("There is no engine \"" + engine + "\"; the engines are " + names + ".\n");
  }
  const auto document = document::parse_file(file);
  if (!document) return refused(document.error());
  const auto result = known->solve(*document, file);
  if (!result) return refused(result.error());
  Answer answer;
  answer.text = document::write_json(*result) + "\n";
  return answer;
}

Sheet Session::sheet(const std::string& job) const {
  const auto planned = open_and_plan(settings_.version, settings_.catalogs, job);
  Sheet sheet;
  sheet.cautions = words::cautions();
  if (!planned) {
    sheet.outcome = Outcome::bad_input;
    sheet.title = job;
    sheet.trouble = trouble_text(planned.error());
    return sheet;
  }
  sheet.outcome = outcome_of(planned->plan);
  sheet.title = planned->plan.title;
  sheet.trouble = trouble_text(planned->notes);
  sheet.drawing = drawing_of(planned->plan);
  sheet.plan = words::plan_text(planned->plan);
  sheet.json = document::write_json(document::plan_node(planned->plan)) + "\n";
  return sheet;
}

}  // namespace cotter::session
