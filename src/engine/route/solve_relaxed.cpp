#include "engine/route/solve_relaxed.hpp"

#include <algorithm>
#include <utility>

#include "engine/route/search.hpp"
#include "engine/route/solve.hpp"

namespace cotter::engine::route {

namespace {

/// Longer than any way.
constexpr std::int64_t k_any_length = 100'000'000;

/// Weighed costs stay below this, so that a thousand times as much fits into 64 bits.
constexpr std::int64_t k_most_weighed = 1'000'000'000'000'000;

/// What one item of relief may cost at first; doubled as long as there is no plan.
constexpr std::int64_t k_first_cap = 8;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

/// The problem with everything allowed that could give way, and what each of it costs.
class Eased {
 public:
  Eased(const Problem& problem, Relief relief, std::int64_t way_limit)
      : problem_(problem), relief_(std::move(relief)), eased_(problem) {
    relief_.apertures.resize(problem.apertures.size());
    relief_.lines.resize(problem.lines.size());
    for (std::size_t a = 0; a < problem.apertures.size(); ++a) {
      eased_.apertures[a].enlarge_max += relief_.apertures[a].extra_steps;
      if (shares(a)) eased_.apertures[a].kind = ApertureKind::shared;
    }
    list_all_ways(way_limit);
    weigh();
  }

  SearchOutcome search_best(std::int64_t node_limit) const {
    Apertures apertures(eased_);
    return search(eased_, apertures, costs_, ways_, all_lines(problem_.lines.size()), Aim::best_plan, node_limit);
  }

  /// All costs, with their weight, can be summed up in price units.
  bool can_be_weighed() const {
    std::int64_t most = 1;
    for (const ApertureRelief& aperture : relief_.apertures)
      most += aperture.extra_cost * aperture.extra_steps + aperture.share_cost.value_or(0);
    for (const LineRelief& line : relief_.lines)
      most += std::max(line.drop_cost.value_or(0), line.length_cost.value_or(0));
    return most <= k_most_weighed / weight_;
  }

  std::int64_t relax_cost(const Plan& plan) const { return plan.cost / weight_; }
  bool complete() const { return complete_; }

  void grant(const Plan& plan, RelaxedResult& result) const {
    result.relax_cost = relax_cost(plan);
    result.granted = problem_;
    grant_apertures(plan, result);
    result.granted.lines.clear();
    for (std::size_t k = 0; k < problem_.lines.size(); ++k) grant_line(ways_[plan.ways[k].value()], result);
  }

 private:
  bool shares(std::size_t a) const {
    return problem_.apertures[a].kind == ApertureKind::exclusive && relief_.apertures[a].share_cost.has_value();
  }
  bool is_dropped(const Way& way) const { return way.seats[0] == k_any_seat; }
  bool is_waived(const Way& way) const {
    return !is_dropped(way) && !length_for(problem_.lines[index(way.line)], way.length);
  }

  void list_all_ways(std::int64_t way_limit) {
    Problem endless = eased_;
    for (Line& line : endless.lines) {
      line.lengths.clear();
      line.cut_max = k_any_length;
    }
    Apertures apertures(eased_);
    for (int line = 0; line < static_cast<int>(problem_.lines.size()); ++line) {
      const LineRelief& relief = relief_.lines[index(line)];
      add(list_ways(eased_, apertures, only(line), way_limit), false);
      if (relief.length_cost) add(list_ways(endless, apertures, only(line), way_limit), true);
      if (relief.drop_cost)
        ways_.push_back({.line = line, .seats = {k_any_seat, k_any_seat}, .path = {}, .apertures = {}});
    }
  }

  void add(Ways ways, bool only_waived) {
    complete_ = complete_ && ways.complete;
    for (Way& way : ways.list)
      if (!only_waived || is_waived(way)) ways_.push_back(std::move(way));
  }

  /// Makes one unit of relief dearer than the whole of any plan.
  void weigh() {
    std::vector<std::int64_t> dearest(problem_.lines.size());
    for (const Way& way : ways_) dearest[index(way.line)] = std::max(dearest[index(way.line)], way.cost);
    for (const std::int64_t cost : dearest) weight_ += cost;
    for (const Aperture& aperture : problem_.apertures) weight_ += aperture.enlarge_cost * aperture.enlarge_max;
    for (const Device& device : problem_.devices) {
      std::int64_t most = 0;
      for (const Seat& seat : device.seats) most = std::max(most, seat.cost);
      weight_ += most;
    }
    if (!can_be_weighed()) return;
    for (Way& way : ways_) {
      const LineRelief& relief = relief_.lines[index(way.line)];
      way.cost += weight_ * (is_dropped(way) ? *relief.drop_cost : is_waived(way) ? *relief.length_cost : 0);
    }
    std::stable_sort(ways_.begin(), ways_.end(),
                     [](const Way& x, const Way& y) { return x.line != y.line ? x.line < y.line : x.cost < y.cost; });
    for (std::size_t a = 0; a < problem_.apertures.size(); ++a) weigh_aperture(a);
  }

