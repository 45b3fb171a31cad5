#include "engine/fit/bridge/rules.hpp"

#include <algorithm>
#include <span>

#include "engine/fit/judge_parts.hpp"
#include "engine/fit/solve.hpp"
#include "quantity/ensure.hpp"

namespace cotter::engine::fit::bridge {
namespace {

using Side = RuleOperand::Side;

/// The rule as a check of one joint; nothing when a value it needs is not stated.
std::optional<Check> check_of(const Rule& rule, const Meeting& meeting, const std::vector<Kind>& kinds,
                              const FeatureView& own, const FeatureView& other) {
  Check check;
  check.law = rule.law;
  check.must = rule.must;
  for (const RuleOperand& operand : rule.operands) {
    Operand out;
    out.role = operand.role;
    if (operand.side == Side::fixed) {
      out.range = Range(Mixed::from_base(operand.fixed));
      out.dimension = operand.fixed_dimension;
    } else {
      const bool is_own = operand.side == Side::own;
      const Amount& amount = (is_own ? own : other).amounts[operand.dimension];
      if (!amount.stated()) return std::nullopt;
      out.range = {Mixed::from_base(amount.low), Mixed::from_base(amount.high)};
      out.dimension = kinds[is_own ? meeting.own : meeting.other].dimensions[operand.dimension];
      out.attested = amount.attested;
      out.known = amount.known;
    }
    out.nominal = out.range.low().base();
    check.operands.push_back(std::move(out));
  }
  const auto text = [](std::uint32_t word) { return word == 0 ? std::string() : std::to_string(word); };
  for (const RuleWord& word : rule.words)
    check.words[word.role] = {text(own.words[word.own]), text(other.words[word.other])};
  return check;
}

/// Any feature of a kind: only the form of the demands is wanted from it.
Feature sample(std::uint32_t kind, const Kind& stated) {
  return {kind, std::vector<Amount>(stated.dimensions.size(), Amount{1, 1}), std::vector<std::uint32_t>(stated.words)};
}

Wide bounds(const Term& term, const FeatureView& anchor, const FeatureView& candidate, bool best) {
  const Amount& amount = (term.of_candidate ? candidate : anchor).amounts[term.dimension];
  return Wide{term.factor} * ((term.factor > 0) == best ? amount.high : amount.low);
}

bool all_stated(const ReadyDemand& demand, const FeatureView& anchor, const FeatureView& candidate) {
  return std::ranges::all_of(demand.terms, [&](const Term& term) {
    return (term.of_candidate ? candidate : anchor).amounts[term.dimension].stated();
  });
}

Wide extreme(const ReadyDemand& demand, const FeatureView& anchor, const FeatureView& candidate, bool best) {
  Wide sum = demand.constant;
  for (const Term& term : demand.terms) sum += bounds(term, anchor, candidate, best);
  return sum;
}

/// Whether the two bound one sum from below and from above, with room between. The sum takes every value between its
/// extremes, so where each end can be met by itself some value lies between both.
bool ends_of_a_window(const ReadyDemand& a, const ReadyDemand& b) {
  return a.constant + b.constant >= 0 && std::ranges::equal(a.terms, b.terms, [](const Term& one, const Term& other) {
           return one.factor == -other.factor && one.dimension == other.dimension &&
                  one.of_candidate == other.of_candidate;
         });
}

}  // namespace

Rules::Rules(const Catalog& catalog) : catalog_(catalog), by_anchor_(catalog.kinds().size()) {
  for (const Meeting& meeting : catalog.meetings()) {
    by_anchor_[meeting.own].push_back(ready(meeting, true));
    by_anchor_[meeting.other].push_back(ready(meeting, false));
  }
}

const ReadyMeeting* Rules::find(std::uint32_t anchor_kind, std::uint32_t candidate_kind) const {
  const auto& all = by_anchor_[anchor_kind];
  const auto found = std::ranges::find(all, candidate_kind, &ReadyMeeting::candidate_kind);
  return found == all.end() ? nullptr : &*found;
}

ReadyMeeting Rules::ready(const Meeting& meeting, bool anchor_is_own) const {
  ReadyMeeting out;
  out.candidate_kind = anchor_is_own ? meeting.other : meeting.own;
  out.meeting = &meeting;
  out.anchor_is_own = anchor_is_own;
  for (const Rule& rule : meeting.rules) add_rule(rule, out);
  return out;
}

void Rules::add_rule(const Rule& rule, ReadyMeeting& out) const {
  const Meeting& meeting = *out.meeting;
  for (const RuleWord& word : rule.words)
    out.words.push_back(out.anchor_is_own ? ReadyWord{word.own, word.other} : ReadyWord{word.other, word.own});
  const Feature own = sample(meeting.own, catalog_.kinds()[meeting.own]);
  const Feature other = sample(meeting.other, catalog_.kinds()[meeting.other]);
  const auto check = check_of(rule, meeting, catalog_.kinds(), view(own), view(other));
  quantity::ensure(check.has_value() && faults(*check).empty(), "a rule of the bridge has faults");
  const auto demands = linear_demands(*check);
  // A factor that is itself a dimension of a part changes with the part.
  const std::string_view parameter = law_spec(rule.law).parameter;
  const bool varies = std::ranges::any_of(rule.operands, [&](const RuleOperand& operand) {
    return operand.role == parameter && operand.side != Side::fixed;
  });
  if (!demands || varies) {
    out.complete = out.demands_decide = false;
    return;
  }
  for (const Linear& linear : *demands) {
    ReadyDemand demand;
    demand.constant = linear.constant;
    for (const RuleOperand& operand : rule.operands) {
      const auto role = role_index(law_spec(rule.law), operand.role);
      if (!role || linear.factors[*role] == 0) continue;
      const std::int64_t factor = linear.factors[*role];
      if (operand.side == Side::fixed)
        demand.constant += Wide{factor} * operand.fixed;
      else
        demand.terms.push_back({factor, operand.dimension, (operand.side == Side::own) != out.anchor_is_own});
    }
    out.demands.push_back(std::move(demand));
  }
  const std::span<const ReadyDemand> own_demands = std::span(out.demands).last(demands->size());
  if (own_demands.size() > 2 || (own_demands.size() == 2 && !ends_of_a_window(own_demands[0], own_demands[1])))
    out.demands_decide = false;
}

bool Rules::certain(const ReadyMeeting& meeting, const FeatureView& anchor, const FeatureView& candidate) const {
  for (const ReadyWord& word : meeting.words) {
    const std::uint32_t a = anchor.words[word.anchor];
    if (a == 0 || a != candidate.words[word.candidate]) return false;
  }
  for (const ReadyDemand& demand : meeting.demands)
    if (!all_stated(demand, anchor, candidate) || extreme(demand, anchor, candidate, false) < 0) return false;
  return meeting.complete || judged(meeting, anchor, candidate).certainty == Certainty::holds;
}

bool Rules::possible(const ReadyMeeting& meeting, const FeatureView& anchor, const FeatureView& candidate) const {
  for (const ReadyWord& word : meeting.words) {
    const std::uint32_t a = anchor.words[word.anchor];
    const std::uint32_t b = candidate.words[word.candidate];
    if (a != 0 && b != 0 && a != b) return false;
  }
  for (const ReadyDemand& demand : meeting.demands)
    if (all_stated(demand, anchor, candidate) && extreme(demand, anchor, candidate, true) < 0) return false;
  // Other demands that can each be met may still exclude one another.
  return meeting.demands_decide || judged(meeting, anchor, candidate).certainty != Certainty::fails;
}

Joint Rules::judged(const ReadyMeeting& meeting, const FeatureView& anchor, const FeatureView& candidate) const {
  const FeatureView& own = meeting.anchor_is_own ? anchor : candidate;
  const FeatureView& other = meeting.anchor_is_own ? candidate : anchor;
  Joint joint;
  joint.certainty = Certainty::holds;
  for (const Rule& rule : meeting.meeting->rules) {
    RuleState state;
    if (const auto check = check_of(rule, *meeting.meeting, catalog_.kinds(), own, other)) {
      const CheckResult result = judge(*check);
      state.certainty = result.must;
      state.dimension = result.dimension;
      if (result.governs != Edge::none) state.margin = result.margin;
      joint.attested = joint.attested && result.rests_on.empty();
    } else {
      joint.attested = false;
    }
    joint.certainty = both(joint.certainty, state.certainty);
    joint.rules.push_back(state);
  }
  return joint;
}

}  // namespace cotter::engine::fit::bridge
