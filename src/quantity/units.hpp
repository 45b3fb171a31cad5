#pragma once
// The units a value may be written in, and what to say about them to someone who wrote another. Inside of this box.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "quantity/value.hpp"

namespace cotter::quantity {

/// How an amount in this unit becomes whole base units.
enum class UnitRule {
  exact,     ///< must be whole
  inch,      ///< vulgar fractions allowed; enclosed outward when not whole
  enclosed,  ///< enclosed outward when not whole
  per_inch   ///< a reciprocal: threads in one inch; enclosed outward when not whole
};

/// One spelling of a unit; `numerator / denominator` base units are one of it.
struct Unit {
  std::string_view spelling;
  Dimension dimension;
  UnitRule rule;
  std::int64_t numerator;
  std::int64_t denominator;
};

/// A count is written without one.
Unit unit_of_counts();
/// The longest unit of any dimension that `text` starts with and that ends at a space or at the end of the text.
std::optional<Unit> leading_unit(std::string_view text);
/// The units of a dimension as words for an error: "g, kg or mg".
std::string_view accepted_units(Dimension dimension);
/// A whole value of a dimension as words for an error: "a torque such as 5 N·m".
std::string_view example_of(Dimension dimension);
/// The finest amount a dimension can hold, as words for an error: "steps of 0.001 N".
std::string_view finest_step(Dimension dimension);
/// How far a guess may go: the same letters in another case or the beginning of a unit; or a slip of the finger as
/// well.
enum class Guess { near, far };
/// The spelling for `dimension` that was most likely meant by `word`, or empty.
std::string nearest_unit(std::string_view word, Dimension dimension, Guess guess);

}  // namespace cotter::quantity
