#include "plan/stack/stack_findings.hpp"

#include <algorithm>
#include <cstdlib>

#include "plan/finding_parts.hpp"
#include "plan/stack/stack_choice.hpp"
#include "plan/stack/stack_problem.hpp"
#include "plan/stack/stack_relaxed.hpp"

namespace cotter::plan {
namespace {

using engine::stack::Certainty;
using engine::stack::FormState;
using model::Finding;
using model::Verdict;
using quantity::Mixed;
using quantity::Range;

Range mixed(const quantity::Interval<quantity::Length>& interval) {
  return {Mixed::from_base(interval.low().base()), Mixed::from_base(interval.high().base())};
}

std::string formula_of(const model::StackForm& form) {
  std::string text;
  for (const auto& [term, factor] : form.terms) {
    const std::string sign = factor < 0 ? (text.empty() ? "-" : " - ") : (text.empty() ? "" : " + ");
    text += sign + (std::abs(factor) == 1 ? "" : std::to_string(std::abs(factor)) + " x ") + term;
  }
  return form.halved ? "(" + text + ") / 2" : text;
}

std::int64_t floor_divide(std::int64_t a, std::int64_t b) {
  return a / b - ((a % b != 0 && (a < 0) != (b < 0)) ? 1 : 0);
}
std::int64_t ceil_divide(std::int64_t a, std::int64_t b) {
  return -floor_divide(-a, b);
}

/// Values x with low <= factor * x <= high, rounded inward; open ends stay open.
std::optional<Range> solve_for(std::int64_t factor, std::int64_t low, std::int64_t high) {
  if (factor < 0) return solve_for(-factor, -high, -low);
  const auto open = [](std::int64_t end) { return std::abs(end) >= model::k_open_end / 2; };
  const std::int64_t from = open(low) ? -model::k_open_end : ceil_divide(low, factor);
  const std::int64_t to = open(high) ? model::k_open_end : floor_divide(high, factor);
  if (from > to) return std::nullopt;
  return Range(Mixed::from_base(from), Mixed::from_base(to));
}

/// What each outcome of measuring one term of a form would mean.
void add_thresholds(const model::StackForm& form, std::int64_t factor, const Range& term, const Range& result,
                    const Range& must, model::Measurement& measurement) {
  if (factor == 0) return;  // such a term decides nothing
  const std::int64_t scale = form.halved ? 2 : 1;
  const auto scaled = [&](Mixed end) {
    return std::abs(end.base()) >= model::k_open_end ? end.base() : end.base() * scale;
  };
  const std::int64_t at_low = factor * (factor > 0 ? term.low() : term.high()).base();
  const std::int64_t at_high = factor * (factor > 0 ? term.high() : term.low()).base();
  const std::int64_t rest_low = result.low().base() * scale - at_low;
  const std::int64_t rest_high = result.high().base() * scale - at_high;
  measurement.holds = solve_for(factor, scaled(must.low()) - rest_low, scaled(must.high()) - rest_high);
  measurement.may_hold = solve_for(factor, scaled(must.low()) - rest_high, scaled(must.high()) - rest_low);
  const std::string low_word(model::word_for(verdict_of(factor > 0 ? form.below : form.above)));
  const std::string high_word(model::word_for(verdict_of(factor > 0 ? form.above : form.below)));
  measurement.with_these_pieces = !form.slots.empty();
  measurement.below_means = low_word;
  measurement.above_means = high_word;
}

class StackAdapter {
 public:
  StackAdapter(const Assembly& assembly, const model::StackDefinition& definition)
      : assembly_(assembly),
        definition_(definition),
        stack_(stack_problem(assembly, definition)),
        first_(engine::stack::solve(stack_.problem)),
        relaxed_(without_hopeless_forms(stack_.problem, first_)),
        result_(relaxed_.result) {}

  void append_to(StackFindings& out) {
    for (const MissingForm& missing : stack_.missing) out.findings.push_back(missing_finding(missing));
    if (result_.status == engine::stack::Status::bad) {
      quantity::ensure(result_.faults.empty(), "a stack of the template contradicts itself");
      return;
    }
    for (std::size_t i = 0; i < stack_.forms.size(); ++i) {
      out.findings.push_back(finding(i));
      if (stack_.forms[i]->cut) out.cuts.push_back(cut(i));
    }
  }

 private:
  /// No set of pieces will do for this form: it stops, and the pieces of the others are none of its business.
  bool left_out(std::size_t i) const { return relaxed_.left_out[i]; }

