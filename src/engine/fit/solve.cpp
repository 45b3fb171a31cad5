#include "engine/fit/solve.hpp"

#include <algorithm>
#include <cmath>

#include "engine/fit/judge_parts.hpp"
#include "engine/fit/linear.hpp"
#include "quantity/distribution.hpp"
#include "quantity/ensure.hpp"
#include "quantity/text.hpp"

namespace cotter::engine::fit {
namespace {

/// A check with its operands in the order of the law's roles.
struct Case {
  const Check& check;
  const LawSpec& spec;
  std::vector<const Operand*> operands;
  Box box;
  std::vector<Linear> number;
};

Case arrange(const Check& check) {
  Case arranged{check, law_spec(check.law), {}, {}, {}};
  for (const RoleSpec& role : arranged.spec.roles) {
    const auto found = std::ranges::find(check.operands, role.name, &Operand::role);
    arranged.operands.push_back(&*found);
    arranged.box.low.push_back(found->range.low().base());
    arranged.box.high.push_back(found->range.high().base());
  }
  for (const Form& form : arranged.spec.number) arranged.number.push_back(linear_of(form));
  return arranged;
}

Window effective_must(const Case& arranged) {
  Window must = arranged.check.must;
  const Unwindowed rule = arranged.spec.unwindowed;
  const Mixed zero = Mixed::from_base(0);
  if (rule == Unwindowed::at_least_zero && !must.low) must.low = zero;
  if (rule == Unwindowed::zero && !must.low && !must.high) must.low = must.high = zero;
  return must;
}

/// The window as demands. The upper end of "the least of two" is no linear demand: see `upper_of_least`.
void add_window(Demands& demands, const Case& arranged, const Window& window) {
  for (Linear form : arranged.number) {
    if (window.low) {
      Linear demand = form;
      demand.constant -= Wide{window.low->base()} * demand.divisor;
      demand.edge = Edge::from;
      demands.add(demand);
    }
    if (window.high && arranged.number.size() == 1) {
      Linear demand = negated(form);
      demand.constant += Wide{window.high->base()} * demand.divisor;
      demand.edge = Edge::to;
      demands.add(demand);
    }
  }
}

void add_fixed_demands(Demands& demands, const Case& arranged) {
  for (const Demand& fixed : arranged.spec.demands) {
    Linear demand = linear_of(fixed.form);
    demand.edge = fixed.edge;
    if (fixed.multiplied) demand.factors[*fixed.multiplied] *= *parameter_of(arranged.check, arranged.spec);
    demands.add(demand);
  }
}

/// The window that a reader is shown: the stated one narrowed by the law's own demands at their worst.
Window asked_window(const Case& arranged, Window window) {
  if (arranged.number.size() != 1) return window;
  const Linear& number = arranged.number.front();
  Demands own;
  add_fixed_demands(own, arranged);
  for (const Linear& demand : own.each()) {
    const std::int64_t sign = demand.edge == Edge::from ? -1 : 1;
    Linear limit = number;
    limit.divisor = number.divisor * demand.divisor;
    limit.constant = number.constant * demand.divisor + Wide{sign} * demand.constant * number.divisor;
    for (std::size_t role = 0; role < limit.factors.size(); ++role)
      limit.factors[role] = number.factors[role] * demand.divisor + sign * demand.factors[role] * number.divisor;
    if (demand.edge == Edge::from) {
      const Mixed low = Mixed::from_base(ceil_ratio(greatest(limit, arranged.box), limit.divisor));
      window.low = window.low ? std::max(*window.low, low) : low;
    } else if (demand.edge == Edge::to) {
      const Mixed high = Mixed::from_base(floor_ratio(least(limit, arranged.box), limit.divisor));
      window.high = window.high ? std::min(*window.high, high) : high;
    }
  }
  return window;
}

Linear difference_of(const Case& arranged, std::size_t plus, std::size_t minus, std::int64_t constant) {
  Linear linear;
  linear.factors.assign(arranged.spec.roles.size(), 0);
  linear.factors[plus] = 1;
  linear.factors[minus] = -1;
  linear.constant = constant;
  return linear;
}

/// Adds what keeps two operands equal, and lists those that cannot be.
void add_equalities(Demands& demands, const Case& arranged, CheckResult& result) {
  for (const Equality& equality : arranged.spec.equalities) {
    Demands alone;
    alone.add(difference_of(arranged, equality.own, equality.other, equality.tolerance));
    alone.add(difference_of(arranged, equality.other, equality.own, equality.tolerance));
    for (const Linear& demand : alone.each()) demands.add(demand);
    if (alone.certainty(arranged.box) != Certainty::fails) continue;
    const auto text = [](const Operand& operand) { return quantity::print_amount(operand.nominal, operand.dimension); };
    result.mismatches.push_back(
        {std::string(equality.name), text(*arranged.operands[equality.own]), text(*arranged.operands[equality.other])});
  }
}

/// The least of two linear numbers is greatest where they meet, when they share an operand with opposite signs.
Linear best_of(const Case& arranged) {
  const auto above = [&](const Linear& a, const Linear& b) {
    return greatest(a, arranged.box) * b.divisor < greatest(b, arranged.box) * a.divisor;
  };
  Linear best = std::ranges::min(arranged.number, above);
  if (arranged.number.size() == 2) best = std::min(best, mean(arranged.number[0], arranged.number[1]), above);
  return best;
}

Range range_of(const Case& arranged) {
  std::int64_t low = floor_ratio(least(arranged.number.front(), arranged.box), arranged.number.front().divisor);
  for (const Linear& form : arranged.number) low = std::min(low, floor_ratio(least(form, arranged.box), form.divisor));
  const Linear best = best_of(arranged);
  return {Mixed::from_base(low), Mixed::from_base(ceil_ratio(greatest(best, arranged.box), best.divisor))};
}

/// Upper end of a window on the least of two numbers; none where it is a demand already.
std::optional<Linear> upper_of_least(const Case& arranged, const Window& window) {
  if (arranged.number.size() < 2 || !window.high) return std::nullopt;
  Linear room = negated(best_of(arranged));
  room.constant += Wide{window.high->base()} * room.divisor;
  room.edge = Edge::to;
  return room;
}

Certainty certainty_of_upper(const Case& arranged, const Window& window) {
  const auto room = upper_of_least(arranged, window);
  if (!room || least(*room, arranged.box) >= 0) return Certainty::holds;
  const bool above = std::ranges::all_of(arranged.number, [&](const Linear& form) {
    return least(form, arranged.box) > Wide{window.high->base()} * form.divisor;
  });
  return above ? Certainty::fails : Certainty::open;
}

Certainty compare_words(const Case& arranged, CheckResult& result) {
  Certainty certainty = Certainty::holds;
  for (const WordSpec& spec : arranged.spec.words) {
    const auto found = arranged.check.words.find(std::string(spec.name));
    if (found == arranged.check.words.end()) continue;
    const auto& [own, other] = found->second;
    if (own.empty() || other.empty()) {
      result.unknown_words.emplace_back(spec.name);
      certainty = both(certainty, Certainty::open);
    } else if (own != other) {
      result.mismatches.push_back({found->first, own, other});
      certainty = Certainty::fails;
    }
  }
  return certainty;
}

void set_margin(const Case& arranged, const Demands& demands, const Window& must, CheckResult& result) {
  std::vector<Linear> edges = demands.each();
  if (const auto upper = upper_of_least(arranged, must)) edges.push_back(*upper);
  for (const Linear& demand : edges) {
    if (demand.edge == Edge::none) continue;
    const std::int64_t margin = floor_ratio(least(demand, arranged.box), demand.divisor);
    if (result.governs != Edge::none && margin >= result.margin) continue;
    result.margin = margin;
    result.governs = demand.edge;
  }
}

/// Part of the width of all demands that each role brings.
std::vector<double> shares_of(const Case& arranged, const Demands& demands) {
  const std::vector<Linear>& forms = demands.each().empty() ? arranged.number : demands.each();
  std::vector<double> widths(arranged.operands.size(), 0.0);
  double total = 0;
  for (const Linear& form : forms)
    for (std::size_t role = 0; role < widths.size(); ++role) {
      const double factor = std::abs(static_cast<double>(form.factors[role])) / static_cast<double>(form.divisor);
      const double width = factor * static_cast<double>(arranged.box.high[role] - arranged.box.low[role]);
      widths[role] += width;
      total += width;
    }
  if (total > 0)
    for (double& width : widths) width /= total;
  return widths;
}

void set_influences(const Case& arranged, Demands demands, const Window& must, CheckResult& result) {
  const std::vector<double> shares = shares_of(arranged, demands);
  const Demands possible = demands;
  if (upper_of_least(arranged, must))
    // Where either number may keep the upper end, `holds` asks it of both: a part of the true range, never more.
    for (const Linear& form : arranged.number) {
      Linear demand = negated(form);
      demand.constant += Wide{must.high->base()} * form.divisor;
      demands.add(demand);
    }
  for (std::size_t role = 0; role < arranged.operands.size(); ++role)
    result.influences.push_back({arranged.operands[role]->role, demands.holds(role, arranged.box),
                                 possible.may_hold(role, arranged.box), shares[role]});
}

std::optional<double> probability_of(const Case& arranged, const Window& must) {
  const LawSpec& spec = arranged.spec;
  if (spec.number.size() != 1 || !spec.demands.empty() || !spec.equalities.empty()) return std::nullopt;
  if (!must.low && !must.high) return std::nullopt;
  std::vector<quantity::Interval<quantity::Length>> terms;
  const Form& number = spec.number.front();
  for (std::size_t role = 0; role < arranged.operands.size(); ++role) {
    if (!arranged.operands[role]->known) return std::nullopt;
    const std::int64_t factor = number.factors[role];
    const auto a = quantity::nanometres(factor * arranged.box.low[role]);
    const auto b = quantity::nanometres(factor * arranged.box.high[role]);
    terms.emplace_back(std::min(a, b), std::max(a, b));
  }
  const auto sum = quantity::UniformSum::of(terms);
  if (!sum) return std::nullopt;
  const auto end = [&](Mixed amount) { return quantity::nanometres(amount.base() * number.divisor - number.constant); };
  const auto low = must.low ? end(*must.low) : std::min(sum->support().low(), end(*must.high));
  const auto high = must.high ? end(*must.high) : std::max(sum->support().high(), low);
  // A rule's own window and the law's may leave nothing between them.
  if (high < low) return 0;
  return sum->probability_within({low, high});
}

Dimension dimension_of(const Case& arranged) {
  for (std::size_t role = 0; role < arranged.operands.size(); ++role)
    if (arranged.number.front().factors[role] != 0) return arranged.operands[role]->dimension;
  return Dimension::length;
}

void judge_number(const Case& arranged, CheckResult& result) {
  const Window must = effective_must(arranged);
  Demands demands;
  add_window(demands, arranged, must);
  add_fixed_demands(demands, arranged);
  add_equalities(demands, arranged, result);

  const Certainty upper = certainty_of_upper(arranged, must);
  result.must = both(result.must, both(demands.certainty(arranged.box), upper));
  result.too_low = demands.fails_at(Edge::from, arranged.box);
  result.too_high = demands.fails_at(Edge::to, arranged.box) || upper == Certainty::fails;
  result.result = range_of(arranged);
  result.dimension = dimension_of(arranged);
  result.asked = asked_window(arranged, must);
  set_margin(arranged, demands, must, result);
  set_influences(arranged, demands, must, result);

  Demands wish;
  add_window(wish, arranged, arranged.check.should);
  result.should = both(wish.certainty(arranged.box), certainty_of_upper(arranged, arranged.check.should));
  if (result.mismatches.empty() && result.unknown_words.empty()) result.probability = probability_of(arranged, must);
}

}  // namespace

std::optional<std::vector<Linear>> linear_demands(const Check& check) {
  const Case arranged = arrange(check);
  if (arranged.number.empty()) return std::vector<Linear>{};
  const Window must = effective_must(arranged);
  if (upper_of_least(arranged, must)) return std::nullopt;
  Demands demands;
  CheckResult unused;
  add_window(demands, arranged, must);
  add_fixed_demands(demands, arranged);
  add_equalities(demands, arranged, unused);
  return demands.each();
}

CheckResult judge(const Check& check) {
  quantity::ensure(faults(check).empty(), "a check was judged that has faults");
  const Case arranged = arrange(check);
  CheckResult result;
  result.id = check.id;
  result.formula = arranged.spec.formula;
  for (const Operand* operand : arranged.operands)
    if (!operand->attested) result.rests_on.push_back(operand->role);
  result.must = compare_words(arranged, result);
  result.should = Certainty::holds;
  if (!arranged.number.empty()) judge_number(arranged, result);
  return result;
}

Result solve(const Problem& problem) {
  Result result;
  for (const Check& check : problem.checks) result.checks.push_back(judge(check));
  return result;
}

}  // namespace cotter::engine::fit
