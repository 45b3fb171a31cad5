#include "quantity/value.hpp"

#include <utility>

#include "quantity/ensure.hpp"

namespace cotter::quantity {

Range Value::range() const {
  ensure(range_known, "an unknown value has no range until its reader has filled it in");
  return {Mixed::from_base(nominal + lower), Mixed::from_base(nominal + upper)};
}

bool is_attested(const Value& value) {
  switch (value.origin.kind) {
    case OriginKind::measured:
    case OriginKind::maker:
    case OriginKind::standard:
      return true;
    case OriginKind::assumed:
    case OriginKind::unknown:
      break;
  }
  return false;
}

Interval<Length> length_interval(const Value& value) {
  ensure(value.dimension == Dimension::length, "a length was asked of a value that is none");
  const Range range = value.range();
  return {nanometres(range.low().base()), nanometres(range.high().base())};
}

Length nominal_length(const Value& value) {
  ensure(value.dimension == Dimension::length, "a length was asked of a value that is none");
  ensure(value.range_known, "an unknown value has no nominal until its reader has filled it in");
  return nanometres(value.nominal);
}

Value exact_length(Length length, Origin origin) {
  Value value;
  value.nominal = in_nanometres(length);
  value.origin = std::move(origin);
  return value;
}

std::string_view word_for(OriginKind kind) {
  switch (kind) {
    case OriginKind::measured:
      return "measured";
    case OriginKind::maker:
      return "maker";
    case OriginKind::standard:
      return "standard";
    case OriginKind::assumed:
      return "assumed";
    case OriginKind::unknown:
      break;
  }
  return "unknown";
}

std::string_view word_for(Dimension dimension) {
  switch (dimension) {
    case Dimension::length:
      return "length";
    case Dimension::angle:
      return "angle";
    case Dimension::torque:
      return "torque";
    case Dimension::force:
      return "force";
    case Dimension::mass:
      return "mass";
    case Dimension::pressure:
      return "pressure";
    case Dimension::duration:
      return "duration";
    case Dimension::count:
      break;
  }
  return "count";
}

}  // namespace cotter::quantity
