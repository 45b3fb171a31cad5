// "Measure it: from .. to .. settles it; below .. and above .. it fails" held against brute force on random intervals.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using quantity::OriginKind;

struct Spread {
  std::int64_t low = 0, high = 0;
};

quantity::Value value_of(const Spread& spread, OriginKind kind) {
  quantity::Value value = length(0, 0, kind);
  value.nominal = spread.low;
  value.lower = 0;
  value.upper = spread.high - spread.low;
  return value;
}

/// Over the whole range from the first case on.
rc::Gen<std::int64_t> evenly(std::int64_t from, std::int64_t to) {
  return rc::gen::resize(rc::kNominalSize, rc::gen::inRange(from, to));
}

rc::Gen<Spread> spread(std::int64_t from, std::int64_t to, std::int64_t widest) {
  return rc::gen::map(rc::gen::pair(evenly(from, to), evenly(0, widest)),
                      [](const std::pair<std::int64_t, std::int64_t>& drawn) {
                        return Spread{drawn.first, drawn.first + drawn.second};
                      });
}

const model::Measurement* measurement_of(const model::Finding& finding, const std::string& ref) {
  for (const model::Measurement& one : finding.measurements)
    if (one.ref.text() == ref) return &one;
  return nullptr;
}

/// What is so of one exact value: whether all, or none, of the corners of the others lie in the window.
template <class Number>
void check(const model::Measurement& measurement, const Spread& around, Number in_window) {
  RC_ASSERT(measurement.may_hold || !measurement.holds);
  const std::int64_t span = around.high - around.low + 200;
  for (std::int64_t at = around.low - span; at <= around.high + span; at += std::max<std::int64_t>(1, span / 60)) {
    const quantity::Certainty truth = in_window(at);
    const auto inside = [&](const std::optional<quantity::Range>& range) {
      return range && range->contains(quantity::Mixed::from_base(at));
    };
    RC_ASSERT(inside(measurement.holds) == (truth == quantity::Certainty::holds));
    RC_ASSERT(inside(measurement.may_hold) == (truth != quantity::Certainty::fails));
  }
}

quantity::Certainty summed(const std::vector<bool>& corners) {
  const bool all = std::find(corners.begin(), corners.end(), false) == corners.end();
  return all ? quantity::Certainty::holds : quantity::Certainty::open;
}

RC_GTEST_PROP(Thresholds, FitMatchesBruteForce, ()) {
  const Spread bore = *spread(0, 400, 300), shaft = *spread(0, 200, 100);
  SmallBicycle small;
  small.rule().must = {length(0), length(0)};
  small.rule().must.from->nominal = 10;
  small.rule().must.to->nominal = *evenly(11, 300);
  const std::int64_t most = small.rule().must.to->nominal;
  small.part("frame").interfaces["shell"].values["bore"] = value_of(bore, OriginKind::assumed);
  small.part("bracket").interfaces["cup"].values["outside"] = value_of(shaft, OriginKind::maker);
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "cup_in_shell@");
  if (finding.verdict != model::Verdict::measure) RC_DISCARD("decided");
  const model::Measurement* measurement = measurement_of(finding, "frame.shell.bore");
  RC_ASSERT(measurement != nullptr);
  check(*measurement, bore, [&](std::int64_t at) {
    // bore - shaft in 10 .. most for every shaft, for some, or for none: the number is linear, so its ends decide.
    const std::int64_t low = at - shaft.high, high = at - shaft.low;
    if (high < 10 || low > most) return quantity::Certainty::fails;
    return summed({low >= 10, high <= most});
  });
  RC_ASSERT(measurement->below_means == "rework");
  RC_ASSERT(measurement->above_means == "stop");
}

RC_GTEST_PROP(Thresholds, StackMatchesBruteForceWithAFactorAndAPositiveAndANegativeSign, ()) {
  const bool asks_cup = *rc::gen::arbitrary<bool>();
  const Spread spindle = *spread(500, 900, asks_cup ? 100 : 400), shell = *spread(100, 300, 60);
  const Spread cup = *spread(0, 150, asks_cup ? 300 : 40);
  SmallBicycle small;
  small.form().must = {length(0), length(0)};
  small.form().must.to->nominal = *evenly(1, 400);
  const std::int64_t most = small.form().must.to->nominal;
  small.part("crank").interfaces["spindle"].values["length"] =
      value_of(spindle, asks_cup ? OriginKind::maker : OriginKind::assumed);
  small.part("frame").interfaces["shell"].values["width"] = value_of(shell, OriginKind::maker);
  small.part("bracket").interfaces["cup"].values["stand"] =
      value_of(cup, asks_cup ? OriginKind::assumed : OriginKind::maker);
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "spindle.gap@");
  if (finding.verdict != model::Verdict::measure) RC_DISCARD("decided");
  const model::Measurement* measurement =
      measurement_of(finding, asks_cup ? "bracket.cup.stand" : "crank.spindle.length");
  RC_ASSERT(measurement != nullptr);
  check(*measurement, asks_cup ? cup : spindle, [&](std::int64_t at) {
    const Spread own{asks_cup ? -2 * at : at, 0};
    const std::int64_t low = own.low - shell.high + (asks_cup ? spindle.low : -2 * cup.high);
    const std::int64_t high = own.low - shell.low + (asks_cup ? spindle.high : -2 * cup.low);
    if (high < 0 || low > most) return quantity::Certainty::fails;
    return summed({low >= 0, high <= most});
  });
  // A longer spindle makes the gap larger (add), a taller cup makes it smaller (stop).
  RC_ASSERT(measurement->below_means == (asks_cup ? "add" : "stop"));
  RC_ASSERT(measurement->above_means == (asks_cup ? "stop" : "add"));
}

TEST(Thresholds, AnUnknownValueIsAskedBeforeAVouchedOne) {
  SmallBicycle small;
  small.part("frame").interfaces["shell"].values["bore"] = length(46'050, 4, OriginKind::unknown);
  small.part("bracket").interfaces["cup"].values["outside"] = length(46'000, 60);
  const model::Plan plan = small.plan();
  const model::Finding& finding = finding_in(plan, "cup_in_shell@");
  ASSERT_FALSE(finding.measurements.empty());
  EXPECT_EQ(finding.measurements[0].ref.text(), "frame.shell.bore");
}

TEST(Thresholds, VouchedValuesAreAskedAgainOnlyWhenTheirSpreadLeavesTheAnswerOpen) {
  SmallBicycle small;
  small.part("frame").interfaces["shell"].values["bore"] = length(46'010, 8);
  const model::Plan open = small.plan();
  ASSERT_EQ(finding_in(open, "cup_in_shell@").measurements.size(), 1u);
  EXPECT_EQ(finding_in(open, "cup_in_shell@").measurements[0].ref.text(), "frame.shell.bore");
  small.part("frame").interfaces["shell"].values["bore"] = length(46'050, 5);
  EXPECT_TRUE(finding_in(small.plan(), "cup_in_shell@").measurements.empty());
}

TEST(Thresholds, TheToolIsTheShopsOwnOrNone) {
  SmallBicycle small;
  small.part("frame").interfaces["shell"].values["bore"] = length(46'010, 8);
  EXPECT_EQ(finding_in(small.plan(), "cup_in_shell@").measurements[0].tool_label, "digital caliper");
  small.job.sheet.shop.tools.clear();
  EXPECT_EQ(finding_in(small.plan(), "cup_in_shell@").measurements[0].tool_label, "");
}

}  // namespace
}  // namespace cotter::plan
