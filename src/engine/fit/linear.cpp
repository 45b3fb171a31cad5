#include "engine/fit/linear.hpp"

#include <algorithm>

#include "quantity/ensure.hpp"

namespace cotter::engine::fit {
namespace {

/// Part of the numerator that one role brings at its worse (`better` false) or better end.
Wide share_of(const Linear& linear, const Box& box, std::size_t role, bool better) {
  const Wide factor = linear.factors[role];
  return factor * ((factor > 0) == better ? box.high[role] : box.low[role]);
}

Wide extreme(const Linear& linear, const Box& box, bool better) {
  Wide sum = linear.constant;
  for (std::size_t role = 0; role < linear.factors.size(); ++role) sum += share_of(linear, box, role, better);
  return sum;
}

Wide floor_wide(Wide numerator, Wide divisor) {
  const Wide quotient = numerator / divisor;
  return numerator % divisor != 0 && (numerator < 0) != (divisor < 0) ? quotient - 1 : quotient;
}

struct Bounds {
  Wide low = -k_open_end;
  Wide high = k_open_end;

  /// Narrows to the values of the role for which the demand is met when the others bring `rest`.
  void narrow(Wide factor, Wide rest) {
    if (factor > 0) low = std::max(low, -floor_wide(rest, factor));
    if (factor < 0) high = std::min(high, floor_wide(rest, -factor));
    if (factor == 0 && rest < 0) low = high + 1;
  }

  std::optional<Range> range() const {
    if (low > high) return std::nullopt;
    return Range(Mixed::from_base(static_cast<std::int64_t>(low)), Mixed::from_base(static_cast<std::int64_t>(high)));
  }
};

void narrow_by(Bounds& bounds, const std::vector<Linear>& demands, const Box& box, std::size_t role, bool better) {
  for (const Linear& demand : demands)
    bounds.narrow(demand.factors[role], extreme(demand, box, better) - share_of(demand, box, role, better));
}

}  // namespace

Linear linear_of(const Form& form) {
  return {form.factors, form.constant, form.divisor, Edge::none};
}

Linear negated(Linear linear) {
  for (std::int64_t& factor : linear.factors) factor = -factor;
  linear.constant = -linear.constant;
  return linear;
}

Linear mean(const Linear& a, const Linear& b) {
  Linear sum = a;
  for (std::size_t i = 0; i < sum.factors.size(); ++i)
    sum.factors[i] = a.factors[i] * b.divisor + b.factors[i] * a.divisor;
  sum.constant = a.constant * b.divisor + b.constant * a.divisor;
  sum.divisor = 2 * a.divisor * b.divisor;
  return sum;
}

Wide least(const Linear& linear, const Box& box) {
  return extreme(linear, box, false);
}

Wide greatest(const Linear& linear, const Box& box) {
  return extreme(linear, box, true);
}

std::int64_t floor_ratio(Wide numerator, std::int64_t divisor) {
  return static_cast<std::int64_t>(floor_wide(numerator, divisor));
}

std::int64_t ceil_ratio(Wide numerator, std::int64_t divisor) {
  return static_cast<std::int64_t>(-floor_wide(-numerator, divisor));
}

void Demands::add(Linear demand) {
  for (const Linear& other : each_) means_.push_back(mean(other, demand));
  each_.push_back(std::move(demand));
}

Certainty Demands::certainty(const Box& box) const {
  const auto met_at_worst = [&](const Linear& demand) { return least(demand, box) >= 0; };
  const auto missed_at_best = [&](const Linear& demand) { return greatest(demand, box) < 0; };
  if (std::ranges::all_of(each_, met_at_worst)) return Certainty::holds;
  const bool fails = std::ranges::any_of(each_, missed_at_best) || std::ranges::any_of(means_, missed_at_best);
  return fails ? Certainty::fails : Certainty::open;
}

bool Demands::fails_at(Edge edge, const Box& box) const {
  std::size_t pair = 0;
  for (std::size_t j = 0; j < each_.size(); ++j) {
    if (each_[j].edge == edge && greatest(each_[j], box) < 0) return true;
    for (std::size_t i = 0; i < j; ++i, ++pair)
      if ((each_[i].edge == edge || each_[j].edge == edge) && greatest(means_[pair], box) < 0 &&
          greatest(each_[i], box) >= 0 && greatest(each_[j], box) >= 0)
        return true;
  }
  return false;
}

std::optional<Range> Demands::holds(std::size_t role, const Box& box) const {
  Bounds bounds;
  narrow_by(bounds, each_, box, role, false);
  return bounds.range();
}

std::optional<Range> Demands::may_hold(std::size_t role, const Box& box) const {
  Bounds bounds;
  narrow_by(bounds, each_, box, role, true);
  narrow_by(bounds, means_, box, role, true);
  return bounds.range();
}

}  // namespace cotter::engine::fit
