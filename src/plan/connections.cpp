#include "plan/connections.hpp"

#include <algorithm>

#include "plan/finding_parts.hpp"

namespace cotter::plan {
namespace {

bool joins(const Assembly& assembly, const model::LineWish& wish, const model::ConnectionForm& form) {
  const model::InterfaceRef from{assembly.template_name(wish.from_place), wish.from_port};
  const model::InterfaceRef to{assembly.template_name(wish.to_place), wish.to_port};
  return (from == form.a && to == form.b) || (from == form.b && to == form.a);
}

using Fluids = std::vector<std::pair<std::string, std::string>>;

/// What a part says of the fluid it is made for: its label and the word.
void add_fluids(const model::Part& part, Fluids& out) {
  for (const auto& [id, feature] : part.interfaces)
    if (const auto word = feature.words.find("fluid"); word != feature.words.end())
      out.emplace_back(part.label, word->second);
}

/// Lever, hose and caliper are one vessel: what each says of its fluid must be the same.
void judge_fluids(const Assembly& assembly, const model::ConnectionForm& form, const model::LineWish& wish,
                  model::Finding& finding) {
  Fluids fluids;
  for (const model::InterfaceRef* end : {&form.a, &form.b}) add_fluids(*assembly.place(end->place)->part, fluids);
  if (const model::Part* line = assembly.find_part(wish.part)) add_fluids(*line, fluids);
  const bool agree =
      std::all_of(fluids.begin(), fluids.end(), [&](const auto& one) { return one.second == fluids.front().second; });
  if (agree) return;
  std::string list;
  for (const auto& [label, fluid] : fluids) list += (list.empty() ? "" : "; ") + label + ": " + fluid;
  finding.verdict = model::Verdict::stop;
  finding.facts = {{"connection.fluid", ""}, {"list", list}};
}

model::Finding finding_of(const Assembly& assembly, const model::ConnectionForm& form) {
  model::Finding finding;
  finding.rule = "connected";
  finding.rule_label = "a line joins the two";
  finding.law = "connection";
  finding.subject = form.label;
  finding.about = {assembly.in_job_names(form.a), assembly.in_job_names(form.b)};
  finding.id = finding_id(finding.rule, {finding.about[0].text(), finding.about[1].text()});
  finding.guards = form.guards;
  finding.may_pass = model::MayPass::nobody;
  const auto& lines = assembly.job().sheet.lines;
  const auto wish =
      std::find_if(lines.begin(), lines.end(), [&](const model::LineWish& one) { return joins(assembly, one, form); });
  if (wish != lines.end()) {
    judge_fluids(assembly, form, *wish, finding);
    return finding;
  }
  finding.facts = {{"connection.missing", ""},
                   {"a", assembly.place(form.a.place)->form->label},
                   {"b", assembly.place(form.b.place)->form->label}};
  if (form.guards == model::Guards::nothing) {
    finding.verdict = model::Verdict::add;
    model::Addition addition;
    addition.what = form.label;
    addition.where = "between the two";
    finding.additions.push_back(std::move(addition));
  } else {
    finding.verdict = model::Verdict::stop;
    finding.facts.push_back({"connection.guarded", ""});
  }
  return finding;
}

}  // namespace

std::vector<model::Finding> connection_findings(const Assembly& assembly) {
  std::vector<model::Finding> findings;
  for (const model::ConnectionForm& form : assembly.connections()) {
    const Seated* a = assembly.place(form.a.place);
    const Seated* b = assembly.place(form.b.place);
    quantity::ensure(a != nullptr && b != nullptr, "connection names a place its template does not have");
    if (a->part && b->part) findings.push_back(finding_of(assembly, form));
  }
  return findings;
}

}  // namespace cotter::plan
