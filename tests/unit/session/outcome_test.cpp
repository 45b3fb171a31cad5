// What a plan says a measurement would mean, held against a plan made anew with that very value measured.
#include <gtest/gtest.h>

#include "document/parse.hpp"
#include "examples.hpp"
#include "quantity/text.hpp"

namespace cotter::session {
namespace {

using document::Node;
using model::Finding;
using model::Verdict;

std::string without_origin(std::string text) {
  const std::size_t word = text.rfind(" maker");
  return word == std::string::npos ? text : text.erase(word);
}

/// The value as exact text, when its kind permits it at all.
std::optional<std::string> exact(const Finding& finding, const model::ValueRef& ref, std::int64_t base) {
  for (const model::NamedValue& named : finding.values)
    if (named.ref && *named.ref == ref) {
      quantity::Value value = named.value;
      value.nominal = base;
      value.lower = value.upper = 0;
      value.deviations = quantity::Deviations::stated;
      value.origin.kind = quantity::OriginKind::maker;
      return without_origin(quantity::print_value(value));
    }
  return std::nullopt;
}

bool settled(Verdict verdict) {
  return verdict == Verdict::ok || verdict == Verdict::accept || verdict == Verdict::add;
}

struct Tally {
  int good = 0, bad = 0;
};

/// Plans anew with the value at `base` and gives the finding's verdict; nothing when the kind does not permit it.
std::optional<Finding> finding_with(const Node& job, const Finding& finding, const model::ValueRef& ref,
                                    std::int64_t base) {
  const auto text = exact(finding, ref, base);
  if (!text) return std::nullopt;
  Node changed = job;
  measure(changed, ref.text(), *text);
  if (!refusal_of(changed).empty()) return std::nullopt;
  const model::Plan plan = plan_of(changed);
  const Finding* after = find(plan, finding.id);
  return after == nullptr ? std::nullopt : std::optional(*after);
}

/// Pieces that another length of the stack has not settled leave every length they lie in unsettled too.
bool waits_for_pieces(const Finding& finding) {
  return finding.law == "stack" && finding.verdict == Verdict::measure && finding.measurements.empty();
}

void expect_word(const Finding& after, const std::string& word, const std::string& where) {
  EXPECT_TRUE(model::word_for(after.verdict) == word || waits_for_pieces(after))
      << model::word_for(after.verdict) << " instead of " << word << " " << where;
}

void check_outcomes(const Node& job, const Finding& finding, const model::Measurement& measurement, Tally& tally) {
  SCOPED_TRACE(finding.id + " by " + measurement.ref.text());
  // Only where nothing else is open can one value settle the finding.
  const bool alone = finding.rests_on.size() <= 1;
  if (measurement.holds && alone)
    for (const std::int64_t base : {measurement.holds->low().base(), measurement.holds->high().base()})
      if (const auto after = finding_with(job, finding, measurement.ref, base)) {
        EXPECT_TRUE(settled(after->verdict)) << model::word_for(after->verdict) << " at " << base;
        ++tally.good;
      }
  // With other pieces in its slots a stack may still do; its words say so, and nothing is foretold.
  if (!measurement.may_hold || measurement.with_these_pieces) return;
  const std::int64_t low = measurement.may_hold->low().base(), high = measurement.may_hold->high().base();
  if (const auto below = finding_with(job, finding, measurement.ref, low - 1)) {
    expect_word(*below, measurement.below_means, "below " + std::to_string(low));
    ++tally.bad;
  }
  if (const auto above = finding_with(job, finding, measurement.ref, high + 1)) {
    expect_word(*above, measurement.above_means, "above " + std::to_string(high));
    ++tally.bad;
  }
}

TEST(Outcome, OfEveryMeasurementOfTheExampleIsWhatThePlanSays) {
  const Node job = example("all_road");
  Tally tally;
  for (const Finding& finding : plan_of(job).findings)
    for (const model::Measurement& measurement : finding.measurements) check_outcomes(job, finding, measurement, tally);
  EXPECT_GT(tally.good, 1);
  EXPECT_GT(tally.bad, 1);
}

TEST(Outcome, AnAssumedValueUnderAGuardedFindingIsAskedForAndItsOutcomesAreTrue) {
  const Node job = example("all_road");
  const model::Plan whole = plan_of(job);
  Tally tally;
  int asked = 0, seen = 0;
  for (const Finding& finding : whole.findings) {
    if (finding.guards == model::Guards::nothing || !settled(finding.verdict)) continue;
    for (const model::NamedValue& named : finding.values) {
      if (!named.ref || ++seen % 4 != 0) continue;  // every fourth: a plan takes tens of milliseconds
      Node doubtful = job;
      quantity::Value value = named.value;
      value.origin.kind = quantity::OriginKind::maker;
      assume(doubtful, named.ref->text(), without_origin(quantity::print_value(value)));
      ASSERT_EQ(refusal_of(doubtful), "") << named.ref->text();
      const model::Plan plan = plan_of(doubtful);
      const Finding* now = find(plan, finding.id);
      ASSERT_NE(now, nullptr);
      EXPECT_EQ(now->verdict, Verdict::measure) << finding.id << " rests on an assumed " << named.ref->text();
      ++asked;
      for (const model::Measurement& measurement : now->measurements)
        if (measurement.ref == *named.ref) check_outcomes(doubtful, *now, measurement, tally);
    }
  }
  EXPECT_GT(asked, 10);
  EXPECT_GT(tally.good, 10);
  EXPECT_GT(tally.bad, 10);
}

}  // namespace
}  // namespace cotter::session
