#pragma once
// Do two interfaces mate? A problem is a list of checks; each check is a law with its operands as intervals and the
// window its number must lie in. The answer says whether that holds for every value within the limits, for none, or for
// some, which edge governs, by how much, and which values each operand may have.
//
// Not for: strength, press force or wear; a fit that holds here still needs the maker's word on the material.
// Formulas and sources: docs/fit.md.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/fit/laws/law.hpp"
#include "quantity/interval.hpp"
#include "quantity/value.hpp"

namespace cotter::engine::fit {

using quantity::Certainty;
using quantity::Dimension;
using quantity::Mixed;
using quantity::Range;

/// Operands, windows and parameters beyond this are refused, so that no sum leaves its integer.
inline constexpr std::int64_t k_most_base_units = 1'000'000'000'000'000;
inline constexpr std::int64_t k_most_parameter = 100'000;
/// Stands for "no end" in the ranges of an Influence.
inline constexpr std::int64_t k_open_end = 4'000'000'000'000'000;

/// A value that takes a role of the law. All amounts are in the base unit of `dimension`.
struct Operand {
  std::string role;
  Range range;
  std::int64_t nominal = 0;
  Dimension dimension = Dimension::length;
  bool attested = true;  ///< measured, or from a maker's or a standard's paper
  bool known = true;     ///< false: the range is merely what is possible, so it has no distribution
};

/// Either end may be left out.
struct Window {
  std::optional<Mixed> low;
  std::optional<Mixed> high;
};

struct Check {
  std::string id;
  Law law = Law::difference;
  std::vector<Operand> operands;
  /// Role -> word of the one side, word of the other. An empty word is not known.
  std::map<std::string, std::pair<std::string, std::string>> words;
  Window must;    ///< where the number must lie; left out: see `Unwindowed` of the law
  Window should;  ///< where common practice puts it
  /// Whole numbers of the law, for example `factor_permille`. An exact count among the operands serves as well.
  std::map<std::string, std::int64_t> parameters;
};

struct Problem {
  std::vector<Check> checks;
};

/// Two words or values that had to be the same and are not.
struct Mismatch {
  std::string role;
  std::string own;
  std::string other;
  bool operator==(const Mismatch&) const = default;
};

/// What one operand does to the answer.
struct Influence {
  std::string role;
  std::optional<Range> holds;     ///< in here every demand is met, whatever the others are; none: no such value
  std::optional<Range> may_hold;  ///< outside of it some demand fails, whatever the others are; none: no value will do
  double share = 0;               ///< part of the width of the demands that comes from this operand, 0 to 1
};

struct CheckResult {
  std::string id;
  Certainty must = Certainty::open;
  Certainty should = Certainty::open;
  std::optional<Range> result;  ///< the law's number, rounded outward to whole base units; none: words only
  Dimension dimension = Dimension::length;
  /// Where the number must lie for certain: the window of the check and the demands of the law, at their worst.
  Window asked;
  /// Distance of the worst corner of the limits to the governing edge, rounded down; negative: short by so much.
  std::int64_t margin = 0;
  Edge governs = Edge::none;  ///< none: the number has no window
  bool too_low = false;       ///< fails for certain, below the window
  bool too_high = false;      ///< fails for certain, above the window; both: no number would do
  std::vector<Mismatch> mismatches;
  std::vector<std::string> unknown_words;  ///< word roles that nobody has stated on one side or both
  std::string formula;
  std::vector<Influence> influences;  ///< in the order of the law's roles
  std::vector<std::string> rests_on;  ///< roles of operands that nobody vouches for
  /// Chance that the number lies in its window when every operand is spread evenly and independently over its limits.
  /// Only for laws with one linear number and no other demand, and only when every operand is known.
  std::optional<double> probability;
};

struct Result {
  std::vector<CheckResult> checks;  ///< in the order of the problem
};

/// What is wrong with a check.
struct Fault {
  enum class Kind {
    missing_role,
    unknown_role,
    double_role,
    wrong_dimension,
    missing_word,
    unknown_word,
    missing_parameter,
    bad_parameter,
    window_without_number,
    window_swapped,
    out_of_bounds
  };
  Kind kind;
  std::string name;      ///< role, word, parameter or window
  std::string accepted;  ///< what the law takes there
  bool operator==(const Fault&) const = default;
};

}  // namespace cotter::engine::fit
