#include "engine/route/aperture_choice.hpp"

#include <algorithm>

#include "quantity/ensure.hpp"

namespace cotter::engine::route {

namespace {

/// With more lines than this in question, real packing is judged by areas alone.
constexpr int k_most_subsets = 8;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

/// Real packing never lets more area through than there is.
Problem by_area(const Problem& problem) {
  Problem relaxed = problem;
  relaxed.rules.pack_permille = 1000;
  relaxed.rules.pull_permille = 1000;
  return relaxed;
}

std::int64_t sum_of(const Offers& offers, LineSet lines) {
  std::int64_t sum = 0;
  for (; lines != 0; lines = without_first(lines)) sum += offers.price[first(lines)];
  return sum;
}

}  // namespace

OpeningCosts opening_costs(const Problem& problem) {
  OpeningCosts costs;
  for (const Aperture& aperture : problem.apertures) {
    costs.by_steps.emplace_back();
    for (int steps = 0; steps <= aperture.enlarge_max; ++steps)
      costs.by_steps.back().push_back(aperture.enlarge_cost * steps);
    costs.second_line.push_back(0);
  }
  return costs;
}

ApertureChoice::ApertureChoice(const Problem& problem, Apertures& apertures, const OpeningCosts& costs,
                               std::int64_t unit)
    : problem_(problem),
      apertures_(apertures),
      costs_(costs),
      unit_(unit),
      table_(problem.rules.packing == Packing::exact ? DensityTable(by_area(problem), apertures)
                                                     : DensityTable(problem, apertures)) {
  std::vector<std::int64_t> all;
  for (const Line& line : problem.lines) all.push_back(line.diameter.base());
  std::sort(all.begin(), all.end());
  for (std::size_t i = 1; i < all.size(); ++i) {
    if (all[i] == all[i - 1] && (diameters_.empty() || diameters_.back() != all[i])) diameters_.push_back(all[i]);
  }
}

std::optional<int> ApertureChoice::least_steps(LineSet lines, int aperture) {
  if (problem_.rules.packing == Packing::exact) return apertures_.least_steps(lines, aperture);
  return table_.least_steps(lines, aperture);
}

std::optional<std::int64_t> ApertureChoice::cost(LineSet lines, int aperture) {
  const auto steps = least_steps(lines, aperture);
  if (!steps) return std::nullopt;
  return costs_.of(aperture, *steps, count(lines));
}

Chosen ApertureChoice::worth(const Offers& offers, LineSet lines) {
  const auto cost = this->cost(lines, offers.aperture);
  quantity::ensure(cost.has_value(), "certain lines do not fit");
  return {sum_of(offers, lines) - unit_ * *cost, lines};
}

Chosen ApertureChoice::best(const Offers& offers) {
  const Chosen least = worth(offers, offers.certain);
  if (offers.others == 0) return least;
  const LineSet all = offers.certain | offers.others;
  const std::int64_t most = sum_of(offers, offers.others);
  if (const auto whole = cost(all, offers.aperture)) {
    const Chosen everything{sum_of(offers, all) - unit_ * *whole, all};
    if (everything.profit == least.profit + most) return everything;
  }
  Chosen best = best_single(offers);
  if (table_.limits(offers.aperture).exclusive) return best;
  const bool exact = problem_.rules.packing == Packing::exact;
  const Chosen several =
      exact && count(offers.others) <= k_most_subsets ? best_by_subsets(offers) : best_by_sums(offers);
  return several.profit > best.profit ? several : best;
}

Chosen ApertureChoice::best_single(const Offers& offers) {
  Chosen best = worth(offers, offers.certain);
  if (offers.certain != 0) return best;
  for (LineSet rest = offers.others; rest != 0; rest = without_first(rest)) {
    const LineSet one = only(first(rest));
    const auto cost = this->cost(one, offers.aperture);
    if (!cost) continue;
    const std::int64_t profit = offers.price[first(rest)] - unit_ * *cost;
    if (profit > best.profit) best = {profit, one};
  }
  return best;
}

Chosen ApertureChoice::best_by_subsets(const Offers& offers) {
  std::vector<int> order = listed(offers.others);
  std::stable_sort(order.begin(), order.end(), [&](int x, int y) { return offers.price[x] > offers.price[y]; });
  Chosen best = worth(offers, offers.certain);
  try_subsets(offers, order, 0, offers.certain, sum_of(offers, offers.others), best);
  return best;
}

void ApertureChoice::try_subsets(const Offers& offers, const std::vector<int>& order, std::size_t next, LineSet chosen,
                                 std::int64_t rest, Chosen& best) {
  const Chosen here = worth(offers, chosen);
  if (here.profit > best.profit) best = here;
  for (; next < order.size() && here.profit + rest > best.profit; ++next) {
    rest -= offers.price[order[next]];
    const LineSet more = chosen | only(order[next]);
    if (least_steps(more, offers.aperture)) try_subsets(offers, order, next + 1, more, rest, best);
  }
}

Chosen ApertureChoice::best_by_sums(const Offers& offers) {
  Chosen best = worth(offers, offers.certain);
  const std::int64_t least_cost = unit_ * costs_.of(offers.aperture, 0, 0);
  int steps = static_cast<int>(table_.limits(offers.aperture).levels.size()) - 1;
  while (steps >= 0) {
    const auto found = best_at(offers, steps);
    if (!found || found->value - least_cost <= best.profit) break;
    // The areas may call for fewer steps than the rules do: that only raises the profit, and stays a bound.
    const int needed = table_.least_steps(found->lines, offers.aperture).value_or(steps);
    const std::int64_t profit = found->value - unit_ * costs_.of(offers.aperture, needed, count(found->lines));
    if (profit > best.profit) best = {profit, found->lines};
    steps = needed - 1;
  }
  return best;
}

std::optional<ApertureChoice::State> ApertureChoice::best_at(const Offers& offers, int steps) {
  const DensityLimits& limits = table_.limits(offers.aperture);
  const DensityLimits::Level& level = limits.levels[index(steps)];
  states_.assign(1, State{0, 0, 0});
  for (const int line : table_.pull_order()) {
    const bool certain = has(offers.certain, line);
    if (!certain && !has(offers.others, line)) continue;
    const int alone = limits.alone[index(line)];
    if (alone < 0 || alone > steps) {
      if (certain) return std::nullopt;
      continue;
    }
    grown_.clear();
    std::size_t kept = 0;
    const auto add = [&](const State& state) {
      if (grown_.empty() || state.value > grown_.back().value) grown_.push_back(state);
    };
    for (const State& state : states_) {
      const std::int64_t sum = state.sum + table_.body(line);
      if (state.sum > 0 && (table_.connector(line) + state.sum > level.pull || sum > level.pack)) break;
      for (; !certain && kept < states_.size() && states_[kept].sum <= sum; ++kept) add(states_[kept]);
      add({sum, state.value + offers.price[line], state.lines | only(line)});
    }
    for (; !certain && kept < states_.size(); ++kept) add(states_[kept]);
    if (grown_.empty()) break;
    std::swap(states_, grown_);
  }
  std::optional<State> best;
  if ((states_.back().lines & offers.certain) == offers.certain) best = states_.back();
  for (const std::int64_t diameter : diameters_) {
    if (!pays_for_equals(offers, steps, diameter)) continue;
    const auto equals = best_of_equals(offers, steps, diameter);
    if (equals && (!best || equals->value > best->value)) best = equals;
  }
  return best;
}

bool ApertureChoice::pays_for_equals(const Offers& offers, int steps, std::int64_t diameter) const {
  if (problem_.rules.packing == Packing::exact) return false;
  const std::int64_t pack = table_.limits(offers.aperture).levels[index(steps)].pack;
  return table_.most_equals(diameter, offers.aperture, steps) * diameter * diameter > pack;
}

std::optional<ApertureChoice::State> ApertureChoice::best_of_equals(const Offers& offers, int steps,
                                                                    std::int64_t diameter) {
  for (LineSet rest = offers.certain; rest != 0; rest = without_first(rest))
    if (table_.diameter(first(rest)) != diameter) return std::nullopt;
  const DensityLimits& limits = table_.limits(offers.aperture);
  const auto most = static_cast<std::int64_t>(table_.most_equals(diameter, offers.aperture, steps));
  std::vector<std::optional<State>> by_count(index(static_cast<int>(most)) + 1);
  by_count[0] = State{0, 0, 0};
  for (const int line : table_.pull_order()) {
    const bool certain = has(offers.certain, line);
    if ((!certain && !has(offers.others, line)) || table_.diameter(line) != diameter) continue;
    const int alone = limits.alone[index(line)];
    const bool passes = alone >= 0 && alone <= steps;
    for (std::int64_t n = most; n >= 0; --n) {
      auto& here = by_count[static_cast<std::size_t>(n)];
      if (certain) here.reset();
      if (n == 0 || !passes) continue;
      const auto& before = by_count[static_cast<std::size_t>(n - 1)];
      const std::int64_t sum = (n - 1) * diameter * diameter;
      if (!before || (sum > 0 && table_.connector(line) + sum > limits.levels[index(steps)].pull)) continue;
      const State grown{n, before->value + offers.price[line], before->lines | only(line)};
      if (!here || grown.value > here->value) here = grown;
    }
  }
  std::optional<State> best;
  for (const auto& state : by_count)
    if (state && (!best || state->value > best->value)) best = state;
  return best;
}

}  // namespace cotter::engine::route
