#include "plan/sequence/work_order.hpp"

#include <fmt/format.h>

#include "engine/sequence/solve.hpp"
#include "plan/finding_parts.hpp"

namespace cotter::plan {
namespace {

using engine::sequence::Problem;
using engine::sequence::Reason;
using engine::sequence::Result;
using engine::sequence::Status;

/// Whether a step is the catalog's operation, or one of the pulls made from it.
bool stands_for(const std::string& step, const std::string& operation) {
  const bool pattern = operation == k_pull_pattern || operation == k_housing_pattern;
  return step == operation || (pattern && step.starts_with(k_pull_prefix));
}

Problem problem_of(const Assembly& assembly, const std::vector<model::Operation>& operations) {
  Problem problem;
  for (const model::Access& access : assembly.catalog().work.accesses)
    problem.accesses.push_back({access.id, access.open_at_start});
  for (const model::Operation& operation : operations) {
    engine::sequence::Operation out;
    out.id = operation.id;
    out.after = operation.after;
    out.needs_open = operation.needs_open;
    out.opens = operation.opens;
    out.closes = operation.closes;
    out.position = operation.position;
    out.tools = operation.tools;
    out.hundredths_of_minute = operation.minutes;
    out.reversible = static_cast<engine::sequence::Reversible>(operation.reversible);
    out.checks = operation.hold_point;
    problem.operations.push_back(std::move(out));
  }
  for (const Seated& seated : assembly.places()) {
    if (seated.part || seated.form->optional || seated.form->decide_before.empty()) continue;
    engine::sequence::Choice choice{seated.form->id, {}};
    for (const model::Operation& operation : operations)
      if (stands_for(operation.id, seated.form->decide_before)) choice.used_by.push_back(operation.id);
    if (!choice.used_by.empty()) problem.choices.push_back(std::move(choice));
  }
  return problem;
}

std::vector<model::WorkStep> steps_of(const Result& result, const std::vector<model::Operation>& operations) {
  std::vector<model::WorkStep> steps;
  for (const std::size_t index : result.order) {
    const model::Operation& operation = operations[index];
    model::WorkStep step;
    step.mark = fmt::format("{:02}", steps.size() + 1);
    step.operation = operation.id;
    step.label = operation.label;
    step.phase = operation.phase;
    step.after = operation.after;
    step.opens = operation.opens;
    step.closes = operation.closes;
    step.tools = operation.tools;
    step.position = operation.position;
    step.minutes = operation.minutes;
    step.reversible = operation.reversible;
    step.hold_point = operation.hold_point;
    step.evidence = operation.evidence;
    step.check = operation.check;
    step.caution = operation.caution;
    steps.push_back(std::move(step));
  }
  return steps;
}

std::string access_labels(const Assembly& assembly, const Reason& reason) {
  std::string text;
  for (const std::size_t access : reason.accesses)
    text += (text.empty() ? "" : ", ") + assembly.catalog().work.accesses[access].label;
  return text;
}

void add_reason(const Assembly& assembly, const std::vector<model::Operation>& operations, const Reason& reason,
                model::Finding& finding) {
  const auto label = [&](std::size_t index) { return operations[index].label; };
  switch (reason.kind) {
    case Reason::Kind::after:
      finding.facts.insert(finding.facts.end(),
                           {{"sequence.after", ""}, {"a", label(reason.later)}, {"b", label(reason.earlier)}});
      return;
    case Reason::Kind::needs_before_close:
      finding.facts.insert(finding.facts.end(), {{"sequence.needs", ""},
                                                 {"a", label(reason.earlier)},
                                                 {"b", label(reason.later)},
                                                 {"access", access_labels(assembly, reason)}});
      return;
    case Reason::Kind::opens_before_need:
      finding.facts.insert(finding.facts.end(), {{"sequence.opens", ""},
                                                 {"a", label(reason.later)},
                                                 {"b", label(reason.earlier)},
                                                 {"access", access_labels(assembly, reason)}});
      return;
    case Reason::Kind::needs_one_of:
      finding.facts.insert(
          finding.facts.end(),
          {{"sequence.one_of", ""}, {"a", label(reason.later)}, {"access", access_labels(assembly, reason)}});
      return;
  }
}

/// `pulls_missing`: lines are wanted, but routing has no way for some of them, so their pulls are not among the steps.
model::Finding finding_of(const Assembly& assembly, bool pulls_missing, const std::vector<model::Operation>& operations,
                          const Result& result) {
  model::Finding finding;
  finding.rule = "sequence.order";
  finding.rule_label = "the work has an order";
  finding.law = "sequence";
  finding.id = finding_id(finding.rule, {"work"});
  finding.subject = "order of work";
  finding.may_pass = model::MayPass::nobody;
  switch (result.status) {
    case Status::ordered:
      finding.facts = {{"sequence.ok", ""}, {"count", std::to_string(result.order.size())}};
      if (pulls_missing) {
        finding.verdict = model::Verdict::measure;
        finding.facts.push_back({"sequence.no_pulls", ""});
      }
      return finding;
    case Status::unfinished:
      finding.verdict = model::Verdict::measure;
      finding.facts = {{"sequence.unfinished", ""}};
      return finding;
    case Status::impossible:
      finding.verdict = model::Verdict::stop;
      finding.facts = {{"sequence.circle", ""}};
      for (const Reason& reason : result.circle.empty() ? result.conflict : result.circle)
        add_reason(assembly, operations, reason, finding);
      return finding;
    case Status::bad:
      quantity::ensure(false, "an operation of the catalog names another that does not exist");
  }
  return finding;
}

}  // namespace

WorkOrder work_order(const Assembly& assembly, const PullPlan& pulls) {
  const std::vector<model::Operation> operations = work_operations(assembly, pulls);
  const Problem problem = problem_of(assembly, operations);
  const Result result = engine::sequence::solve(problem);
  WorkOrder out;
  const bool pulls_missing = pulls.pulls.size() < assembly.job().sheet.lines.size();
  out.findings.push_back(finding_of(assembly, pulls_missing, operations, result));
  out.steps = steps_of(result, operations);
  out.minutes = result.hundredths_of_minute;
  for (const engine::sequence::DecideBy& decide : result.decide_by) {
    const Seated* seated = assembly.place(problem.choices[decide.choice].id);
    out.choices.push_back(
        {seated->id, seated->form->label, out.steps[decide.place].mark, out.steps[decide.place].label});
  }
  return out;
}

}  // namespace cotter::plan
