#pragma once
// What tells two plans apart: a value, made by plan/compare, said by words/difference_words.

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "model/plan.hpp"

namespace cotter::model {

/// A finding that both plans have, or only one of them.
struct FindingChange {
  /// Worst news first.
  enum class Kind {
    worse,         ///< its verdict got worse
    appeared,      ///< only the later plan has it
    lapsed,        ///< same verdict; a decision on it stands no longer
    worse_margin,  ///< same verdict, less room
    better,
    disappeared,
    signed_for,  ///< same verdict; a decision on it stands now
    better_margin,
  };
  Kind kind = Kind::appeared;
  std::optional<Finding> before, after;
};

/// A row of the bill: what fills a place, or which part a line is.
struct PartChange {
  std::string label;  ///< of the place, or the line
  std::optional<BillRow> before, after;
};

/// A line's run; without one, the line has no way in that plan.
struct RunChange {
  std::string line;
  std::optional<Run> before, after;
};

struct CutChange {
  std::string label;
  std::optional<Cut> before, after;
};

struct StepChange {
  std::optional<WorkStep> before, after;
};

/// What all parts of a plan weigh and cost, by currency.
struct Totals {
  std::int64_t mass = 0;  ///< base units
  std::int64_t unweighed = 0, unpriced = 0;
  std::map<std::string, std::int64_t> price;  ///< hundredths
  std::int64_t minutes = 0;                   ///< hundredths of a minute
  bool operator==(const Totals&) const = default;
};

struct PlanDifference {
  std::string before, after;  ///< titles with revision
  std::size_t stops = 0;      ///< of the later plan
  std::vector<FindingChange> findings;
  std::vector<PartChange> parts;
  std::vector<PartChange> orders;  ///< rows to be ordered in one plan only, or of another part
  std::vector<RunChange> runs;
  std::vector<CutChange> cuts;
  std::vector<StepChange> steps;
  Totals totals_before, totals_after;
};

}  // namespace cotter::model
