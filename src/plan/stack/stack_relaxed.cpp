#include "plan/stack/stack_relaxed.hpp"

#include <algorithm>

namespace cotter::plan {
namespace {

using engine::stack::Problem;
using engine::stack::Result;
using engine::stack::Status;

void free_form(engine::stack::Form& form) {
  form.window.reset();
  form.wish.reset();
  form.target.reset();
}

bool hopeless(const Problem& problem, std::size_t form) {
  Problem alone = problem;
  for (std::size_t i = 0; i < alone.forms.size(); ++i)
    if (i != form) free_form(alone.forms[i]);
  return engine::stack::solve(alone).status == Status::no_set;
}

}  // namespace

RelaxedStack without_hopeless_forms(const Problem& problem, Result first) {
  RelaxedStack out;
  out.left_out.assign(problem.forms.size(), false);
  if (first.status == Status::no_set) {
    Problem rest = problem;
    for (std::size_t i = 0; i < problem.forms.size(); ++i) {
      const auto& status = first.forms[i].without.status;
      if (!status || *status != engine::stack::Certainty::fails || !hopeless(problem, i)) continue;
      out.left_out[i] = true;
      free_form(rest.forms[i]);
    }
    if (std::find(out.left_out.begin(), out.left_out.end(), true) != out.left_out.end()) {
      out.result = engine::stack::solve(rest);
      return out;
    }
  }
  out.result = std::move(first);
  return out;
}

}  // namespace cotter::plan
