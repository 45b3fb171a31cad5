#include "plan/stack/added_lengths.hpp"

#include <algorithm>

#include "plan/stack/stack_problem.hpp"

namespace cotter::plan {
namespace {

using quantity::Certainty;

/// Puts what is added on the terms of the stack; false when the stack reads none of it.
bool add_to_terms(const model::StackDefinition& definition, const std::vector<AddedLength>& added,
                  engine::stack::Problem& problem) {
  bool any = false;
  for (const AddedLength& extra : added)
    for (const model::StackTerm& term : definition.terms) {
      if (term.fixed || term.value != extra.ref) continue;
      const auto found = std::find_if(problem.terms.begin(), problem.terms.end(),
                                      [&](const engine::stack::Term& one) { return one.id == term.id; });
      any = true;
      if (found == problem.terms.end()) continue;  // its forms cannot be computed: they are missing
      const auto more = quantity::length_interval(extra.value);
      found->interval = {found->interval.low() + more.low(), found->interval.high() + more.high()};
      found->nominal = found->nominal + quantity::nominal_length(extra.value);
      found->attested = found->attested && quantity::is_attested(extra.value);
    }
  return any;
}

bool reads(const model::StackDefinition& definition, const model::StackForm& form,
           const std::vector<AddedLength>& added) {
  return std::any_of(definition.terms.begin(), definition.terms.end(), [&](const model::StackTerm& term) {
    return form.terms.contains(term.id) && !term.fixed &&
           std::any_of(added.begin(), added.end(), [&](const AddedLength& extra) { return extra.ref == term.value; });
  });
}

/// Chosen spacers included, where the kit has a set that does.
Certainty state_of(const engine::stack::Result& result, std::size_t form) {
  const engine::stack::FormResult& found = result.forms[form];
  const engine::stack::FormState& state = found.with_best ? *found.with_best : found.without;
  return state.status.value_or(Certainty::holds);
}

void worsen(AddedVerdict& verdict, Certainty certainty, const std::string& label) {
  if (verdict.certainty == Certainty::fails || certainty == Certainty::holds) return;
  if (verdict.certainty == certainty) return;
  verdict = {certainty, label};
}

void judge_stack(const Assembly& assembly, const model::StackDefinition& definition,
                 const std::vector<AddedLength>& added, AddedVerdict& verdict) {
  const StackProblem before = stack_problem(assembly, definition);
  engine::stack::Problem with = before.problem;
  if (!add_to_terms(definition, added, with)) return;
  for (const MissingForm& missing : before.missing)
    if (reads(definition, *missing.form, added)) worsen(verdict, Certainty::open, missing.form->label);
  const engine::stack::Result old = engine::stack::solve(before.problem);
  const engine::stack::Result now = engine::stack::solve(with);
  if (old.forms.size() != before.forms.size() || now.forms.size() != before.forms.size()) {
    worsen(verdict, Certainty::open, definition.label);
    return;
  }
  for (std::size_t i = 0; i < before.forms.size(); ++i) {
    const Certainty was = state_of(old, i);
    const Certainty is = state_of(now, i);
    if (is == Certainty::fails && was != Certainty::fails) worsen(verdict, is, before.forms[i]->label);
    if (is == Certainty::open && was == Certainty::holds) worsen(verdict, is, before.forms[i]->label);
  }
}

}  // namespace

AddedVerdict judge_added_lengths(const Assembly& assembly, const std::vector<AddedLength>& added) {
  AddedVerdict verdict;
  if (added.empty()) return verdict;
  for (const model::StackDefinition& definition : assembly.stacks()) judge_stack(assembly, definition, added, verdict);
  return verdict;
}

}  // namespace cotter::plan
