#pragma once
// Pieces of findings that several adapters need; knows no engine.

#include <string>
#include <vector>

#include "model/finding.hpp"
#include "plan/assembly.hpp"
#include "quantity/text.hpp"

namespace cotter::plan {

/// `rule@first,second` in the job's names, the places in a fixed order, so that it survives any change of numbers.
/// Some feature is of composite, whatever else the part is made of.
bool has_composite_feature(const model::Part& part);

std::string finding_id(const std::string& rule, std::vector<std::string> about);

/// A value of the job as part of a working; `symbol` is its role in the formula.
model::NamedValue named(const std::string& symbol, const FoundValue& found);
/// A value that the rule itself fixes.
model::NamedValue named_fixed(const std::string& symbol, const quantity::Value& value);

/// A window as a range; an end that is missing is the open end.
std::optional<quantity::Range> as_range(const model::Window& window);

/// The measurement of a value: guide from its kind, tool from the shop.
model::Measurement measurement_of(const Assembly& assembly, const FoundValue& found);

/// What finding out too late costs in hundredths of a minute: the time that the template states, and the price of the
/// part that is spoilt as time at the shop's rate. A part without a price, or in another currency, counts for nothing.
std::int64_t late_cost(const Assembly& assembly, std::int64_t late, const std::string& spoils);

/// Puts verdict, operation, advice and addition of an outcome into a finding whose number lies outside its window.
void apply_outcome(const model::Outcome& outcome, const Assembly& assembly, model::Finding& finding);
/// Names the permitted change of a `rework` finding; the order of work takes that operation in.
void set_operation(const std::string& id, const Assembly& assembly, model::Finding& finding);
model::Verdict verdict_of(const model::Outcome& outcome);

/// Labels of the values that nobody vouches for.
std::vector<std::string> unattested_labels(const std::vector<model::NamedValue>& values);

/// What is true of a guarded or unguarded requirement that holds for certain: ok, accept, or measure.
struct Standing {
  bool rests_on_unattested = false;
  bool within_wish = true;
};
model::Verdict verdict_when_held(const Standing& standing, model::Guards guards);

}  // namespace cotter::plan
