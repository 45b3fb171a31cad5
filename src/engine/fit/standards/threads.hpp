#pragma once
// Screw threads with the ISO 68-1 profile: basic diameters by formula, limits of size by table.
//
// Valid for metric threads and for inch pitches cut with the same profile (shell threads after ISO 6696).
// Not for 55 degree threads, nor for pedal and axle threads with their own profile.

#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "engine/fit/standards/class_error.hpp"
#include "quantity/amount.hpp"
#include "quantity/interval.hpp"

namespace cotter::engine::fit {

/// A thread as it is called: major diameter and pitch.
struct ThreadName {
  quantity::Length major;
  quantity::Interval<quantity::Length> pitch;  ///< wider than 0 where threads per inch give no whole nanometre
  bool operator==(const ThreadName&) const = default;
};

/// Reads `M5` (coarse pitch), `M10x1` or `1.37 in x 24 tpi`.
///
/// **Fails with** bad_class; no_row for a metric thread without a pitch that is not in the table of coarse ones.
tl::expected<ThreadName, ClassError> parse_thread(std::string_view text);

struct BasicProfile {
  quantity::Length pitch_diameter;
  quantity::Length minor;  ///< of the internal thread, D1
};

/// Basic diameters: major - 2 * 3/8 H and major - 2 * 5/8 H, H = pitch * sqrt(3)/2. **Accuracy** 1 nm.
/// **Source** ISO 68-1, basic profile.
BasicProfile basic_profile(quantity::Length major, quantity::Length pitch);

struct EndLimits {
  std::optional<quantity::Length> least;
  std::optional<quantity::Length> greatest;
};

struct ThreadLimits {
  EndLimits major;
  EndLimits pitch_diameter;
  EndLimits minor;
  std::string source;
};

/// Limits of size. Class `basic` gives the basic diameters for any thread; `6g` the external, `6H` the internal limits.
/// An end that the standard leaves open, or that no source was found for, is empty.
///
/// **Accuracy** 0.001 mm, as the standard rounds. **Fails with** bad_class, no_row.
/// **Source** ISO 965-1 and -2 through catalog/standards/iso965_*.csv; ISO 68-1.
tl::expected<ThreadLimits, ClassError> thread_limits(quantity::Length major, quantity::Length pitch,
                                                     std::string_view tolerance_class);

}  // namespace cotter::engine::fit
