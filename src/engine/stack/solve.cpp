#include "engine/stack/solve.hpp"

#include <algorithm>

#include "engine/stack/assess.hpp"
#include "engine/stack/search.hpp"

namespace cotter::engine::stack {
namespace {

Status status_of(const Found& found) {
  if (found.sets.empty()) return found.none ? Status::no_set : Status::unfinished;
  const SpacerSet& best = found.sets.front();
  if (best.status == Certainty::open) return Status::open;
  return best.pieces == 0 ? Status::fits_without : Status::fits_with_spacers;
}

void complete(SpacerSet& set, const Linear& linear, const Problem& problem) {
  set.slot_lengths.assign(problem.slots.size(), Length{});
  for (const Use& use : set.uses) set.slot_lengths[use.slot] += problem.kit[use.piece].thickness * use.count;
  for (std::size_t i = 0; i < linear.forms.size(); ++i) {
    const LinearForm& form = linear.forms[i];
    const Interval<Length> range = form.range + Interval<Length>(added_by(set.uses, form, problem.kit));
    if (form.window && within(range, *form.window) == Certainty::open) set.open_forms.push_back(i);
    if (form.wish && within(range, *form.wish) != Certainty::holds) set.outside_wish.push_back(i);
  }
}

FormResult form_result(const LinearForm& form, const Problem& problem, const std::vector<SpacerSet>& sets) {
  FormResult result;
  result.without = assess(form, Length{}, problem.terms);
  if (!sets.empty()) result.with_best = assess(form, added_by(sets.front().uses, form, problem.kit), problem.terms);
  for (const Factor& factor : form.factors) {
    if (!problem.terms[factor.term].attested) result.unattested.push_back(factor.term);
  }
  return result;
}

}  // namespace

Result solve(const Problem& problem, const Options& options) {
  Result result;
  const auto linear = resolve(problem);
  if (!linear) {
    result.faults = linear.error();
    return result;
  }
  Found found = search(*linear, problem, options);
  result.status = status_of(found);
  result.sets = std::move(found.sets);
  result.sets_left_out = found.left_out;
  result.nearest_miss = found.nearest_miss;
  result.complete = found.complete;
  result.nodes = found.nodes;
  for (SpacerSet& set : result.sets) complete(set, *linear, problem);
  for (std::size_t i = 0; i < std::min(result.sets.size(), k_sets_with_outlook); ++i)
    for (const LinearForm& form : linear->forms)
      result.sets[i].outlooks.push_back(outlook(form, added_by(result.sets[i].uses, form, problem.kit), problem.terms));
  std::vector<FormState> states;
  for (const LinearForm& form : linear->forms) {
    result.forms.push_back(form_result(form, problem, result.sets));
    const FormResult& last = result.forms.back();
    states.push_back(last.with_best ? *last.with_best : last.without);
  }
  result.measure_first = measurements(states);
  return result;
}

}  // namespace cotter::engine::stack
