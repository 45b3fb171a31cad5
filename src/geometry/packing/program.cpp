#include "geometry/packing/program.hpp"

#include <cmath>
#include <limits>

#include "quantity/ensure.hpp"

namespace cotter::geometry::packing {

namespace {

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

constexpr double k_least_pivot = 1e-9;
constexpr double k_near_zero = 1e-9;  ///< how far a multiplier may go below zero for the sake of a larger pivot
/// Keeps multipliers of the first basis apart from zero, so that pivots always make way.
constexpr double k_apart = 1e-10;
constexpr double k_rounding = 1e-13;

}  // namespace

Program::Program(int unknowns, const Numbers& above) : unknowns_(unknowns), size_(unknowns + 1) {
  quantity::ensure(size_ <= k_most_unknowns, "more unknowns than a program holds");
  // Row k says -z_k + slack >= -above_k; the last says z_0 + slack >= -above_0.
  for (int k = 0; k < unknowns; ++k) {
    Row& row = basis_[index(k)];
    row.add(k, -1);
    row.bound = -above[index(k)];
  }
  Row& last = basis_[index(unknowns)];
  last.add(0, 1);
  last.bound = -above[0];
  // With y the multipliers: y_k = -p_k and y_0 - y_last = -p_0, sum of all = 1.
  for (int k = 1; k < unknowns; ++k) {
    inverse_[index(k)][index(k)] = -1;
    inverse_[0][index(k)] = 0.5;
    inverse_[index(unknowns)][index(k)] = 0.5;
  }
  inverse_[0][0] = -0.5;
  inverse_[index(unknowns)][0] = 0.5;
  inverse_[0][index(unknowns)] = inverse_[index(unknowns)][index(unknowns)] = 0.5;
  for (int k = 1; k < unknowns; ++k) weight_[index(k)] = k_apart * (1 + 0.37 * k);
  weight_[0] = weight_[index(unknowns)] = 0.5;
  const double slack = -above[0];
  at_[index(unknowns)] = slack;
  for (int k = 1; k < unknowns; ++k) at_[index(k)] = above[index(k)] + slack;
}

double Program::shortfall(const Row& row) const {
  double sum = slack();
  for (int e = 0; e < row.size; ++e) sum += row.entries[index(e)].value * at_[index(row.entries[index(e)].unknown)];
  return row.bound - sum;
}

/// Of the basis rows whose multipliers reach zero first, or nearly so, the one with the largest pivot.
int Program::leaving_row(const Numbers& step) const {
  double most = std::numeric_limits<double>::infinity();
  for (int k = 0; k < size_; ++k)
    if (step[index(k)] > k_least_pivot) most = std::fmin(most, (weight_[index(k)] + k_near_zero) / step[index(k)]);
  int leaving = -1;
  for (int k = 0; k < size_; ++k) {
    if (step[index(k)] <= k_least_pivot || weight_[index(k)] > most * step[index(k)]) continue;
    if (leaving < 0 || step[index(k)] > step[index(leaving)]) leaving = k;
  }
  return leaving;
}

bool Program::enter(const Row& row) {
  const double missing = shortfall(row);
  Numbers step{};
  for (int k = 0; k < size_; ++k) {
    const Numbers& line = inverse_[index(k)];
    double sum = line[index(unknowns_)];
    for (int e = 0; e < row.size; ++e) sum += row.entries[index(e)].value * line[index(row.entries[index(e)].unknown)];
    step[index(k)] = sum;
  }
  const int leaving = leaving_row(step);
  if (leaving < 0) return false;
  const double least = weight_[index(leaving)] / step[index(leaving)];
  Numbers& pivot = inverse_[index(leaving)];
  const double scale = 1 / step[index(leaving)];
  for (int c = 0; c < size_; ++c) {
    pivot[index(c)] *= scale;
    at_[index(c)] += missing * pivot[index(c)];
  }
  for (int k = 0; k < size_; ++k) {
    if (k == leaving) continue;
    const double factor = step[index(k)];
    if (factor == 0) continue;
    for (int c = 0; c < size_; ++c) inverse_[index(k)][index(c)] -= factor * pivot[index(c)];
    weight_[index(k)] = std::fmax(0.0, weight_[index(k)] - factor * least);
  }
  weight_[index(leaving)] = least;
  basis_[index(leaving)] = row;
  return true;
}

double Program::certain_slack() const {
  // Any multipliers prove something: what they do not cancel is charged at the largest an unknown can be.
  Numbers rest{};
  double value = 0;
  double size = 0;
  for (int k = 0; k < size_; ++k) {
    const double weight = std::fmax(0.0, inverse_[index(k)][index(unknowns_)]);
    const Row& row = basis_[index(k)];
    value += weight * row.bound;
    size += weight * (1 + std::abs(row.bound));
    for (int e = 0; e < row.size; ++e)
      rest[index(row.entries[index(e)].unknown)] += weight * row.entries[index(e)].value;
  }
  for (int k = 0; k < unknowns_; ++k) value -= std::abs(rest[index(k)]);
  return value - k_rounding * size;
}

}  // namespace cotter::geometry::packing
