#pragma once
// Short ways to write stack problems in tests. Lengths in micrometres unless said.

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "engine/stack/solve.hpp"

namespace cotter::engine::stack {

inline Length um(std::int64_t n) {
  return quantity::micrometres(n);
}
inline Interval<Length> um(std::int64_t low, std::int64_t high) {
  return {um(low), um(high)};
}
inline Interval<Length> at_least(std::int64_t low) {
  return {um(low), k_no_high};
}

inline Term exact(std::string id, std::int64_t value) {
  return {std::move(id), Interval<Length>(um(value)), um(value)};
}

inline Term plus_minus(std::string id, std::int64_t value, std::int64_t deviation) {
  return {std::move(id), um(value - deviation, value + deviation), um(value)};
}

/// Everything that lies in `list`, as "slot:piece*count" joined by blanks.
inline std::string written(const std::vector<Use>& uses, const Problem& problem) {
  std::string text;
  for (const Use& use : uses) {
    if (!text.empty()) text += ' ';
    text += problem.slots[use.slot].id + ':' + problem.kit[use.piece].id + '*' + std::to_string(use.count);
  }
  return text;
}

}  // namespace cotter::engine::stack
