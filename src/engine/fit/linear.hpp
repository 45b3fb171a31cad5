#pragma once
// Linear forms over a box of whole-number intervals: what a check comes down to. Inside of this box.

#include <cstdint>
#include <optional>
#include <vector>

#include "engine/fit/problem.hpp"
#include "geometry/wide.hpp"

namespace cotter::engine::fit {

using geometry::Wide;

/// The operands by the law's roles.
struct Box {
  std::vector<std::int64_t> low;
  std::vector<std::int64_t> high;
};

/// (factors * operands + constant) / divisor; as a demand, at least 0. The divisor is positive.
struct Linear {
  std::vector<std::int64_t> factors;
  Wide constant = 0;
  std::int64_t divisor = 1;
  Edge edge = Edge::none;
};

Linear linear_of(const Form& form);
Linear negated(Linear linear);
/// Half the sum of the two.
Linear mean(const Linear& a, const Linear& b);

/// Least and greatest of the numerator over the box.
Wide least(const Linear& linear, const Box& box);
Wide greatest(const Linear& linear, const Box& box);

std::int64_t floor_ratio(Wide numerator, std::int64_t divisor);
std::int64_t ceil_ratio(Wide numerator, std::int64_t divisor);

/// Demands that stand together, and what follows from each two of them.
class Demands {
 public:
  void add(Linear demand);
  const std::vector<Linear>& each() const { return each_; }
  Certainty certainty(const Box& box) const;
  /// Whether the demands of this edge, alone or with another one, cannot be met in the box.
  bool fails_at(Edge edge, const Box& box) const;
  /// Values of one operand for which all demands are met at every corner of the others.
  std::optional<Range> holds(std::size_t role, const Box& box) const;
  /// Values of one operand for which the demands can be met at all.
  std::optional<Range> may_hold(std::size_t role, const Box& box) const;

 private:
  std::vector<Linear> each_;
  std::vector<Linear> means_;  ///< of each two
};

}  // namespace cotter::engine::fit
