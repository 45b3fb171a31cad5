#pragma once
// A dimension as a builder knows it: nominal, deviations, unit, and where it comes from. Never a bare number.

#include <cstdint>
#include <string>
#include <string_view>

#include "quantity/amount.hpp"
#include "quantity/interval.hpp"

namespace cotter::quantity {

/// What a value measures; decides its base unit and the units it may be written in.
/// Base units: length nm, angle 1e-6 degree, torque 1e-6 N·m, force 1e-3 N, mass mg, pressure Pa, duration ms,
/// count 1.
enum class Dimension { length, angle, torque, force, mass, pressure, duration, count };

/// An amount whose dimension is known only at run time.
using Mixed = Amount<struct MixedTag>;
using Range = Interval<Mixed>;

enum class OriginKind { measured, maker, standard, assumed, unknown };

/// Where a value comes from. Fields that do not apply are empty.
struct Origin {
  OriginKind kind = OriginKind::unknown;
  std::string by;      ///< person who measured
  std::string tool;    ///< tool used to measure
  std::string when;    ///< date of the measurement, ISO 8601
  std::string source;  ///< document and place in it, for maker and standard; the reason, for assumed

  bool operator==(const Origin&) const = default;
};

/// Whether the deviations were written, or were filled in by a rule because the paper gave none; or were written finer
/// than the tool reads (widened), or with a tool that reads this feature low (shifted).
enum class Deviations { stated, unstated, filled, widened, shifted };

/// A dimension with its tolerance and origin.
///
/// `unknown` values carry the whole range their interface kind permits, once a reader has filled it in; until then
/// `range_known` is false and no engine may see them.
struct Value {
  Dimension dimension = Dimension::length;
  std::int64_t nominal = 0;  ///< in base units
  std::int64_t lower = 0;    ///< lower deviation, signed, in base units
  std::int64_t upper = 0;    ///< upper deviation, signed, in base units
  Deviations deviations = Deviations::unstated;
  bool range_known = true;
  Origin origin;
  std::string text;  ///< as the user wrote it, so that a save changes nothing

  Range range() const;
  bool operator==(const Value&) const = default;
};

/// True when the value may carry a safety verdict: measured, or from a maker's or a standard's paper.
bool is_attested(const Value& value);

/// The value as a length. Requires `dimension == length`.
Interval<Length> length_interval(const Value& value);
Length nominal_length(const Value& value);

/// An exact length with an origin, for values that a plan computes.
Value exact_length(Length length, Origin origin);

std::string_view word_for(OriginKind kind);
std::string_view word_for(Dimension dimension);

}  // namespace cotter::quantity
