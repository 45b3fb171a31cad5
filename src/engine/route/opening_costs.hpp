#pragma once
// What the size of an aperture costs: the steps of enlargement, and letting more than one line through.

#include <cstdint>
#include <vector>

#include "engine/route/problem.hpp"

namespace cotter::engine::route {

struct OpeningCosts {
  std::vector<std::vector<std::int64_t>> by_steps;  ///< by aperture and steps, never falling
  std::vector<std::int64_t> second_line;            ///< by aperture: extra as soon as two lines pass

  std::int64_t of(int aperture, int steps, int lines) const {
    const auto a = static_cast<std::size_t>(aperture);
    return by_steps[a][static_cast<std::size_t>(steps)] + (lines > 1 ? second_line[a] : 0);
  }
};

/// The costs of the problem itself.
OpeningCosts opening_costs(const Problem& problem);

}  // namespace cotter::engine::route
