#include "engine/route/insertion.hpp"

#include <bit>
#include <limits>

namespace cotter::engine::route {

namespace {

constexpr std::int64_t k_dearest = std::numeric_limits<std::int64_t>::max() / 4;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

/// The cheapest way left of a line, and what the next one costs more.
struct Cheapest {
  std::size_t way = 0;
  std::int64_t regret = 0;
  bool free = false;  ///< another way is left
};

Cheapest cheapest_of(const Columns& columns, const Multipliers& multipliers, const Domains& domains, int line) {
  Cheapest cheapest;
  std::int64_t least = k_dearest;
  std::int64_t next = k_dearest;
  int n = 0;
  each_way(columns, domains.alive, line, [&](std::size_t way) {
    const std::int64_t cost = multipliers.priced(way);
    ++n;
    if (cost < least) {
      next = least;
      least = cost;
      cheapest.way = way;
    } else if (cost < next) {
      next = cost;
    }
  });
  cheapest.free = n > 1;
  cheapest.regret = next - least;
  return cheapest;
}

std::optional<Cheapest> most_regretted(const Columns& columns, const Multipliers& multipliers, const Domains& domains) {
  std::optional<Cheapest> chosen;
  for (LineSet lines = columns.lines(); lines != 0; lines = without_first(lines)) {
    const Cheapest cheapest = cheapest_of(columns, multipliers, domains, first(lines));
    if (cheapest.free && (!chosen || cheapest.regret > chosen->regret)) chosen = cheapest;
  }
  return chosen;
}

void drop(const Columns& columns, Propagation& propagation, Domains& domains, std::size_t way) {
  const int line = columns.at(way).line;
  const Columns::Words words = columns.words(line);
  const std::size_t place = way - columns.way(words.from, 0);
  propagation.drop_way(domains, words.from + place / 64, static_cast<int>(place % 64), line);
}

/// Seats of devices that no line has decided.
bool settle_seats(const Problem& problem, Propagation& propagation, Domains& domains) {
  for (std::size_t d = 0; d < problem.devices.size(); ++d) {
    const SeatSet seats = domains.seats[d];
    if (std::popcount(seats) < 2) continue;
    int best = std::countr_zero(seats);
    for (SeatSet rest = seats; rest != 0; rest &= rest - 1) {
      const int seat = std::countr_zero(rest);
      if (problem.devices[d].seats[index(seat)].cost < problem.devices[d].seats[index(best)].cost) best = seat;
    }
    propagation.assume(domains, propagation.variables().sits(static_cast<int>(d), best));
    if (!propagation.settle(domains)) return false;
  }
  return true;
}

}  // namespace

std::optional<Domains> insert_lines(const Columns& columns, Propagation& propagation, const Multipliers& multipliers,
                                    Domains domains) {
  Domains before;
  int setbacks = 2 * count(columns.lines());
  while (const auto chosen = most_regretted(columns, multipliers, domains)) {
    before = domains;
    propagation.choose_way(domains, chosen->way);
    if (propagation.settle(domains)) continue;
    domains = before;
    drop(columns, propagation, domains, chosen->way);
    if (!propagation.settle(domains) || --setbacks < 0) return std::nullopt;
  }
  if (!settle_seats(columns.problem(), propagation, domains)) return std::nullopt;
  return domains;
}

namespace {

/// Puts one line back on its cheapest way beside the others; true when that is cheaper than before.
class Reinsertion {
 public:
  Reinsertion(const Columns& columns, ApertureChoice& choice, Plan& plan)
      : columns_(columns), choice_(choice), plan_(plan), users_(users_of(columns.problem(), columns.ways(), plan)) {
    for (std::size_t d = 0; d < plan.seats.size(); ++d) {
      const auto& taken = columns.problem().devices[d].seats[index(plan.seats[d])].aperture;
      if (taken) taken_.set(index(*taken));
    }
  }

  bool improve(int line) {
    auto& place = plan_.ways[index(line)];
    const Way& old = columns_.at(*place);
    for (const int a : old.path) users_[index(a)] &= ~only(line);
    std::size_t best = *place;
    const std::int64_t before = cost_of(*place);
    std::int64_t least = before;
    const std::size_t first = columns_.way(columns_.words(line).from, 0);
    for (std::size_t way = first; way < columns_.ways().size() && columns_.at(way).line == line; ++way) {
      if (columns_.at(way).cost >= least) break;  // the ways are sorted by cost
      if (columns_.at(way).seats != old.seats) continue;
      const std::int64_t cost = cost_of(way);
      if (cost >= least) continue;
      least = cost;
      best = way;
    }
    for (const int a : columns_.at(best).path) users_[index(a)] |= only(line);
    place = best;
    return least < before;
  }

 private:
  std::int64_t cost_of(std::size_t way) {
    std::int64_t cost = columns_.at(way).cost;
    for (const int a : columns_.at(way).path) {
      if (taken_[index(a)]) return k_dearest;
      const auto with = choice_.cost(users_[index(a)] | only(columns_.at(way).line), a);
      if (!with) return k_dearest;
      // Fewer lines may be undecided where more are proven to fit: then the line adds nothing.
      cost += *with - choice_.cost(users_[index(a)], a).value_or(*with);
    }
    return cost;
  }

  const Columns& columns_;
  ApertureChoice& choice_;
  Plan& plan_;
  std::vector<LineSet> users_;
  ApertureSet taken_;  ///< by devices
};

}  // namespace

void reinsert_lines(const Columns& columns, ApertureChoice& choice, Plan& plan) {
  Reinsertion reinsertion(columns, choice, plan);
  for (bool better = true; better;) {
    better = false;
    for (const int line : listed(columns.lines())) better = reinsertion.improve(line) || better;
  }
}

}  // namespace cotter::engine::route
