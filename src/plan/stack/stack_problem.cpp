#include "plan/stack/stack_problem.hpp"

#include <algorithm>
#include <cstdlib>

#include "plan/finding_parts.hpp"

namespace cotter::plan {
namespace {

using engine::stack::Interval;
using engine::stack::Length;

/// A ring that is wider than what it goes round by more than this is made for something else. Common practice.
constexpr Length k_most_hole_play = quantity::nanometres(1'000'000);

Interval<Length> lengths(const quantity::Range& range) {
  const auto end = [](std::int64_t base, Length open) {
    return std::abs(base) >= model::k_open_end ? open : Length::from_base(base);
  };
  return {end(range.low().base(), engine::stack::k_no_low), end(range.high().base(), engine::stack::k_no_high)};
}

/// Adds the term to the problem unless it is there; says what is missing otherwise.
class TermBuilder {
 public:
  TermBuilder(const Assembly& assembly, const model::StackDefinition& definition, StackProblem& out)
      : assembly_(assembly), definition_(definition), out_(out) {}

  bool add(const std::string& id, MissingForm& missing) {
    if (known(id)) return true;
    const auto term = std::find_if(definition_.terms.begin(), definition_.terms.end(),
                                   [&](const model::StackTerm& one) { return one.id == id; });
    quantity::ensure(term != definition_.terms.end(), "form names a term its stack does not have");
    if (term->fixed) {
      push(id, named_fixed(id, *term->fixed), std::nullopt);
      out_.values.back().label = term->label;
      return true;
    }
    const auto found = assembly_.value(term->value);
    if (found) {
      push(id, named(id, *found), found);
      out_.values.back().label = term->label.empty() ? found->label : term->label;
      return true;
    }
    const Seated* seated = assembly_.place(term->value.place);
    missing.place_label = seated == nullptr ? term->value.place : seated->form->label;
    missing.about = {{seated == nullptr ? term->value.place : seated->id, term->value.interface}};
    missing.unstated = assembly_.unstated(term->value);
    if (seated != nullptr && seated->part)
      missing.dimension_label = term->label.empty() ? term->value.dimension : term->label;
    return false;
  }

 private:
  bool known(const std::string& id) const {
    return std::any_of(out_.problem.terms.begin(), out_.problem.terms.end(),
                       [&](const auto& term) { return term.id == id; });
  }
  void push(const std::string& id, model::NamedValue value, std::optional<FoundValue> found) {
    engine::stack::Term term;
    term.id = id;
    term.interval = quantity::length_interval(value.value);
    term.nominal = quantity::nominal_length(value.value);
    term.attested = !found || quantity::is_attested(value.value);
    term.known = value.value.origin.kind != quantity::OriginKind::unknown;
    out_.problem.terms.push_back(term);
    out_.values.push_back(std::move(value));
    out_.found.push_back(std::move(found));
  }

  const Assembly& assembly_;
  const model::StackDefinition& definition_;
  StackProblem& out_;
};

/// A window end taken from a part: the safe side of its interval.
bool take_limit(const Assembly& assembly, const std::optional<model::ValueRef>& ref, bool lower,
                std::optional<quantity::Range>& must, MissingForm& missing, std::vector<FoundValue>& limits) {
  if (!ref) return true;
  const auto found = assembly.value(*ref);
  if (!found) {
    const Seated* seated = assembly.place(ref->place);
    missing.place_label = seated == nullptr ? ref->place : seated->form->label;
    missing.about = {{seated == nullptr ? ref->place : seated->id, ref->interface}};
    missing.unstated = assembly.unstated(*ref);
    if (seated != nullptr && seated->part) missing.dimension_label = ref->dimension;
    return false;
  }
  const quantity::Range range = found->value->range();
  const quantity::Mixed low = lower  ? range.high()
                              : must ? must->low()
                                     : quantity::Mixed::from_base(-model::k_open_end);
  const quantity::Mixed high = !lower ? range.low()
                               : must ? must->high()
                                      : quantity::Mixed::from_base(model::k_open_end);
  if (high < low) {
    missing.place_label = found->place_label;
    missing.about = {{found->ref.place, found->ref.interface}};
    missing.unstated = found;
    missing.dimension_label = found->label + " that leaves any room";
    return false;
  }
  must = quantity::Range(low, high);
  limits.push_back(*found);
  return true;
}

/// A piece goes into a slot of its kind; where the slot says what it goes round, only with a hole for that.
bool goes_into(const Assembly& assembly, const model::StackSlot& slot, const model::KitPiece& piece) {
  if (piece.piece != slot.piece) return false;
  if (!slot.round) return true;
  const auto shaft = assembly.value(*slot.round);
  if (!shaft || !piece.bore || shaft->value->origin.kind == quantity::OriginKind::unknown) return false;
  const Length room = quantity::nominal_length(*piece.bore) - quantity::nominal_length(*shaft->value);
  return room >= Length{} && room <= k_most_hole_play;
}

void add_slots_and_kit(const Assembly& assembly, const model::StackDefinition& definition,
                       engine::stack::Problem& problem) {
  for (const model::StackSlot& slot : definition.slots) {
    engine::stack::Slot out;
    out.id = slot.id;
    out.most_pieces = static_cast<int>(slot.most_pieces);
    for (const model::KitPiece& piece : assembly.job().sheet.shop.kit)
      if (goes_into(assembly, slot, piece)) out.allowed.push_back(piece.id);
    // An empty list would mean any piece; a shop without a fitting piece can put in none.
    if (out.allowed.empty()) out.most_pieces = 0;
    problem.slots.push_back(std::move(out));
  }
  for (const model::KitPiece& piece : assembly.job().sheet.shop.kit) {
    const bool fits = std::any_of(definition.slots.begin(), definition.slots.end(),
                                  [&](const model::StackSlot& slot) { return goes_into(assembly, slot, piece); });
    if (fits)
      problem.kit.push_back({piece.id, quantity::nominal_length(piece.thickness), static_cast<int>(piece.count)});
  }
}

}  // namespace

StackProblem stack_problem(const Assembly& assembly, const model::StackDefinition& definition) {
  StackProblem out;
  add_slots_and_kit(assembly, definition, out.problem);
  TermBuilder terms(assembly, definition, out);
  for (const model::StackForm& form : definition.forms) {
    MissingForm missing;
    missing.form = &form;
    bool complete = true;
    for (const auto& [term, factor] : form.terms) complete = complete && terms.add(term, missing);
    std::optional<quantity::Range> must = as_range(form.must);
    std::vector<FoundValue> limits;
    complete = complete && take_limit(assembly, form.must_from, true, must, missing, limits) &&
               take_limit(assembly, form.must_to, false, must, missing, limits);
    if (!complete) {
      out.missing.push_back(std::move(missing));
      continue;
    }
    engine::stack::Form engine_form;
    engine_form.id = form.id;
    for (const auto& [term, factor] : form.terms) engine_form.coefficients[term] = factor;
    for (const auto& [slot, factor] : form.slots) engine_form.slot_coefficients[slot] = factor;
    engine_form.half = form.halved;
    if (must) engine_form.window = lengths(*must);
    if (const auto should = as_range(form.should)) engine_form.wish = lengths(*should);
    if (form.target) engine_form.target = quantity::nominal_length(*form.target);
    if (form.target_from)
      if (const auto found = assembly.value(*form.target_from))
        engine_form.target = quantity::nominal_length(*found->value);
    out.problem.forms.push_back(std::move(engine_form));
    out.forms.push_back(&form);
    out.must.push_back(must);
    out.limits.push_back(std::move(limits));
  }
  return out;
}

}  // namespace cotter::plan
