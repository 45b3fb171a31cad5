#include "engine/route/domains.hpp"

#include <algorithm>

#include "engine/route/demands.hpp"

namespace cotter::engine::route {

namespace {

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

SeatSet seat_bit(int seat) {
  return SeatSet{1} << seat;
}

std::int64_t up_to_whole(std::int64_t thousandths) {
  return thousandths > 0 ? (thousandths + k_price_unit - 1) / k_price_unit : -(-thousandths / k_price_unit);
}

}  // namespace

std::int64_t Bound::total() const {
  return std::max(plain_total, up_to_whole(priced_total));
}

Propagation::Propagation(const Problem& problem, Apertures& apertures, const std::vector<Way>& ways, LineSet lines,
                         const Prices& prices)
    : problem_(problem),
      apertures_(apertures),
      ways_(ways),
      prices_(prices),
      lines_(lines),
      range_(problem.lines.size()),
      via_(problem.apertures.size(), std::vector<std::vector<std::size_t>>(problem.lines.size())),
      may_use_(problem.apertures.size()),
      lines_at_(problem.devices.size()),
      stale_devices_(problem.devices.size()) {
  for (std::size_t w = 0; w < ways.size(); ++w) {
    auto& [from, to] = range_[index(ways[w].line)];
    if (to == 0) from = w;
    to = w + 1;
    for (const int a : ways[w].path) {
      via_[index(a)][index(ways[w].line)].push_back(w);
      may_use_[index(a)] |= only(ways[w].line) & lines;
    }
  }
  for (const int line : listed(lines)) {
    for (const LineEnd& end : problem.lines[index(line)].ends) lines_at_[index(end.device)] |= only(line);
  }
}

Domains Propagation::everything() const {
  Domains domains;
  for (const Way& way : ways_) domains.alive.push_back(has(lines_, way.line) ? 1 : 0);
  domains.left.resize(problem_.lines.size());
  domains.certain.resize(problem_.lines.size());
  domains.users.resize(problem_.apertures.size());
  domains.steps.resize(problem_.apertures.size());
  for (std::size_t d = 0; d < problem_.devices.size(); ++d) {
    SeatSet seats = 0;
    for (int s = 0; s < static_cast<int>(problem_.devices[d].seats.size()); ++s)
      if (reaches(problem_, static_cast<int>(d), s)) seats |= seat_bit(s);
    domains.seats.push_back(seats);
  }
  return domains;
}

void Propagation::drop_way(Domains& domains, std::size_t way) {
  if (domains.alive[way] == 0) return;
  domains.alive[way] = 0;
  stale_lines_ |= only(ways_[way].line);
}

void Propagation::choose_way(Domains& domains, std::size_t way) {
  const auto [from, to] = range(ways_[way].line);
  for (std::size_t w = from; w < to; ++w) {
    if (w != way) drop_way(domains, w);
  }
}

void Propagation::drop_seat(Domains& domains, int device, int seat) {
  if ((domains.seats[index(device)] & seat_bit(seat)) == 0) return;
  domains.seats[index(device)] &= ~seat_bit(seat);
  stale_devices_[index(device)] = 1;
}

void Propagation::choose_seat(Domains& domains, int device, int seat) {
  domains.seats[index(device)] &= seat_bit(seat);
  stale_devices_[index(device)] = 1;
}

void Propagation::drop_through(Domains& domains, int line, int aperture) {
  for (const std::size_t way : via_[index(aperture)][index(line)]) drop_way(domains, way);
}

void Propagation::drop_unseated(Domains& domains, int line) {
  const auto [from, to] = range(line);
  const auto& ends = problem_.lines[index(line)].ends;
  for (std::size_t w = from; w < to; ++w) {
    for (std::size_t end = 0; end < 2; ++end) {
      if ((domains.seats[index(ends[end].device)] & seat_bit(ways_[w].seats[end])) == 0) drop_way(domains, w);
    }
  }
}

bool Propagation::refresh_line(Domains& domains, int line) {
  const auto [from, to] = range(line);
  ApertureSet certain;
  certain.set();
  std::array<SeatSet, 2> seats{};
  int left = 0;
  for (std::size_t w = from; w < to; ++w) {
    if (domains.alive[w] == 0) continue;
    ++left;
    certain &= ways_[w].apertures;
    for (std::size_t end = 0; end < 2; ++end) seats[end] |= seat_bit(ways_[w].seats[end]);
  }
  domains.left[index(line)] = left;
  if (left == 0) {
    culprit_ = line;
    return false;
  }
  const ApertureSet fresh = certain & ~domains.certain[index(line)];
  domains.certain[index(line)] = certain;
  for (std::size_t a = 0; fresh.any() && a < problem_.apertures.size(); ++a) {
    if (!fresh[a]) continue;
    domains.users[a] |= only(line);
    stale_apertures_.set(a);
  }
  for (std::size_t end = 0; end < 2; ++end) {
    const int device = problem_.lines[index(line)].ends[end].device;
    SeatSet& offered = domains.seats[index(device)];
    if ((offered & ~seats[end]) != 0) stale_devices_[index(device)] = 1;
    offered &= seats[end];
  }
  return true;
}

bool Propagation::take_seat(Domains& domains, int device) {
  const int number = std::countr_zero(domains.seats[index(device)]);
  const Seat& seat = problem_.devices[index(device)].seats[index(number)];
  if (seat.aperture) {
    if (domains.users[index(*seat.aperture)] != 0) return false;
    for (const int line : listed(may_use_[index(*seat.aperture)])) drop_through(domains, line, *seat.aperture);
  }
  if (!seat.aperture && !seat.place) return true;
  for (int other = 0; other < static_cast<int>(problem_.devices.size()); ++other) {
    if (other == device) continue;
    const auto& seats = problem_.devices[index(other)].seats;
    for (std::size_t s = 0; s < seats.size(); ++s) {
      const bool same =
          (seat.aperture && seats[s].aperture == seat.aperture) || (seat.place && seats[s].place == seat.place);
      if (same) drop_seat(domains, other, static_cast<int>(s));
    }
  }
  return true;
}

bool Propagation::refresh_device(Domains& domains, int device) {
  if (domains.seats[index(device)] == 0) return false;
  for (const int line : listed(lines_at_[index(device)])) drop_unseated(domains, line);
  return std::popcount(domains.seats[index(device)]) > 1 || take_seat(domains, device);
}

bool Propagation::refresh_aperture(Domains& domains, int aperture) {
  const LineSet users = domains.users[index(aperture)];
  const auto steps = apertures_.least_steps(users, aperture);
  if (!steps) {
    culprit_ = first(users);
    return false;
  }
  domains.steps[index(aperture)] = *steps;
  if (users == 0) return true;
  for (const int line : listed(may_use_[index(aperture)] & ~users)) {
    if (!apertures_.least_steps(users | only(line), aperture)) drop_through(domains, line, aperture);
  }
  for (std::size_t d = 0; d < problem_.devices.size(); ++d) {
    const auto& seats = problem_.devices[d].seats;
    for (std::size_t s = 0; s < seats.size(); ++s) {
      if (seats[s].aperture == aperture) drop_seat(domains, static_cast<int>(d), static_cast<int>(s));
    }
  }
  return true;
}

bool Propagation::settle_sets(Domains& domains) {
  while (true) {
    if (stale_lines_ != 0) {
      const int line = first(stale_lines_);
      stale_lines_ &= ~only(line);
      if (!refresh_line(domains, line)) return false;
      continue;
    }
    const auto device = std::find(stale_devices_.begin(), stale_devices_.end(), 1);
    if (device != stale_devices_.end()) {
      *device = 0;
      if (!refresh_device(domains, static_cast<int>(device - stale_devices_.begin()))) return false;
      continue;
    }
    if (stale_apertures_.none()) return true;
    const std::size_t aperture = stale_apertures_._Find_first();
    stale_apertures_.reset(aperture);
    if (!refresh_aperture(domains, static_cast<int>(aperture))) return false;
  }
}

Bound Propagation::bound(const Domains& domains) const {
  Bound bound{std::vector<std::int64_t>(problem_.lines.size()), std::vector<std::int64_t>(problem_.lines.size()), 0, 0};
  for (const int line : listed(lines_)) {
    const auto [from, to] = range(line);
    bool any = false;
    for (std::size_t w = from; w < to; ++w) {
      if (domains.alive[w] == 0) continue;
      auto& plain = bound.plain[index(line)];
      auto& priced = bound.priced[index(line)];
      plain = any ? std::min(plain, ways_[w].cost) : ways_[w].cost;
      priced = any ? std::min(priced, prices_.priced(w)) : prices_.priced(w);
      any = true;
    }
    bound.plain_total += bound.plain[index(line)];
    bound.priced_total += bound.priced[index(line)];
  }
  for (std::size_t a = 0; a < domains.steps.size(); ++a)
    bound.plain_total += problem_.apertures[a].enlarge_cost * domains.steps[a];
  bound.priced_total -= prices_.worth();
  for (std::size_t d = 0; d < domains.seats.size(); ++d) {
    std::optional<std::int64_t> least;
    for (SeatSet rest = domains.seats[d]; rest != 0; rest &= rest - 1) {
      const std::int64_t cost = problem_.devices[d].seats[index(std::countr_zero(rest))].cost;
      least = std::min(least.value_or(cost), cost);
    }
    bound.plain_total += least.value_or(0);
    bound.priced_total += least.value_or(0) * k_price_unit;
  }
  return bound;
}

bool Propagation::drop_dear(Domains& domains, std::int64_t below) {
  const Bound least = bound(domains);
  if (least.total() >= below) return false;
  const std::int64_t plain_spare = below - 1 - least.plain_total;
  const std::int64_t priced_spare = (below - 1) * k_price_unit - least.priced_total;
  for (const int line : listed(lines_)) {
    const auto [from, to] = range(line);
    for (std::size_t w = from; w < to; ++w) {
      if (domains.alive[w] == 0) continue;
      const bool dear = ways_[w].cost - least.plain[index(line)] > plain_spare ||
                        prices_.priced(w) - least.priced[index(line)] > priced_spare;
      if (dear) drop_way(domains, w);
    }
  }
  return true;
}

bool Propagation::settle(Domains& domains, std::optional<std::int64_t> below) {
  culprit_.reset();
  bool possible = settle_sets(domains);
  while (possible && below) {
    possible = drop_dear(domains, *below);
    if (stale_lines_ == 0) break;
    possible = possible && settle_sets(domains);
  }
  stale_lines_ = 0;
  stale_apertures_.reset();
  std::fill(stale_devices_.begin(), stale_devices_.end(), 0);
  return possible;
}

bool Propagation::settle_all(Domains& domains, std::optional<std::int64_t> below) {
  stale_lines_ = lines_;
  std::fill(stale_devices_.begin(), stale_devices_.end(), 1);
  for (std::size_t a = 0; a < problem_.apertures.size(); ++a) stale_apertures_.set(a);
  return settle(domains, below);
}

}  // namespace cotter::engine::route
