#pragma once
// Answers that were found to be impossible together.

#include <cstdint>
#include <vector>

#include "engine/route/domains.hpp"
#include "engine/route/literals.hpp"

namespace cotter::engine::route {

class Nogoods {
 public:
  explicit Nogoods(const Variables& variables) : at_(2 * variables.count()) {}

  /// Remembers that the literals cannot all hold; two or more of them. Very long ones are not kept; forgets the longer
  /// older half when full.
  void add(std::vector<Literal> literals);

  enum class Check { holds, broken };
  /// Looks at all nogoods with a literal that has just become true. Appends what then must not hold to `forbidden`.
  Check follow(const Domains& domains, const Variables& variables, Literal now, std::vector<Literal>& forbidden) const;

 private:
  void forget();

  std::vector<std::vector<Literal>> list_;
  std::vector<std::vector<std::uint32_t>> at_;  ///< by literal: nogoods that have it
};

}  // namespace cotter::engine::route
