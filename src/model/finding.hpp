#pragma once
// What an engine has to say, as values: no sentence here. The words stand in words/en.

#include <optional>
#include <string>
#include <vector>

#include "model/kind.hpp"
#include "model/names.hpp"
#include "model/part.hpp"
#include "model/source.hpp"
#include "quantity/value.hpp"

namespace cotter::model {

/// Worst last, so that they can be compared.
enum class Verdict { ok, accept, add, measure, rework, stop };
std::string_view word_for(Verdict verdict);

/// A value that a finding rests on.
struct NamedValue {
  std::string symbol;           ///< role in the law or term of the stack: `bore`
  std::string label;            ///< "bore of the shell, right side"
  std::string place_label;      ///< "frame"
  std::optional<ValueRef> ref;  ///< where it stands in the job; empty for a fixed value of the rule
  quantity::Value value;
};

/// Something to add, with how many, how thick, and where it goes.
struct Addition {
  std::string what;  ///< label of the piece or part
  std::string id;    ///< kit piece or part id
  std::int64_t count = 1;
  std::string dimension;  ///< "0.5 mm thick"
  std::string where;      ///< label of the slot or joint
  bool in_kit = false;
  std::optional<Price> price{};
  bool proposed = false;  ///< a proposal that nobody has chosen yet: a part that bridges a joint
};

/// A measurement that would settle the finding, and what each outcome means.
struct Measurement {
  ValueRef ref;
  std::string label;  ///< dimension with its place
  MeasureGuide guide;
  std::string tool_label;                   ///< the shop's tool; empty: none owned, send out or buy
  std::optional<quantity::Range> holds;     ///< measured inside: the requirement holds, whatever the rest
  std::optional<quantity::Range> may_hold;  ///< measured outside: it fails, whatever the rest
  bool with_these_pieces = false;           ///< outside `may_hold` another set of spacers may still do
  std::string below_means, above_means;     ///< verdict words outside `may_hold`
  /// Every other value at its nominal: measured inside, the requirement holds. None: no value will do, or the value is
  /// not stated at all.
  std::optional<quantity::Range> holds_at_nominal;
  std::optional<quantity::Range> wish_at_nominal;  ///< likewise, for the wish; none: there is no wish
  std::vector<quantity::Range> other_choice;       ///< measured inside, another set of pieces would be chosen
};

/// One number of a calculation that goes along with a finding.
struct WorkingStep {
  std::string name;
  std::string formula;
  quantity::Dimension dimension = quantity::Dimension::length;
  quantity::Range range;
};

/// What pressing two parts together does to them; shown in the working.
struct PressWorking {
  std::vector<NamedValue> values;     ///< what goes in beside bore and shaft
  std::vector<WorkingStep> steps;     ///< none: not computed
  std::vector<std::string> missing;   ///< labels of what no part states, without which nothing is computed
  std::vector<std::string> rests_on;  ///< labels of assumed or unknown values under it
  std::string note;                   ///< key of the phrase that says why nothing is computed
  std::string hub_source;             ///< where the elastic constants of the two parts come from
  std::string shaft_source;
  std::optional<quantity::Range> most_stress;               ///< what the maker allows at the bore
  quantity::Certainty stress = quantity::Certainty::holds;  ///< whether the stress stays below it
  bool composite = false;                                   ///< a wall of composite takes the pressure
};

/// A maker's paper by which a limit passes.
struct PassingPaper {
  std::string id;
  std::string written_by;  ///< "maker of the frame"
  std::string document, page, on;
  quantity::Range window;  ///< what it allows
};

/// What the margin is against.
enum class Edge { none, from, to };

struct Finding {
  std::string id;  ///< rule@places.interfaces: never numbers, never words
  std::string rule;
  std::string rule_label;
  std::string law;  ///< law, or `stack`, `route`, `sequence`, `place`
  Verdict verdict = Verdict::ok;
  std::string subject;  ///< what it is about: "shell, right side / bearing cup"
  std::vector<InterfaceRef> about;
  std::vector<NamedValue> values;
  std::string formula;  ///< with symbols: "bore - shaft"
  std::optional<quantity::Range> result;
  std::optional<quantity::Range> without;  ///< the same number without the pieces that the finding adds
  std::optional<quantity::Range> must;     ///< window; an open end is the largest amount
  std::optional<quantity::Range> should;
  std::int64_t margin = 0;  ///< distance to the governing edge in base units; negative: short by so much
  Edge governs = Edge::none;
  std::optional<double> probability;    ///< of holding, when open and every spread is declared
  std::vector<std::string> mismatches;  ///< words that differ: "hand right / left"
  std::vector<Addition> additions;
  std::vector<Measurement> measurements;
  std::string operation;  ///< rework: id of the permitted change
  std::string operation_label;
  std::string advice;
  std::vector<std::string> rests_on;                       ///< labels of assumed or unknown values under it
  std::vector<std::pair<std::string, std::string>> facts;  ///< other named facts for the words: key -> text
  Guards guards = Guards::nothing;
  MayPass may_pass = MayPass::mechanic;
  Source source;
  std::int64_t late = 0;  ///< what finding out too late costs, hundredths of a minute
  std::string only_with;  ///< fact without which this finding asks nothing (see JointForm)
  std::optional<PressWorking> press;
  std::string accepted_by;  ///< a standing decision
  std::string accepted_reason;
  std::string accepted_when;
  std::optional<Verdict> passed;        ///< what it said before that decision let its limit pass
  std::optional<PassingPaper> paper{};  ///< by which it passed; empty: by a mechanic's decision
};

/// Whether the finding has a number with a distance to a limit.
bool has_margin(const Finding& finding);

/// Whether a named person may sign for a finding, or why not.
enum class Acceptance {
  may_sign,    ///< within every limit: a departure from common practice
  may_pass,    ///< outside a limit that a mechanic may pass with a written reason
  nothing,     ///< it says ok
  already,     ///< a decision stands
  guarded,     ///< guards brakes, steering, axle, insertion, pressure or composite
  undecided,   ///< something has to be measured first
  unlike,      ///< the two are not made for each other: no amount to sign for
  no_limit,    ///< no number outside a window: a part, a line or an order is missing
  nobody,      ///< its limit may be passed by nobody
  maker,       ///< its limit may be passed by the maker's paper only
  unattested,  ///< how far the limit is passed rests on a value that nobody vouches for
};

/// The window's open end.
constexpr std::int64_t k_open_end = 4'000'000'000'000'000;

}  // namespace cotter::model
