#pragma once
// Limits of size by ISO 286 (holes and shafts) and ISO 492 (rolling bearings, Normal class).
//
// Valid for sizes over 3 mm up to and including 80 mm, as far as the tables in catalog/standards have a sourced value;
// the ranges are "over .. up to and including".

#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "engine/fit/standards/class_error.hpp"
#include "quantity/amount.hpp"
#include "quantity/interval.hpp"

namespace cotter::engine::fit {

/// Deviations from the nominal size, and where they come from.
struct ClassLimits {
  quantity::Interval<quantity::Length> deviations;
  std::string source;
};

/// The nominal size with the deviations added.
quantity::Interval<quantity::Length> limits_of_size(quantity::Length nominal, const ClassLimits& limits);

/// Deviations of a hole (capital letter) or shaft (small letter) class such as `H7` or `js6`.
///
/// **Method** grade and fundamental deviation from tables; holes D to H mirror the shafts; holes K, M and N up to IT8
/// and P, R and S up to IT7 take the Delta rule: minus the shaft's deviation plus the step from the next finer grade.
/// Coarser ones mirror the shafts, and N is 0 (this last sentence from memory).
/// **Accuracy** exact; js with an odd grade is not rounded (21 µm gives ±10.5 µm).
/// **Fails with** bad_class for letters other than d e f g h js k m n p r s and grades other than 5 to 11; no_row.
/// **Source** ISO 286-1 and ISO 286-2 through the copies named in catalog/standards/iso286_*.csv.
tl::expected<ClassLimits, ClassError> iso286_limits(quantity::Length nominal, std::string_view tolerance_class);

/// Deviations of the outside diameter of a bearing of the Normal class (mean diameter in a single plane).
///
/// **Fails with** no_row outside of over 6 to 80 mm. **Source** ISO 492 through catalog/standards/iso492_normal.csv.
tl::expected<ClassLimits, ClassError> iso492_outer(quantity::Length nominal);

/// Deviations of the bore of a bearing of the Normal class (mean diameter in a single plane).
///
/// **Fails with** no_row outside of over 3 to 80 mm. **Source** ISO 492 through catalog/standards/iso492_normal.csv.
tl::expected<ClassLimits, ClassError> iso492_bore(quantity::Length nominal);

}  // namespace cotter::engine::fit
