#include "engine/route/branching.hpp"

#include <bit>

namespace cotter::engine::route {

namespace {

constexpr double k_growth = 1.05;
constexpr double k_largest = 1e100;
constexpr double k_disputed = 4;
/// What a question counts before it has made any trouble, in parts of one blame.
constexpr double k_start = 0.2;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

}  // namespace

Branching::Branching(const Columns& columns, const Variables& variables)
    : columns_(columns), variables_(variables), trouble_(variables.count(), 0) {}

void Branching::blame(const std::vector<Literal>& nogood) {
  for (const Literal literal : nogood) trouble_[literal.variable()] += blame_;
  blame_ *= k_growth;
  if (blame_ < k_largest) return;
  for (double& trouble : trouble_) trouble /= k_largest;
  blame_ /= k_largest;
}

void Branching::look_at_line(const Domains& domains, const Multipliers& multipliers, int line, Best& best) const {
  const ApertureSet open = domains.possible[index(line)] & ~domains.certain[index(line)];
  for (std::size_t a = open._Find_first(); a < k_most_apertures; a = open._Find_next(a)) {
    const auto aperture = static_cast<int>(a);
    const Literal passes = variables_.passes(line, aperture);
    double score = trouble_[passes.variable()] + k_start * blame_;
    if (has(multipliers.disputed(aperture), line)) score *= k_disputed;
    if (score <= best.score) continue;
    const bool yes = has(multipliers.passing()[a], line);
    best = {score, yes ? passes : passes.negated()};
  }
}

void Branching::look_at_seats(const Domains& domains, const Multipliers& multipliers, int device, Best& best) const {
  if (std::popcount(domains.seats[index(device)]) < 2) return;
  const int cheapest = multipliers.cheapest_seat(device);
  for (SeatSet rest = domains.seats[index(device)]; rest != 0; rest &= rest - 1) {
    const Literal sits = variables_.sits(device, std::countr_zero(rest));
    const double score = k_disputed * (trouble_[sits.variable()] + k_start * blame_);
    if (score <= best.score) continue;
    best = {score, std::countr_zero(rest) == cheapest ? sits : sits.negated()};
  }
}

std::optional<Literal> Branching::next(const Domains& domains, const Multipliers& multipliers) const {
  Best best;
  for (LineSet lines = columns_.lines(); lines != 0; lines = without_first(lines))
    look_at_line(domains, multipliers, first(lines), best);
  for (int device = 0; device < static_cast<int>(domains.seats.size()); ++device)
    look_at_seats(domains, multipliers, device, best);
  return best.literal;
}

}  // namespace cotter::engine::route
