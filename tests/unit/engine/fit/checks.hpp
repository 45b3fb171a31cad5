#pragma once
// Short ways to write checks in the tests of this box. Lengths in whole micrometres unless said.

#include <string>
#include <utility>
#include <vector>

#include "engine/fit/solve.hpp"

namespace cotter::engine::fit::testing {

inline Operand base(std::string role, std::int64_t low, std::int64_t high, Dimension dimension) {
  return {std::move(role), Range(Mixed::from_base(low), Mixed::from_base(high)), low + (high - low) / 2, dimension};
}

inline Operand um(std::string role, std::int64_t low, std::int64_t high) {
  return base(std::move(role), low * 1000, high * 1000, Dimension::length);
}

inline Operand um(std::string role, std::int64_t exact) {
  return um(std::move(role), exact, exact);
}

inline Operand count(std::string role, std::int64_t exact) {
  return base(std::move(role), exact, exact, Dimension::count);
}

inline Mixed nm_of_um(std::int64_t micrometres) {
  return Mixed::from_base(micrometres * 1000);
}

inline Window from_um(std::int64_t low) {
  return {nm_of_um(low), {}};
}

inline Window to_um(std::int64_t high) {
  return {{}, nm_of_um(high)};
}

inline Window um_window(std::int64_t low, std::int64_t high) {
  return {nm_of_um(low), nm_of_um(high)};
}

inline Check check(Law law, std::vector<Operand> operands, Window must = {}, Window should = {}) {
  Check made;
  made.id = "check";
  made.law = law;
  made.operands = std::move(operands);
  made.must = must;
  made.should = should;
  return made;
}

/// The result of a length law in whole micrometres.
inline std::pair<std::int64_t, std::int64_t> result_um(const CheckResult& result) {
  return {result.result->low().base() / 1000, result.result->high().base() / 1000};
}

inline const Influence& influence(const CheckResult& result, const std::string& role) {
  for (const Influence& found : result.influences)
    if (found.role == role) return found;
  throw std::out_of_range(role);
}

}  // namespace cotter::engine::fit::testing
