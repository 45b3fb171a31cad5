#include "engine/route/multipliers.hpp"

#include <algorithm>
#include <bit>
#include <limits>
#include <map>

#include "engine/route/propagation.hpp"

namespace cotter::engine::route {

namespace {

constexpr std::size_t k_one_seat = std::numeric_limits<std::size_t>::max();
constexpr std::int64_t k_dearest = std::numeric_limits<std::int64_t>::max();
/// Where nothing costs anything only directions count, and each step is this long.
constexpr double k_free_stride = 1000;
/// Rounds without a better bound after which the steps are made shorter.
constexpr int k_patience = 4;
constexpr double k_shorter = 0.6;
constexpr double k_first_length = 1.0;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

}  // namespace

Multipliers::Multipliers(const Columns& columns, ApertureChoice& choice, std::int64_t unit)
    : columns_(columns),
      problem_(columns.problem()),
      choice_(choice),
      unit_(unit),
      line_count_(problem_.lines.size()),
      prices_(problem_.apertures.size() * line_count_),
      on_seat_(line_count_, {k_one_seat, k_one_seat}),
      at_aperture_(problem_.apertures.size()),
      best_way_(line_count_),
      least_(line_count_),
      best_seat_(problem_.devices.size()),
      least_seat_(problem_.devices.size()),
      passing_(problem_.apertures.size()),
      chosen_(problem_.apertures.size()),
      aperture_winner_(problem_.apertures.size()) {
  for (const int line : listed(columns.lines())) {
    for (std::size_t end = 0; end < 2; ++end) {
      const auto& seats = problem_.devices[index(problem_.lines[index(line)].ends[end].device)].seats;
      if (seats.size() < 2) continue;
      on_seat_[index(line)][end] = prices_.size();
      prices_.resize(prices_.size() + seats.size());
    }
  }
  add_takers();
}

void Multipliers::add_takers() {
  std::map<int, std::size_t> places;
  for (std::size_t d = 0; d < problem_.devices.size(); ++d) {
    const auto& seats = problem_.devices[d].seats;
    taking_.emplace_back(seats.size());
    for (std::size_t s = 0; s < seats.size(); ++s) {
      const auto add = [&](std::vector<Taker>& takers) {
        takers.push_back({static_cast<int>(d), static_cast<int>(s), prices_.size()});
        taking_[d][s].push_back(prices_.size());
        prices_.push_back(0);
      };
      if (seats[s].aperture) add(at_aperture_[index(*seats[s].aperture)]);
      if (!seats[s].place) continue;
      const std::size_t place = places.emplace(*seats[s].place, places.size()).first->second;
      at_place_.resize(std::max(at_place_.size(), place + 1));
      add(at_place_[place]);
    }
  }
  place_winner_.resize(at_place_.size());
}

std::int64_t Multipliers::priced(std::size_t way) const {
  const Way& column = columns_.at(way);
  std::int64_t cost = column.cost * unit_;
  for (const int a : column.path) cost += prices_[at(index(a), column.line)];
  for (std::size_t end = 0; end < 2; ++end) {
    const std::size_t first = on_seat_[index(column.line)][end];
    if (first != k_one_seat && column.seats[end] != k_any_seat) cost += prices_[first + index(column.seats[end])];
  }
  return cost;
}

std::int64_t Multipliers::seat_priced(int device, int seat) const {
  std::int64_t cost = problem_.devices[index(device)].seats[index(seat)].cost * unit_;
  for (const std::size_t price : taking_[index(device)][index(seat)]) cost += prices_[price];
  for (LineSet lines = columns_.lines_at(device); lines != 0; lines = without_first(lines)) {
    const auto& ends = problem_.lines[index(first(lines))].ends;
    for (std::size_t end = 0; end < 2; ++end) {
      const std::size_t on = on_seat_[index(first(lines))][end];
      if (ends[end].device == device && on != k_one_seat) cost -= prices_[on + index(seat)];
    }
  }
  return cost;
}

std::int64_t Multipliers::lines_part(const Domains& domains) {
  std::fill(passing_.begin(), passing_.end(), 0);
  std::int64_t sum = 0;
  for (LineSet lines = columns_.lines(); lines != 0; lines = without_first(lines)) {
    const int line = first(lines);
    std::int64_t least = k_dearest;
    each_way(columns_, domains.alive, line, [&](std::size_t way) {
      const std::int64_t cost = priced(way);
      if (cost >= least) return;
      least = cost;
      best_way_[index(line)] = way;
    });
    least_[index(line)] = least;
    sum += least;
    for (const int a : columns_.at(best_way_[index(line)]).path) passing_[index(a)] |= only(line);
  }
  return sum;
}

std::int64_t Multipliers::devices_part(const Domains& domains) {
  std::int64_t sum = 0;
  for (int device = 0; device < static_cast<int>(problem_.devices.size()); ++device) {
    std::int64_t least = k_dearest;
    for (SeatSet rest = domains.seats[index(device)]; rest != 0; rest &= rest - 1) {
      const int seat = std::countr_zero(rest);
      const std::int64_t cost = seat_priced(device, seat);
      if (cost >= least) continue;
      least = cost;
      best_seat_[index(device)] = seat;
    }
    least_seat_[index(device)] = least;
    sum += least;
  }
  return sum;
}

const Multipliers::Taker* Multipliers::best_taker(const Domains& domains, const std::vector<Taker>& takers) const {
  const Taker* best = nullptr;
  for (const Taker& taker : takers) {
    if ((domains.seats[index(taker.device)] & seat_bit(taker.seat)) == 0) continue;
    if (prices_[taker.price] > (best == nullptr ? 0 : prices_[best->price])) best = &taker;
  }
  return best;
}

std::int64_t Multipliers::apertures_part(const Domains& domains) {
  std::int64_t sum = 0;
  for (std::size_t a = 0; a < passing_.size(); ++a) {
    const LineSet users = domains.users[a];
    LineSet offering = 0;
    for (LineSet rest = domains.may[a] & ~users; rest != 0; rest = without_first(rest))
      if (prices_[at(a, first(rest))] > 0) offering |= only(first(rest));
    Chosen chosen;
    if ((users | offering) != 0) chosen = choice_.best({static_cast<int>(a), users, offering, &prices_[at(a, 0)]});
    const Taker* taker = users == 0 ? best_taker(domains, at_aperture_[a]) : nullptr;
    if (taker != nullptr && prices_[taker->price] > chosen.profit) {
      chosen = {prices_[taker->price], 0};
    } else {
      taker = nullptr;
    }
    chosen_[a] = chosen.lines;
    aperture_winner_[a] = taker;
    sum += chosen.profit;
  }
  return sum;
}

std::int64_t Multipliers::places_part(const Domains& domains) {
  std::int64_t sum = 0;
  for (std::size_t p = 0; p < at_place_.size(); ++p) {
    place_winner_[p] = best_taker(domains, at_place_[p]);
    if (place_winner_[p] != nullptr) sum += prices_[place_winner_[p]->price];
  }
  return sum;
}

std::int64_t Multipliers::bound(const Domains& domains) {
  bound_ = lines_part(domains) + devices_part(domains) - apertures_part(domains) - places_part(domains);
  return bound_;
}

void Multipliers::add_seat_slope(int line, std::size_t end) {
  const std::size_t first = on_seat_[index(line)][end];
  const int asked = columns_.at(best_way_[index(line)]).seats[end];
  const int given = best_seat_[index(problem_.lines[index(line)].ends[end].device)];
  if (first == k_one_seat || asked == given) return;
  if (asked != k_any_seat) slope_.push_back({first + index(asked), 1});
  if (prices_[first + index(given)] > 0) slope_.push_back({first + index(given), -1});
}

void Multipliers::add_taker_slope(const std::vector<Taker>& takers, const Taker* winner) {
  for (const Taker& taker : takers) {
    const bool asked = best_seat_[index(taker.device)] == taker.seat;
    const bool given = winner == &taker;
    if (asked && !given) slope_.push_back({taker.price, 1});
    if (!asked && given) slope_.push_back({taker.price, -1});
  }
}

void Multipliers::find_slope() {
  slope_.clear();
  for (std::size_t a = 0; a < passing_.size(); ++a) {
    for (LineSet rest = passing_[a] ^ chosen_[a]; rest != 0; rest = without_first(rest))
      slope_.push_back({at(a, first(rest)), has(passing_[a], first(rest)) ? 1 : -1});
    add_taker_slope(at_aperture_[a], aperture_winner_[a]);
  }
  for (std::size_t p = 0; p < at_place_.size(); ++p) add_taker_slope(at_place_[p], place_winner_[p]);
  for (LineSet lines = columns_.lines(); lines != 0; lines = without_first(lines)) {
    add_seat_slope(first(lines), 0);
    add_seat_slope(first(lines), 1);
  }
}

void Multipliers::move(double stride) {
  const auto step = static_cast<std::int64_t>(stride);
  for (const Slope& slope : slope_)
    prices_[slope.price] = std::max<std::int64_t>(0, prices_[slope.price] + slope.direction * step);
}

std::int64_t Multipliers::tune(const Domains& domains, int rounds, std::int64_t target) {
  std::int64_t best = bound(domains);
  best_prices_ = prices_;
  double length = k_first_length;
  int since_better = 0;
  for (int round = 0; round < rounds && best < target; ++round) {
    find_slope();
    if (slope_.empty()) break;
    const auto gap = static_cast<double>(target - bound_);
    move(unit_ == 0 ? k_free_stride : std::max(1.0, length * gap / static_cast<double>(slope_.size())));
    if (bound(domains) > best) {
      best = bound_;
      best_prices_ = prices_;
      since_better = 0;
    } else if (++since_better >= k_patience) {
      length *= k_shorter;
      since_better = 0;
    }
  }
  // Where nothing costs anything, prices only have to be right up to a factor, and those that drift find more.
  if (unit_ != 0) prices_ = best_prices_;
  return bound(domains);
}

bool Multipliers::drop_dear(Domains& domains, Propagation& propagation, std::int64_t target) const {
  const std::int64_t spare = target - 1 - bound_;
  bool any = false;
  for (LineSet lines = columns_.lines(); lines != 0; lines = without_first(lines)) {
    const int line = first(lines);
    const Columns::Words words = columns_.words(line);
    for (std::size_t w = words.from; w < words.to; ++w) {
      for (Word rest = domains.alive[w]; rest != 0; rest &= rest - 1) {
        const int bit = std::countr_zero(rest);
        if (priced(columns_.way(w, bit)) - least_[index(line)] <= spare) continue;
        propagation.drop_way(domains, w, bit, line);
        any = true;
      }
    }
  }
  for (int device = 0; device < static_cast<int>(problem_.devices.size()); ++device) {
    if (std::popcount(domains.seats[index(device)]) < 2) continue;
    for (SeatSet rest = domains.seats[index(device)]; rest != 0; rest &= rest - 1) {
      const int seat = std::countr_zero(rest);
      if (seat_priced(device, seat) - least_seat_[index(device)] <= spare) continue;
      propagation.drop_seat(domains, device, seat);
      any = true;
    }
  }
  return any;
}

}  // namespace cotter::engine::route