  void weigh_aperture(std::size_t a) {
    const Aperture& aperture = problem_.apertures[a];
    costs_.by_steps.emplace_back();
    for (int steps = 0; steps <= eased_.apertures[a].enlarge_max; ++steps) {
      const int extra = std::max(0, steps - aperture.enlarge_max);
      costs_.by_steps.back().push_back(aperture.enlarge_cost * (steps - extra) +
                                       weight_ * relief_.apertures[a].extra_cost * extra);
    }
    costs_.second_line.push_back(shares(a) ? weight_ * *relief_.apertures[a].share_cost : 0);
  }

  void grant_apertures(const Plan& plan, RelaxedResult& result) const {
    const std::vector<LineSet> users = users_of(problem_, ways_, plan);
    for (std::size_t a = 0; a < users.size(); ++a) {
      Aperture& granted = result.granted.apertures[a];
      const int extra = std::max(0, plan.steps[a] - granted.enlarge_max);
      result.extra_steps.push_back(extra);
      granted.opening = enlarged(granted, extra);
      if (count(users[a]) < 2 || !shares(a)) continue;
      granted.kind = ApertureKind::shared;
      result.shared.push_back(static_cast<int>(a));
    }
  }

  void grant_line(const Way& way, RelaxedResult& result) const {
    if (is_dropped(way)) {
      result.dropped.push_back(way.line);
      return;
    }
    Line line = problem_.lines[index(way.line)];
    if (is_waived(way)) {
      result.waived.push_back(way.line);
      line.lengths.clear();
      line.cut_max = way.length + line.min_slack;
    }
    result.granted.lines.push_back(std::move(line));
  }

  const Problem& problem_;
  Relief relief_;
  Problem eased_;
  OpeningCosts costs_;
  std::vector<Way> ways_;
  bool complete_ = true;
  std::int64_t weight_ = 1;
};

/// The relief of which no single item costs more than `most`.
Relief capped(const Relief& relief, std::int64_t most) {
  Relief left = relief;
  const auto cap = [&](std::optional<std::int64_t>& cost) {
    if (cost && *cost > most) cost.reset();
  };
  for (ApertureRelief& aperture : left.apertures) {
    if (aperture.extra_cost > 0)
      aperture.extra_steps = static_cast<int>(std::min<std::int64_t>(aperture.extra_steps, most / aperture.extra_cost));
    cap(aperture.share_cost);
  }
  for (LineRelief& line : left.lines) {
    cap(line.drop_cost);
    cap(line.length_cost);
  }
  return left;
}

std::int64_t dearest_item(const Relief& relief) {
  std::int64_t most = 0;
  for (const ApertureRelief& aperture : relief.apertures)
    most = std::max({most, aperture.extra_cost * aperture.extra_steps, aperture.share_cost.value_or(0)});
  for (const LineRelief& line : relief.lines)
    most = std::max({most, line.drop_cost.value_or(0), line.length_cost.value_or(0)});
  return most;
}

}  // namespace

RelaxedResult solve_relaxed(const Problem& problem, const Relief& relief, const Options& options) {
  RelaxedResult result;
  result.faults = faults_in(problem);
  if (!result.faults.empty()) return result;
  const std::int64_t dearest = dearest_item(relief);
  for (std::int64_t most = std::min(k_first_cap, dearest);; most = std::min(most, dearest)) {
    const Eased eased(problem, capped(relief, most), options.way_limit);
    if (!eased.can_be_weighed()) {
      result.faults = {{"costs_too_large", "relax"}};
      break;
    }
    const SearchOutcome outcome = eased.search_best(std::max<std::int64_t>(1, options.node_limit - result.nodes));
    result.nodes += outcome.nodes;
    const bool proven = outcome.complete && eased.complete();
    const bool last = most >= dearest || (outcome.plan && eased.relax_cost(*outcome.plan) <= most);
    if (proven && !last) {
      most = outcome.plan ? eased.relax_cost(*outcome.plan) : 2 * most;
      continue;
    }
    result.status = !proven ? Status::limit : outcome.plan ? Status::optimal : Status::infeasible;
    if (outcome.plan) eased.grant(*outcome.plan, result);
    break;
  }
  if (!result.relax_cost) return result;
  result.plan = solve(result.granted, options);
  result.nodes += result.plan.nodes;
  if (result.plan.status != Status::optimal) result.status = Status::limit;
  return result;
}

}  // namespace cotter::engine::route
