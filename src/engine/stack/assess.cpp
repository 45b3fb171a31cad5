#include "engine/stack/assess.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "quantity/distribution.hpp"

namespace cotter::engine::stack {
namespace {

using Whole = std::int64_t;

bool all_known(const LinearForm& form, const std::vector<Term>& terms) {
  return std::all_of(form.factors.begin(), form.factors.end(), [&](const Factor& factor) {
    const Term& term = terms[factor.term];
    return term.known || term.interval.width() == Length{};
  });
}

RootSumSquare root_sum_square(const LinearForm& form, Interval<Length> range, const std::vector<Term>& terms) {
  double squares = 0;
  for (const Factor& factor : form.factors) {
    const double width = static_cast<double>(in_nanometres(terms[factor.term].interval.width() * factor.factor));
    squares += width * width;
  }
  const double twice = 2.0 * static_cast<double>(form.divisor);
  const double ends = static_cast<double>(in_nanometres(range.low() + range.high()));
  return {ends / twice, std::sqrt(squares) / twice};
}

/// A form decided for certain needs no distribution; an open one needs every term to have one.
std::optional<Probability> probability(const LinearForm& form, Length added, Certainty status,
                                       const std::vector<Term>& terms) {
  if (status == Certainty::holds) return Probability{1};
  if (status == Certainty::fails) return Probability{0};
  if (!all_known(form, terms)) return std::nullopt;
  std::vector<Interval<Length>> summands{Interval<Length>(added)};
  for (const Factor& factor : form.factors) summands.push_back(scaled(terms[factor.term].interval, factor.factor));
  const auto sum = quantity::UniformSum::of(summands);
  if (!sum) return std::nullopt;
  return Probability{sum->probability_within(*form.window)};
}

Margin margin(Interval<Length> range, Interval<Length> window, Whole divisor) {
  const Length below = range.low() - window.low();
  const Length above = window.high() - range.high();
  const bool low_governs = below <= above;
  return {divided_down(low_governs ? below : above, divisor), low_governs ? Edge::low : Edge::high};
}

/// Whole numbers in both [a, b] and [c, d]; an interval with swapped ends is empty.
Whole overlap(Whole a, Whole b, Whole c, Whole d) {
  return std::max<Whole>(0, std::min(b, d) - std::max(a, c) + 1);
}

/// How many values of the term's share `own` of the form leave the form open, the other terms being what they are.
Whole open_values(Interval<Length> range, Interval<Length> own, Interval<Length> window) {
  const Whole rest_low = in_nanometres(range.low() - own.low());
  const Whole rest_high = in_nanometres(range.high() - own.high());
  const Whole first_not_failing = in_nanometres(window.low()) - rest_high;
  const Whole last_not_failing = in_nanometres(window.high()) - rest_low;
  const Whole first_holding = in_nanometres(window.low()) - rest_low;
  const Whole last_holding = in_nanometres(window.high()) - rest_high;
  const Whole low = in_nanometres(own.low());
  const Whole high = in_nanometres(own.high());
  return overlap(low, high, first_not_failing, last_not_failing) - overlap(low, high, first_holding, last_holding);
}

bool more_telling(const Influence& a, const Influence& b) {
  return std::tuple(-a.settled_share, -a.share, a.term) < std::tuple(-b.settled_share, -b.share, b.term);
}

std::vector<Influence> influences(const LinearForm& form, Interval<Length> range, const std::vector<Term>& terms) {
  std::vector<Influence> list;
  for (const Factor& factor : form.factors) {
    const Interval<Length> own = scaled(terms[factor.term].interval, factor.factor);
    if (own.width() == Length{}) continue;
    Influence influence{.term = factor.term};
    influence.share =
        static_cast<double>(in_nanometres(own.width())) / static_cast<double>(in_nanometres(range.width()));
    if (form.window) {
      const Whole values = in_nanometres(own.width()) + 1;
      const Whole open = open_values(range, own, *form.window);
      influence.settled_share = static_cast<double>(values - open) / static_cast<double>(values);
      influence.settles = open == 0 ? Settles::always : open == values ? Settles::never : Settles::sometimes;
    }
    list.push_back(influence);
  }
  std::sort(list.begin(), list.end(), more_telling);
  return list;
}

}  // namespace

Length divided_down(Length undivided, std::int64_t divisor) {
  const Whole whole = in_nanometres(undivided);
  const Whole quotient = whole / divisor;
  return quantity::nanometres(whole % divisor < 0 ? quotient - 1 : quotient);
}

Length divided_up(Length undivided, std::int64_t divisor) {
  return -divided_down(-undivided, divisor);
}

Length added_by(const std::vector<Use>& uses, const LinearForm& form, const std::vector<Piece>& kit) {
  Length added;
  for (const Use& use : uses) added += kit[use.piece].thickness * (use.count * form.slot_factors[use.slot]);
  return added;
}

Outlook outlook(const LinearForm& form, Length added, const std::vector<Term>& terms) {
  const Interval<Length> range = form.range + Interval<Length>(added);
  Outlook seen;
  seen.worst_case.range = {divided_down(range.low(), form.divisor), divided_up(range.high(), form.divisor)};
  if (form.window) seen.probability = probability(form, added, within(range, *form.window), terms);
  return seen;
}

FormState assess(const LinearForm& form, Length added, const std::vector<Term>& terms) {
  const Interval<Length> range = form.range + Interval<Length>(added);
  FormState state;
  state.nominal = divided_down(form.nominal + added, form.divisor);
  state.worst_case.range = {divided_down(range.low(), form.divisor), divided_up(range.high(), form.divisor)};
  if (all_known(form, terms)) state.root_sum_square = root_sum_square(form, range, terms);
  if (form.wish) state.wish = within(range, *form.wish);
  if (form.window) {
    state.status = within(range, *form.window);
    state.probability = probability(form, added, *state.status, terms);
    state.margin = margin(range, *form.window, form.divisor);
  }
  state.influences = influences(form, range, terms);
  return state;
}

std::vector<Measurement> measurements(const std::vector<FormState>& states) {
  std::map<std::size_t, Measurement> by_term;
  for (std::size_t form = 0; form < states.size(); ++form) {
    if (states[form].status != Certainty::open) continue;
    for (const Influence& influence : states[form].influences) {
      Measurement& measurement = by_term[influence.term];
      measurement.term = influence.term;
      measurement.share = std::max(measurement.share, influence.share);
      measurement.settled_share = std::max(measurement.settled_share, influence.settled_share);
      if (influence.settles == Settles::always) measurement.settles.push_back(form);
      if (influence.settles == Settles::sometimes) measurement.may_settle.push_back(form);
    }
  }
  std::vector<Measurement> list;
  for (const auto& [term, measurement] : by_term) list.push_back(measurement);
  std::stable_sort(list.begin(), list.end(), [](const Measurement& a, const Measurement& b) {
    return std::tuple(a.settles.size(), a.settled_share, a.share) >
           std::tuple(b.settles.size(), b.settled_share, b.share);
  });
  return list;
}

}  // namespace cotter::engine::stack