  const FormState& state(std::size_t i) const {
    if (left_out(i)) return first_.forms[i].without;
    const engine::stack::FormResult& form = result_.forms[i];
    return form.with_best ? *form.with_best : form.without;
  }

  std::vector<std::size_t> terms_of(std::size_t i) const {
    std::vector<std::size_t> terms;
    for (std::size_t t = 0; t < stack_.problem.terms.size(); ++t)
      if (stack_.problem.forms[i].coefficients.contains(stack_.problem.terms[t].id)) terms.push_back(t);
    return terms;
  }

  Finding head(const model::StackForm& form) const {
    Finding finding;
    finding.rule = definition_.id + "." + form.id;
    finding.rule_label = form.label;
    finding.law = "stack";
    finding.subject = definition_.label;
    finding.guards = form.guards;
    finding.may_pass = form.may_pass;
    finding.source = form.source;
    finding.late = late_cost(assembly_, form.late, form.spoils);
    return finding;
  }

  Finding missing_finding(const MissingForm& missing) const {
    Finding finding = head(*missing.form);
    finding.verdict = Verdict::measure;
    finding.about = missing.about;
    finding.id = finding_id(finding.rule, {missing.about.front().text()});
    if (missing.dimension_label.empty())
      finding.facts = {{"finding.stack_open_place", ""}, {"place", missing.place_label}};
    else
      finding.facts = {
          {"finding.missing_value", ""}, {"place", missing.place_label}, {"dimension", missing.dimension_label}};
    if (missing.unstated) finding.measurements = {measurement_of(assembly_, *missing.unstated)};
    return finding;
  }

  Finding finding(std::size_t i) const {
    const model::StackForm& form = *stack_.forms[i];
    Finding finding = head(form);
    std::vector<std::string> about;
    for (const std::size_t t : terms_of(i)) {
      finding.values.push_back(stack_.values[t]);
      if (!stack_.values[t].ref) continue;
      const model::InterfaceRef ref{stack_.values[t].ref->place, stack_.values[t].ref->interface};
      if (std::find(finding.about.begin(), finding.about.end(), ref) == finding.about.end())
        finding.about.push_back(ref);
    }
    for (const model::InterfaceRef& ref : finding.about) about.push_back(ref.text());
    finding.id = finding_id(finding.rule, about);
    add_spacers_to_values(i, finding);
    finding.formula = formula_with_spacers(i, finding);
    finding.result = mixed(state(i).worst_case.range);
    const Range without = mixed(result_.forms[i].without.worst_case.range);
    if (without != *finding.result) finding.without = without;
    finding.must = stack_.must[i];
    finding.should = as_range(form.should);
    finding.rests_on = unattested_labels(finding.values);
    add_unattested_limits(i, finding);
    if (!state(i).status || *state(i).status == Certainty::holds) add_unsettled_pieces(i, finding);
    if (state(i).margin) {
      finding.margin = state(i).margin->room.base();
      finding.governs = state(i).margin->edge == engine::stack::Edge::low ? model::Edge::from : model::Edge::to;
    }
    judge(i, finding);
    // A length that nobody may saw by is not shown at all.
    if (form.cut && finding.verdict != Verdict::ok) finding.result.reset();
    return finding;
  }

  /// Lengths put into the slots of this form appear in its working like any other value.
  void add_spacers_to_values(std::size_t i, Finding& finding) const {
    if (result_.sets.empty() || left_out(i)) return;
    for (std::size_t s = 0; s < definition_.slots.size(); ++s) {
      const quantity::Length length = result_.sets.front().slot_lengths[s];
      if (length.base() == 0 || !stack_.problem.forms[i].slot_coefficients.contains(definition_.slots[s].id)) continue;
      quantity::Origin origin;
      origin.kind = quantity::OriginKind::maker;
      origin.source = "pieces from the drawer";
      model::NamedValue value;
      value.symbol = definition_.slots[s].id;
      value.label = "spacers " + definition_.slots[s].label;
      value.value = quantity::exact_length(length, origin);
      finding.values.push_back(std::move(value));
    }
  }

  /// A limit that nobody vouches for is no firmer than a term.
  void add_unattested_limits(std::size_t i, Finding& finding) const {
    std::vector<model::NamedValue> values;
    for (const FoundValue& limit : stack_.limits[i]) values.push_back(named("limit", limit));
    for (std::string& label : unattested_labels(values)) finding.rests_on.push_back(std::move(label));
  }

