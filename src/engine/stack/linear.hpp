#pragma once
// Forms with their names looked up: what assess and search compute on. A halved form is kept as its undivided sum, with
// window, wish and target multiplied instead, so that nothing is ever divided before it is decided.

#include <tl/expected.hpp>

#include "engine/stack/problem.hpp"

namespace cotter::engine::stack {

struct Factor {
  std::size_t term = 0;
  std::int64_t factor = 0;
};

/// All lengths here are `divisor` times the form's.
struct LinearForm {
  std::vector<Factor> factors;             ///< by rising index of the term, none of them 0
  std::vector<std::int64_t> slot_factors;  ///< one for each slot
  std::int64_t divisor = 1;
  Interval<Length> range;
  Length nominal;
  std::optional<Interval<Length>> window;
  std::optional<Interval<Length>> wish;
  std::optional<Length> target;
};

/// One choice of the search: how many of this piece go into this slot?
struct Variable {
  std::size_t slot = 0;
  std::size_t piece = 0;
  int most = 0;
};

struct Linear {
  std::vector<LinearForm> forms;
  std::vector<Variable> variables;  ///< thick pieces first, then by index of the piece, then by slot
};

/// **Fails with** every unknown name, double id and number out of bounds.
tl::expected<Linear, std::vector<Fault>> resolve(const Problem& problem);

/// `interval` times `factor`, ends swapped when the factor is negative.
Interval<Length> scaled(Interval<Length> interval, std::int64_t factor);

}  // namespace cotter::engine::stack
