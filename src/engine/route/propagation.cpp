#include "engine/route/propagation.hpp"

#include <algorithm>
#include <bit>

#include "engine/route/demands.hpp"

namespace cotter::engine::route {

namespace {

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

}  // namespace

Propagation::Propagation(const Columns& columns, ApertureChoice& choice)
    : columns_(columns), problem_(columns.problem()), choice_(choice), variables_(problem_), nogoods_(variables_) {}

Domains Propagation::everything() {
  Domains domains;
  domains.alive = columns_.everything();
  domains.certain.resize(problem_.lines.size());
  domains.possible.resize(problem_.lines.size());
  domains.users.resize(problem_.apertures.size());
  domains.may.resize(problem_.apertures.size());
  for (const int line : listed(columns_.lines())) {
    for (std::size_t a = 0; a < problem_.apertures.size(); ++a) {
      if (columns_.through(line, static_cast<int>(a)) == nullptr) continue;
      domains.possible[index(line)].set(a);
      domains.may[a] |= only(line);
    }
  }
  stale_devices_.clear();
  for (std::size_t d = 0; d < problem_.devices.size(); ++d) {
    SeatSet seats = 0;
    for (int seat = 0; seat < static_cast<int>(problem_.devices[d].seats.size()); ++seat)
      if (reaches(problem_, static_cast<int>(d), seat)) seats |= seat_bit(seat);
    domains.seats.push_back(seats);
    stale_devices_.push_back(static_cast<int>(d));
  }
  stale_lines_ = columns_.lines();
  stale_apertures_.set();
  for (std::size_t a = problem_.apertures.size(); a < k_most_apertures; ++a) stale_apertures_.reset(a);
  return domains;
}

void Propagation::assume(Domains& domains, Literal literal) {
  if (!variables_.is_passing(literal)) {
    const SeatSet bit = seat_bit(variables_.seat(literal));
    keep_seats(domains, variables_.device(literal), literal.yes() ? bit : ~bit);
    return;
  }
  const int line = variables_.line(literal);
  const Word* through = columns_.through(line, variables_.aperture(literal));
  const Columns::Words words = columns_.words(line);
  for (std::size_t w = words.from; w < words.to; ++w) {
    const Word mask = through == nullptr ? 0 : through[w - words.from];
    domains.alive[w] &= literal.yes() ? mask : ~mask;
  }
  stale_lines_ |= only(line);
}

void Propagation::choose_way(Domains& domains, std::size_t way) {
  const int line = columns_.at(way).line;
  const Columns::Words words = columns_.words(line);
  for (std::size_t w = words.from; w < words.to; ++w) {
    const std::size_t first = columns_.way(w, 0);
    domains.alive[w] &= way >= first && way - first < 64 ? Word{1} << (way - first) : 0;
  }
  stale_lines_ |= only(line);
}

void Propagation::drop_way(Domains& domains, std::size_t word, int bit, int line) {
  domains.alive[word] &= ~(Word{1} << bit);
  stale_lines_ |= only(line);
}

void Propagation::drop_seat(Domains& domains, int device, int seat) {
  keep_seats(domains, device, ~seat_bit(seat));
}

void Propagation::keep_seats(Domains& domains, int device, SeatSet seats) {
  const SeatSet before = domains.seats[index(device)];
  if ((before & ~seats) == 0) return;
  domains.seats[index(device)] = before & seats;
  stale_devices_.push_back(device);
  for (SeatSet gone = before & ~seats; gone != 0; gone &= gone - 1)
    news_.push_back(variables_.sits(device, std::countr_zero(gone), false));
  if (std::popcount(before & seats) == 1)
    news_.push_back(variables_.sits(device, std::countr_zero(before & seats), true));
}

void Propagation::drop_through(Domains& domains, int line, int aperture) {
  assume(domains, variables_.passes(line, aperture, false));
}

void Propagation::drop_unseated(Domains& domains, int line) {
  const Columns::Words words = columns_.words(line);
  for (std::size_t end = 0; end < 2; ++end) {
    const SeatSet seats = domains.seats[index(problem_.lines[index(line)].ends[end].device)];
    for (std::size_t w = words.from; w < words.to; ++w) {
      Word suits = 0;
      for (SeatSet rest = seats; rest != 0; rest &= rest - 1) {
        const Word* seated = columns_.seated(line, end, std::countr_zero(rest));
        if (seated != nullptr) suits |= seated[w - words.from];
      }
      if ((domains.alive[w] & ~suits) == 0) continue;
      domains.alive[w] &= suits;
      stale_lines_ |= only(line);
    }
  }
}

bool Propagation::refresh_line(Domains& domains, int line) {
  const Columns::Words words = columns_.words(line);
  const Word* alive = domains.alive.data() + words.from;
  if (std::all_of(alive, alive + words.size(), [](Word word) { return word == 0; })) return false;
  ApertureSet& certain = domains.certain[index(line)];
  ApertureSet& possible = domains.possible[index(line)];
  const ApertureSet unsure = possible & ~certain;
  for (std::size_t a = unsure._Find_first(); a < k_most_apertures; a = unsure._Find_next(a)) {
    const Word* through = columns_.through(line, static_cast<int>(a));
    Word inside = 0;
    Word beside = 0;
    for (std::size_t w = 0; w < words.size(); ++w) {
      inside |= alive[w] & through[w];
      beside |= alive[w] & ~through[w];
    }
    if (inside != 0 && beside != 0) continue;
    news_.push_back(variables_.passes(line, static_cast<int>(a), inside != 0));
    if (inside == 0) {
      possible.reset(a);
      domains.may[a] &= ~only(line);
    } else {
      certain.set(a);
      domains.users[a] |= only(line);
      stale_apertures_.set(a);
    }
  }
  refresh_ends(domains, line);
  return true;
}

void Propagation::refresh_ends(Domains& domains, int line) {
  const Columns::Words words = columns_.words(line);
  for (std::size_t end = 0; end < 2; ++end) {
    const int device = problem_.lines[index(line)].ends[end].device;
    const SeatSet seats = domains.seats[index(device)];
    if (std::popcount(seats) < 2) continue;
    SeatSet met = 0;
    for (SeatSet rest = seats; rest != 0; rest &= rest - 1) {
      const Word* seated = columns_.seated(line, end, std::countr_zero(rest));
      if (seated == nullptr) continue;
      for (std::size_t w = words.from; w < words.to; ++w)
        if ((domains.alive[w] & seated[w - words.from]) != 0) met |= rest & ~(rest - 1);
    }
    keep_seats(domains, device, met);
  }
}

bool Propagation::take_seat(Domains& domains, int device) {
  const int number = std::countr_zero(domains.seats[index(device)]);
  const Seat& seat = problem_.devices[index(device)].seats[index(number)];
  if (!seat.aperture && !seat.place) return true;
  if (seat.aperture) {
    if (domains.users[index(*seat.aperture)] != 0) return false;
    for (const int line : listed(domains.may[index(*seat.aperture)])) drop_through(domains, line, *seat.aperture);
  }
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
  for (const int line : listed(columns_.lines_at(device))) drop_unseated(domains, line);
  return std::popcount(domains.seats[index(device)]) > 1 || take_seat(domains, device);
}

bool Propagation::refresh_aperture(Domains& domains, int aperture) {
  const LineSet users = domains.users[index(aperture)];
  if (users == 0) return true;
  if (!choice_.least_steps(users, aperture)) return false;
  LineSet others = domains.may[index(aperture)] & ~users;
  if (others != 0 && !choice_.least_steps(users | others, aperture)) {
    for (; others != 0; others = without_first(others)) {
      if (!choice_.least_steps(users | only(first(others)), aperture)) drop_through(domains, first(others), aperture);
    }
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
    } else if (!stale_devices_.empty()) {
      const int device = stale_devices_.back();
      stale_devices_.pop_back();
      if (!refresh_device(domains, device)) return false;
    } else if (stale_apertures_.any()) {
      const std::size_t aperture = stale_apertures_._Find_first();
      stale_apertures_.reset(aperture);
      if (!refresh_aperture(domains, static_cast<int>(aperture))) return false;
    } else {
      return true;
    }
  }
}

bool Propagation::follow_nogoods(Domains& domains) {
  forbidden_.clear();
  for (const Literal now : news_) {
    if (nogoods_.follow(domains, variables_, now, forbidden_) == Nogoods::Check::broken) return false;
  }
  news_.clear();
  for (const Literal literal : forbidden_) assume(domains, literal.negated());
  return true;
}

bool Propagation::settle(Domains& domains) {
  bool possible = settle_sets(domains);
  while (possible && !news_.empty()) possible = follow_nogoods(domains) && settle_sets(domains);
  stale_lines_ = 0;
  stale_devices_.clear();
  stale_apertures_.reset();
  news_.clear();
  return possible;
}

}  // namespace cotter::engine::route