  /// Pieces that another form has not settled yet make every length they lie in unsettled too.
  void add_unsettled_pieces(std::size_t i, Finding& finding) const {
    for (const auto& [slot, factor] : stack_.problem.forms[i].slot_coefficients)
      for (std::size_t j = 0; j < stack_.forms.size(); ++j)
        if (i != j && stack_.problem.forms[j].slot_coefficients.contains(slot) && !settled(j))
          add_unsettled(j, finding);
    for (const MissingForm& missing : stack_.missing)
      for (const auto& [slot, factor] : missing.form->slots)
        if (stack_.problem.forms[i].slot_coefficients.contains(slot))
          finding.rests_on.push_back(missing.form->label + " (undecided)");
  }

  /// Of a form that stops there is nothing to measure: the finding says so instead of asking for a measurement.
  void add_unsettled(std::size_t j, Finding& finding) const {
    const std::string& label = stack_.forms[j]->label;
    if (!state(j).status || *state(j).status != Certainty::fails) {
      finding.rests_on.push_back(label + " (undecided)");
      return;
    }
    const auto is_said = [&](const auto& fact) { return fact.first == "what" && fact.second == label; };
    if (std::any_of(finding.facts.begin(), finding.facts.end(), is_said)) return;
    finding.facts.insert(finding.facts.end(), {{"stack.waits", ""}, {"what", label}});
  }

  /// A form with a window is settled when it holds for certain on values that somebody vouches for.
  bool settled(std::size_t j) const {
    if (!state(j).status) return true;
    if (*state(j).status != Certainty::holds) return false;
    const std::vector<std::size_t> terms = terms_of(j);
    const auto& limits = stack_.limits[j];
    return std::all_of(terms.begin(), terms.end(), [&](std::size_t t) { return attested(t); }) &&
           std::all_of(limits.begin(), limits.end(),
                       [](const FoundValue& limit) { return quantity::is_attested(*limit.value); });
  }

  std::string formula_with_spacers(std::size_t i, const Finding& finding) const {
    const model::StackForm& form = *stack_.forms[i];
    model::StackForm shown = form;
    for (const auto& [slot, factor] : form.slots) {
      const bool used = std::any_of(finding.values.begin(), finding.values.end(),
                                    [&name = slot](const model::NamedValue& value) { return value.symbol == name; });
      if (used) shown.terms[slot] = factor;
    }
    return formula_of(shown);
  }

  void judge(std::size_t i, Finding& finding) const {
    const model::StackForm& form = *stack_.forms[i];
    const FormState& best = state(i);
    if (best.probability) finding.probability = best.probability->inside;
    if (best.status && result_.status == engine::stack::Status::unfinished && result_.sets.empty()) {
      finding.verdict = Verdict::measure;
      finding.facts.push_back({"route.unproven", ""});
      return;
    }
    // A form without a window is only reported: no value makes it fail.
    switch (best.status.value_or(Certainty::holds)) {
      case Certainty::fails:
        apply_outcome(finding.governs == model::Edge::from ? form.below : form.above, assembly_, finding);
        return;
      case Certainty::open:
        finding.verdict = Verdict::measure;
        add_measurements(i, finding);
        return;
      case Certainty::holds:
        break;
    }
    Standing standing;
    standing.rests_on_unattested = !finding.rests_on.empty() || !finding.facts.empty();
    standing.within_wish = !best.wish || *best.wish != Certainty::fails;
    finding.verdict = verdict_when_held(standing, form.guards);
    // One that only waits for another form has nothing of its own to measure.
    if (finding.verdict == Verdict::measure && !finding.rests_on.empty()) add_measurements(i, finding);
    if (needs_spacers(i)) {
      add_additions(finding);
      if (finding.verdict == Verdict::ok || finding.verdict == Verdict::accept) finding.verdict = Verdict::add;
    }
  }

  /// The first form that does not hold with empty slots carries the pieces; the others rest on the same set.
  bool needs_spacers(std::size_t i) const {
    if (result_.sets.empty() || result_.sets.front().pieces == 0) return false;
    for (std::size_t j = 0; j < stack_.forms.size(); ++j) {
      if (left_out(j)) continue;
      const auto& without = result_.forms[j].without.status;
      if (without && *without != Certainty::holds) return i == j;
    }
    return false;
  }

