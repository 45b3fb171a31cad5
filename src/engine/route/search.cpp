#include "engine/route/search.hpp"

#include <algorithm>

#include "engine/route/domains.hpp"
#include "engine/route/order.hpp"

namespace cotter::engine::route {

namespace {

constexpr int k_rounds_at_the_root = 150;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

class Search {
 public:
  Search(const Problem& problem, Apertures& apertures, const std::vector<Way>& ways, LineSet lines, Aim aim,
         std::int64_t node_limit)
      : problem_(problem),
        apertures_(apertures),
        ways_(ways),
        prices_(problem, ways, lines),
        propagation_(problem, apertures, ways, lines, prices_),
        aim_(aim),
        node_limit_(node_limit),
        trouble_(problem.lines.size(), 1) {}

  SearchOutcome run() {
    Domains root = propagation_.everything();
    outcome_.nodes = 1;
    if (!propagation_.settle_all(root, std::nullopt)) {
      outcome_.complete = true;
      return std::move(outcome_);
    }
    prices_.tune(ways_, root.alive, k_rounds_at_the_root);
    outcome_.bound = propagation_.bound(root).total();
    outcome_.complete = descend(std::move(root));
    return std::move(outcome_);
  }

 private:
  struct Choice {
    std::optional<std::size_t> way;
    std::optional<std::pair<int, int>> seat;  ///< device and seat
  };

  std::optional<std::int64_t> below() const {
    return outcome_.plan ? std::optional(outcome_.plan->cost) : std::nullopt;
  }

  bool finished() const { return aim_ == Aim::any_plan && outcome_.plan; }

  /// Searches below settled domains. Returns false when the limit cut it short.
  bool descend(Domains domains) {
    while (true) {
      const auto choice = next_choice(domains);
      if (!choice) {
        keep(domains);
        return true;
      }
      if (++outcome_.nodes > node_limit_) return false;
      Domains inside = domains;
      take(inside, *choice);
      if (settle(inside) && !descend(std::move(inside))) return false;
      if (finished()) return true;
      drop(domains, *choice);
      if (!settle(domains)) return true;
    }
  }

  bool settle(Domains& domains) {
    if (propagation_.settle(domains, below())) return true;
    if (propagation_.culprit()) ++trouble_[index(*propagation_.culprit())];
    return false;
  }

  void take(Domains& domains, const Choice& choice) {
    if (choice.way) propagation_.choose_way(domains, *choice.way);
    if (choice.seat) propagation_.choose_seat(domains, choice.seat->first, choice.seat->second);
  }

  void drop(Domains& domains, const Choice& choice) {
    if (choice.way) propagation_.drop_way(domains, *choice.way);
    if (choice.seat) propagation_.drop_seat(domains, choice.seat->first, choice.seat->second);
  }

  /// The line with the fewest ways left for the trouble it has made, and its cheapest way; then seats without lines.
  std::optional<Choice> next_choice(const Domains& domains) const {
    std::optional<int> chosen;
    for (const int line : listed(propagation_.lines())) {
      if (domains.left[index(line)] < 2) continue;
      if (!chosen ||
          domains.left[index(line)] * trouble_[index(*chosen)] < domains.left[index(*chosen)] * trouble_[index(line)])
        chosen = line;
    }
    if (chosen) return Choice{cheapest_way(domains, *chosen), {}};
    for (std::size_t d = 0; d < domains.seats.size(); ++d) {
      if (std::popcount(domains.seats[d]) > 1)
        return Choice{{}, std::pair(static_cast<int>(d), cheapest_seat(domains, d))};
    }
    return std::nullopt;
  }

  std::size_t cheapest_way(const Domains& domains, int line) const {
    const auto [from, to] = propagation_.range(line);
    std::optional<std::size_t> best;
    for (std::size_t w = from; w < to; ++w) {
      if (domains.alive[w] != 0 && (!best || prices_.priced(w) < prices_.priced(*best))) best = w;
    }
    return *best;
  }

  int cheapest_seat(const Domains& domains, std::size_t device) const {
    const auto& seats = problem_.devices[device].seats;
    std::optional<std::size_t> best;
    for (std::size_t s = 0; s < seats.size(); ++s) {
      if ((domains.seats[device] >> s & 1U) != 0 && (!best || seats[s].cost < seats[*best].cost)) best = s;
    }
    return static_cast<int>(*best);
  }

  /// All domains are single: a plan, if one order of pulling suits all apertures.
  void keep(const Domains& domains) {
    std::vector<int> seats;
    for (const SeatSet seat : domains.seats) seats.push_back(std::countr_zero(seat));
    const auto order = cheapest_order(problem_, apertures_, domains.users, seats, domains.steps, propagation_.lines());
    if (!order) return;
    Plan plan{seats, std::vector<std::optional<std::size_t>>(problem_.lines.size()), order->steps, order->pull_order,
              0};
    for (std::size_t w = 0; w < ways_.size(); ++w) {
      if (domains.alive[w] == 0) continue;
      plan.ways[index(ways_[w].line)] = w;
      plan.cost += ways_[w].cost;
    }
    for (std::size_t d = 0; d < seats.size(); ++d) plan.cost += problem_.devices[d].seats[index(seats[d])].cost;
    for (std::size_t a = 0; a < plan.steps.size(); ++a) plan.cost += problem_.apertures[a].enlarge_cost * plan.steps[a];
    if (!outcome_.plan || plan.cost < outcome_.plan->cost) outcome_.plan = std::move(plan);
  }

  const Problem& problem_;
  Apertures& apertures_;
  const std::vector<Way>& ways_;
  Prices prices_;
  Propagation propagation_;
  Aim aim_;
  std::int64_t node_limit_;
  std::vector<std::int64_t> trouble_;
  SearchOutcome outcome_;
};

}  // namespace

std::vector<LineSet> users_of(const Problem& problem, const std::vector<Way>& ways, const Plan& plan) {
  std::vector<LineSet> users(problem.apertures.size());
  for (const auto& chosen : plan.ways) {
    if (!chosen) continue;
    for (const int a : ways[*chosen].path) users[index(a)] |= only(ways[*chosen].line);
  }
  return users;
}

SearchOutcome search(const Problem& problem, Apertures& apertures, const std::vector<Way>& ways, LineSet lines, Aim aim,
                     std::int64_t node_limit) {
  return Search(problem, apertures, ways, lines, aim, node_limit).run();
}

}  // namespace cotter::engine::route
