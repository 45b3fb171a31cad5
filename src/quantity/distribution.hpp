#pragma once
// Exact convolution of independent uniform errors: how likely is it that a sum of toleranced lengths is at most x?
//
// Not for: dependent errors (both cups turned on one machine), or values whose spread was never declared. Those
// have no probability and this header offers none.

#include <cstdint>
#include <tl/expected.hpp>
#include <vector>

#include "quantity/amount.hpp"
#include "quantity/interval.hpp"

namespace cotter::quantity {

/// Sum of independent lengths, each uniform over its interval (an exact length is an interval of width 0).
/// A triangular length is the sum of two uniform ones.
class UniformSum {
 public:
  /// Most terms of non-zero width that the exact formula is offered for.
  static constexpr std::size_t k_most_terms = 16;

  enum class Refusal { too_many_terms };
  static tl::expected<UniformSum, Refusal> of(const std::vector<Interval<Length>>& terms);

  /// P(sum <= x), correct to 1e-15.
  ///
  /// **Method** inclusion-exclusion over the corners of the box of errors, in whole-number arithmetic of unlimited size
  /// (Boost.Multiprecision), divided once at the end. **Source** closed form of the Irwin-Hall distribution for unequal
  /// widths: W. Feller, An Introduction to Probability Theory and Its Applications, vol. II, I.9 (from memory).
  double probability_at_most(Length x) const;
  /// P(window.low <= sum <= window.high).
  double probability_within(Interval<Length> window) const;

  Interval<Length> support() const { return support_; }
  /// Variance in square nanometres.
  double variance() const;

 private:
  std::vector<std::int64_t> widths_;  ///< non-zero widths, nanometres
  Interval<Length> support_;
};

}  // namespace cotter::quantity