  void add_additions(Finding& finding) const {
    for (const engine::stack::Use& use : result_.sets.front().uses) {
      const engine::stack::Piece& piece = stack_.problem.kit[use.piece];
      const auto& kit = assembly_.job().sheet.shop.kit;
      const auto row =
          std::find_if(kit.begin(), kit.end(), [&](const model::KitPiece& one) { return one.id == piece.id; });
      model::Addition addition;
      addition.what = row->label;
      addition.id = piece.id;
      addition.count = use.count;
      addition.dimension = quantity::print_amount(piece.thickness.base(), quantity::Dimension::length) + " thick";
      addition.where = definition_.slots[use.slot].label;
      addition.in_kit = row->count >= use.count;
      finding.additions.push_back(std::move(addition));
    }
  }

  void add_measurements(std::size_t i, Finding& finding) const {
    std::vector<std::size_t> order;
    for (const engine::stack::Influence& influence : state(i).influences) order.push_back(influence.term);
    for (const std::size_t t : terms_of(i))
      if (std::find(order.begin(), order.end(), t) == order.end()) order.push_back(t);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return attested(b) && !attested(a); });
    for (const std::size_t t : order) {
      const engine::stack::Term& term = stack_.problem.terms[t];
      const bool wide = term.interval.width().base() > 0;
      if (!stack_.found[t] || (attested(t) && !wide)) continue;
      // A value that somebody vouches for is asked again only when its spread leaves the answer open.
      if (attested(t) && (finding.verdict != Verdict::measure || !finding.rests_on.empty())) continue;
      model::Measurement measurement = measurement_of(assembly_, *stack_.found[t]);
      measurement.label = stack_.values[t].place_label + ", " + stack_.values[t].label;
      const std::int64_t factor = stack_.problem.forms[i].coefficients.at(term.id);
      const Range must =
          finding.must.value_or(Range(Mixed::from_base(-model::k_open_end), Mixed::from_base(model::k_open_end)));
      add_thresholds(*stack_.forms[i], factor, mixed(term.interval), *finding.result, must, measurement);
      measurement.holds_at_nominal = holds_at_nominal(i, t, must);
      if (finding.should) measurement.wish_at_nominal = holds_at_nominal(i, t, *finding.should);
      measurement.other_choice = other_choices(stack_.problem, result_, t);
      finding.measurements.push_back(std::move(measurement));
    }
    for (const FoundValue& limit : stack_.limits[i])
      if (!quantity::is_attested(*limit.value)) finding.measurements.push_back(measurement_of(assembly_, limit));
  }

  /// For which lengths of one term the form lies in the window, when every other is at its nominal.
  std::optional<Range> holds_at_nominal(std::size_t i, std::size_t t, const Range& window) const {
    const engine::stack::Form& form = stack_.problem.forms[i];
    const std::int64_t scale = form.half ? 2 : 1;
    std::int64_t rest = 0;
    for (std::size_t other = 0; other < stack_.problem.terms.size(); ++other) {
      const auto factor = form.coefficients.find(stack_.problem.terms[other].id);
      if (other != t && factor != form.coefficients.end())
        rest += factor->second * stack_.problem.terms[other].nominal.base();
    }
    for (std::size_t s = 0; s < stack_.problem.slots.size() && !result_.sets.empty(); ++s) {
      const auto factor = form.slot_coefficients.find(stack_.problem.slots[s].id);
      if (factor != form.slot_coefficients.end()) rest += factor->second * result_.sets.front().slot_lengths[s].base();
    }
    const auto end = [&](Mixed at) {
      return std::abs(at.base()) >= model::k_open_end ? at.base() : at.base() * scale - rest;
    };
    const std::int64_t factor = form.coefficients.at(stack_.problem.terms[t].id);
    return factor == 0 ? std::nullopt : solve_for(factor, end(window.low()), end(window.high()));
  }

  bool attested(std::size_t t) const { return stack_.problem.terms[t].attested; }

  model::Cut cut(std::size_t i) const {
    const Finding full = finding(i);
    model::Cut cut;
    cut.id = full.rule;
    cut.label = full.rule_label;
    cut.settled = full.verdict == Verdict::ok;
    if (cut.settled) cut.length = *full.result;
    cut.finding = full.id;
    cut.source = full.source.text;
    return cut;
  }

  const Assembly& assembly_;
  const model::StackDefinition& definition_;
  StackProblem stack_;
  engine::stack::Result first_;
  RelaxedStack relaxed_;
  const engine::stack::Result& result_;
};

}  // namespace

StackFindings stack_findings(const Assembly& assembly) {
  StackFindings out;
  for (const model::StackDefinition& definition : assembly.stacks()) StackAdapter(assembly, definition).append_to(out);
  return out;
}

}  // namespace cotter::plan
