#include "geometry/packing/program.hpp"

#include <cmath>
#include <utility>

#include "quantity/ensure.hpp"

namespace cotter::geometry::packing {

namespace {

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

constexpr double k_least_pivot = 1e-11;
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

bool Program::enter(const Row& row) {
  const double missing = shortfall(row);
  Numbers step;
  int leaving = -1;
  double least = 0;
  for (int k = 0; k < size_; ++k) {
    const Numbers& line = inverse_[index(k)];
    double sum = line[index(unknowns_)];
    for (int e = 0; e < row.size; ++e) sum += row.entries[index(e)].value * line[index(row.entries[index(e)].unknown)];
    step[index(k)] = sum;
    if (sum < k_least_pivot) continue;
    const double ratio = weight_[index(k)] / sum;
    if (leaving < 0 || ratio < least || (ratio == least && sum > step[index(leaving)])) {
      leaving = k;
      least = ratio;
    }
  }
  if (leaving < 0) return false;
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

void Program::refresh() {
  std::array<Numbers, k_most_unknowns> left{};
  for (int k = 0; k < size_; ++k) {
    const Row& row = basis_[index(k)];
    for (int e = 0; e < row.size; ++e)
      left[index(row.entries[index(e)].unknown)][index(k)] += row.entries[index(e)].value;
    left[index(unknowns_)][index(k)] = 1;
    inverse_[index(k)] = {};
    inverse_[index(k)][index(k)] = 1;
  }
  for (int k = 0; k < size_; ++k) {
    int pivot = k;
    for (int i = k + 1; i < size_; ++i)
      if (std::abs(left[index(i)][index(k)]) > std::abs(left[index(pivot)][index(k)])) pivot = i;
    std::swap(left[index(k)], left[index(pivot)]);
    std::swap(inverse_[index(k)], inverse_[index(pivot)]);
    const double diagonal = left[index(k)][index(k)];
    // A basis is never singular; should rounding say so, the proofs notice.
    const double scale = 1 / (diagonal == 0 ? k_least_pivot : diagonal);
    for (int c = 0; c < size_; ++c) {
      left[index(k)][index(c)] *= scale;
      inverse_[index(k)][index(c)] *= scale;
    }
    for (int i = 0; i < size_; ++i) {
      if (i == k) continue;
      const double factor = left[index(i)][index(k)];
      for (int c = 0; c < size_; ++c) {
        left[index(i)][index(c)] -= factor * left[index(k)][index(c)];
        inverse_[index(i)][index(c)] -= factor * inverse_[index(k)][index(c)];
      }
    }
  }
  at_ = {};
  for (int k = 0; k < size_; ++k) {
    weight_[index(k)] = std::fmax(0.0, inverse_[index(k)][index(unknowns_)]);
    for (int c = 0; c < size_; ++c) at_[index(c)] += basis_[index(k)].bound * inverse_[index(k)][index(c)];
  }
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
