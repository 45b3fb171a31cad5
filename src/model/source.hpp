#pragma once
// Limits with their source and with who may pass them.

#include <string>

namespace cotter::model {

/// Who may let a limit be passed. Brakes, steering, wheel retention, insertion, pressure and composite limits are
/// `nobody` or `maker`.
enum class MayPass { nobody, mechanic, maker };

/// What a rule protects when it is more than comfort. A guarded rule that rests on an assumed or unknown value is never
/// `ok`, and a finding on it cannot be accepted.
enum class Guards { nothing, brake, steering, axle, insertion, pressure, composite };

/// Where a rule or a number comes from. `kind` says how far it may be trusted.
struct Source {
  enum class Kind { standard, maker, handbook, common_practice };
  Kind kind = Kind::common_practice;
  std::string text = "common practice, no source";  ///< document and clause
  bool operator==(const Source&) const = default;
};

}  // namespace cotter::model
