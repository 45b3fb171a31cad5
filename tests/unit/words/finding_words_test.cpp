// A finding of each verdict in words, asserted in full.
#include "words/finding_words.hpp"

#include <gtest/gtest.h>

#include "findings.hpp"

namespace cotter::words {
namespace {

using model::Finding;
using model::Verdict;
using quantity::Dimension;
using quantity::OriginKind;
using Sentences = std::vector<std::string>;

TEST(Show, RangesAreRoundedToAThousandthAndNotRepeated) {
  EXPECT_EQ(show(mm(41.94, 41.98), Dimension::length), "41.94 to 41.98 mm");
  EXPECT_EQ(show(mm(42, 42), Dimension::length), "42 mm");
  EXPECT_EQ(show(mm(41.9600001, 41.9600002), Dimension::length), "41.96 mm");
  EXPECT_EQ(show(mm(-0.0001, 0.0001), Dimension::length), "-0.0001 to 0.0001 mm");
}

TEST(Show, AngleHasNoBlankBeforeItsSign) {
  EXPECT_EQ(show(quantity::Range(quantity::Mixed::from_base(73'500'000)), Dimension::angle), "73.5°");
}

TEST(Show, ACountKeepsItsNoughts) {
  EXPECT_EQ(show(quantity::Range(quantity::Mixed::from_base(110)), Dimension::count), "110");
}

TEST(Show, InchAndCommaComeFromTheStyle) {
  quantity::NumberStyle style;
  style.mark = quantity::DecimalMark::comma;
  EXPECT_EQ(show(mm(41.94, 41.98), Dimension::length, style), "41,94 to 41,98 mm");
  style = {};
  style.length = quantity::LengthUnit::inch;
  EXPECT_EQ(show(mm(25.4, 25.4), Dimension::length, style), "1 in");
}

TEST(ShowWindow, OpenEndsAreNotNumbers) {
  EXPECT_EQ(show_window(mm(0.3, 1), Dimension::length), "from 0.3 to 1 mm");
  EXPECT_EQ(show_window({mm(3), open_high()}, Dimension::length), "at least 3 mm");
  EXPECT_EQ(show_window({open_low(), mm(3)}, Dimension::length), "at most 3 mm");
}

TEST(ShowOrigin, SaysWhoWithWhatAndWhen) {
  quantity::Value value = length(45.99, 0.005, OriginKind::measured);
  value.origin = {OriginKind::measured, "A. Builder", "bore_gauge", "2026-05-02", ""};
  EXPECT_EQ(show_origin(value), "45.985 to 45.995 mm, measured: by A. Builder, with bore_gauge, 2026-05-02");
  value.origin = {OriginKind::maker, "", "", "", "frame sheet, page 2"};
  value.deviations = quantity::Deviations::filled;
  EXPECT_EQ(show_origin(value),
            "45.985 to 45.995 mm (tolerance not stated; usual one taken), maker: frame sheet, page 2");
  value.origin = {};
  EXPECT_EQ(show_origin(value), "unknown, 45.985 to 45.995 mm");
}

TEST(Sentences, Ok) {
  EXPECT_EQ(sentences(cup_in_shell()),
            (Sentences{"frame: bore 46.015 to 46.025 mm; bottom bracket: cup outside 46.055 to 46.065 mm: play "
                       "-0.05 to -0.03 mm, must be from -0.15 to -0.01 mm."}));
  EXPECT_EQ(number_shown(cup_in_shell()), "-0.05 to -0.03 mm");
}

TEST(Sentences, StopNamesBothDimensionsAndTheMissingAmount) {
  Finding finding = cup_in_shell();
  finding.verdict = Verdict::stop;
  finding.result = mm(0.04, 0.06);
  finding.margin = -70'000;
  finding.advice = "Take a cup made for this shell.";
  EXPECT_EQ(sentences(finding),
            (Sentences{"frame: bore 46.015 to 46.025 mm; bottom bracket: cup outside 46.055 to 46.065 mm: play "
                       "0.04 to 0.06 mm, must be from -0.15 to -0.01 mm: 0.07 mm too loose.",
                       "Take a cup made for this shell."}));
  EXPECT_EQ(number_shown(finding), "0.07 mm too loose");
  finding.governs = model::Edge::from;
  EXPECT_EQ(number_shown(finding), "0.07 mm too tight");
}

TEST(Sentences, AMissingAmountFinerThanAThousandthIsNotNought) {
  Finding finding = cup_in_shell();
  finding.verdict = Verdict::stop;
  finding.margin = -200;
  EXPECT_EQ(number_shown(finding), "0.0002 mm too loose");
}

TEST(Sentences, AStopByWordsNamesThem) {
  Finding finding;
  finding.verdict = Verdict::stop;
  finding.law = "equal_family";
  finding.mismatches = {"fluid: mineral_oil against glycol_ether"};
  EXPECT_EQ(sentences(finding), Sentences{"Differs: fluid: mineral oil against glycol fluid (glycol ether)."});
  EXPECT_EQ(number_shown(finding), "");
}

TEST(Sentences, MeasureSaysWhatBetweenWhichFacesWithWhatAndWhatEachOutcomeMeans) {
  Finding finding = cup_in_shell();
  finding.verdict = Verdict::measure;
  finding.rests_on = {"frame, bore (assumed)"};
  finding.measurements = {bore_measurement()};
  finding.probability = 0.987;
  const Sentences said = sentences(finding);
  ASSERT_EQ(said.size(), 3u);  // no chance is told for a value that nobody vouches for
  EXPECT_EQ(said[1], "Rests on a value nobody has measured: frame, bore (assumed).");
  EXPECT_EQ(said[2],
            "Measure frame, bore: bore of the shell; between: three depths, two directions each; tool: bore gauge 35 "
            "to 60, reading 0.005 mm or finer. 45.915 mm to 46.045 mm: this check holds. Below 45.905 mm: stop. Above "
            "46.055 mm: rework. Anything between needs the other values too.");
  finding.rests_on.clear();
  EXPECT_EQ(sentences(finding).back(), "Chance that it holds, by the stated tolerances: 98 %.");
}

TEST(Sentences, AMeasurementWithoutAToolInTheShopSaysSo) {
  Finding finding = cup_in_shell();
  finding.verdict = Verdict::measure;
  finding.measurements = {bore_measurement()};
  finding.measurements[0].tool_label = "";
  EXPECT_NE(sentences(finding)[1].find("tool: bore_gauge (none in this shop: borrow, buy or send out), reading"),
            std::string::npos);
}

struct Ends {
  std::optional<quantity::Range> holds, may_hold;
  std::string said;
};

TEST(Sentences, OpenEndsOfAMeasurementAreSaidAsSuch) {
  const std::vector<Ends> rows = {
      {quantity::Range(mm(3), open_high()), quantity::Range(mm(2), open_high()),
       " 3 mm or more: this check holds. Below 2 mm: stop. Anything between needs the other values too."},
      {quantity::Range(open_low(), mm(3)), quantity::Range(open_low(), mm(4)),
       " 3 mm or less: this check holds. Above 4 mm: rework. Anything between needs the other values too."},
      {mm(3, 3), mm(3, 3), " 3 mm: this check holds. Below 3 mm: stop. Above 3 mm: rework."},
      {quantity::Range(open_low(), open_high()), quantity::Range(open_low(), open_high()),
       " Whatever it measures settles it."},
      {std::nullopt, mm(2, 4), " Below 2 mm: stop. Above 4 mm: rework. Anything between needs the other values too."},
      {mm(3, 4), mm(3, 4), " 3 mm to 4 mm: this check holds. Below 3 mm: stop. Above 4 mm: rework."}};
  for (const Ends& row : rows) {
    Finding finding = cup_in_shell();
    finding.verdict = Verdict::measure;
    finding.measurements = {bore_measurement()};
    finding.measurements[0].holds = row.holds;
    finding.measurements[0].may_hold = row.may_hold;
    const std::string said = sentences(finding)[1];
    const std::string tail = said.substr(said.find("or finer.") + 9);
    EXPECT_EQ(tail, row.said);
  }
}

TEST(Sentences, AGuardedMeasureSaysWhyItIsNotOk) {
  Finding finding = cup_in_shell();
  finding.verdict = Verdict::measure;
  finding.guards = model::Guards::steering;
  finding.rests_on = {"frame, bore (assumed)"};
  EXPECT_EQ(sentences(finding)[1],
            "Not ok before it is measured, because it rests on an assumed or unknown value: frame, bore (assumed).");
}

TEST(Sentences, AddGivesCountDimensionAndPlace) {
  Finding finding = cup_in_shell();
  finding.verdict = Verdict::add;
  finding.additions = {
      {"spindle spacer 30 x 2.5", "spindle_spacer_25", 2, "2.5 mm thick", "on the spindle, right", true},
      {"sleeve", "", 1, "", "at right cup", false}};
  const Sentences said = sentences(finding);
  ASSERT_EQ(said.size(), 3u);
  EXPECT_EQ(said[1], "Add 2 x spindle spacer 30 x 2.5, 2.5 mm thick, on the spindle, right. In the drawer.");
  EXPECT_EQ(said[2], "Add 1 x sleeve, at right cup. To be ordered.");
  EXPECT_EQ(number_shown(finding), "3 parts");
  finding.additions.pop_back();
  finding.additions[0].count = 1;
  EXPECT_EQ(number_shown(finding), "1 part");
}

TEST(Sentences, AcceptNamesTheWishAndWhoSigned) {
  Finding finding = cup_in_shell();
  finding.verdict = Verdict::accept;
  finding.should = mm(-0.15, -0.06);
  finding.accepted_by = "A. Builder";
  finding.accepted_reason = "old shell";
  EXPECT_EQ(sentences(finding),
            (Sentences{"frame: bore 46.015 to 46.025 mm; bottom bracket: cup outside 46.055 to 46.065 mm: play "
                       "-0.05 to -0.03 mm is allowed (from -0.15 to -0.01 mm), but common practice is from -0.15 to "
                       "-0.06 mm.",
                       "Accepted by A. Builder: old shell."}));
  EXPECT_EQ(number_shown(finding), "-0.05 to -0.03 mm, wish from -0.15 to -0.06 mm");
}

TEST(Sentences, AcceptWithoutALimitStillNamesTheWish) {
  Finding finding = cup_in_shell();
  finding.verdict = Verdict::accept;
  finding.must = std::nullopt;
  finding.should = mm(-0.15, -0.06);
  EXPECT_TRUE(sentences(finding)[0].ends_with(": play -0.05 to -0.03 mm; common practice is from -0.15 to -0.06 mm."))
      << sentences(finding)[0];
}

TEST(Sentences, ReworkNamesThePermittedChangeAndTheMissingAmount) {
  Finding finding = cup_in_shell();
  finding.verdict = Verdict::rework;
  finding.result = mm(0, 0.02);
  finding.margin = -30'000;
  finding.operation = "retaining_compound";
  finding.operation_label = "Glue the cup in with retaining compound";
  const Sentences said = sentences(finding);
  ASSERT_EQ(said.size(), 2u);
  EXPECT_TRUE(said[0].ends_with("play 0 to 0.02 mm, must be from -0.15 to -0.01 mm: 0.03 mm too loose.")) << said[0];
  EXPECT_EQ(said[1], "Permitted change: Glue the cup in with retaining compound.");
  EXPECT_EQ(number_shown(finding), "0.03 mm too loose");
}

TEST(Sentences, AnOkOnAnAssumedValueStillNamesIt) {
  Finding finding = cup_in_shell();
  finding.rests_on = {"frame, bore (assumed)"};
  ASSERT_EQ(sentences(finding).size(), 2u);
  EXPECT_EQ(sentences(finding)[1], "Rests on a value nobody has measured: frame, bore (assumed).");
}

TEST(Sentences, ALengthWithoutAWindowIsOnlyReported) {
  Finding finding = cup_in_shell();
  finding.law = "stack";
  finding.rule_label = "steerer length after the cut";
  finding.must = std::nullopt;
  EXPECT_EQ(sentences(finding),
            Sentences{"frame: bore 46.015 to 46.025 mm; bottom bracket: cup outside 46.055 to 46.065 mm: steerer "
                      "length after the cut -0.05 to -0.03 mm."});
}

TEST(Sentences, FactsFillThePhraseBeforeThem) {
  Finding finding;
  finding.verdict = Verdict::stop;
  finding.law = "route";
  finding.facts = {{"route.one_no_way", ""}, {"lines", "L2"},       {"route.too_small", ""},
                   {"line", "L2"},           {"needs", "8 mm"},     {"opening", "left chainstay"},
                   {"clear", "6.5 mm"},      {"missing", "1.5 mm"}, {"route.not_permitted", ""},
                   {"opening", "left stay"}, {"step", "1.5 mm"}};
  EXPECT_EQ(sentences(finding),
            (Sentences{"No way for L2.", "L2: what must pass is 8 mm, left chainstay is 6.5 mm: 1.5 mm too large.",
                       "left stay would need 1.5 mm more; not permitted; ask the maker in writing."}));
}

TEST(Sentences, ALimitPassedByAPaperNamesItsReaderAndItsDrawback) {
  Finding finding = cup_in_shell();
  finding.must = mm(-0.02, -0.01);
  finding.margin = -30'000;
  finding.governs = model::Edge::from;
  finding.verdict = Verdict::accept;
  finding.passed = Verdict::stop;
  finding.accepted_by = "A. Builder";
  finding.accepted_when = "2026-05-02";
  finding.accepted_reason = "letter, page 1";
  finding.paper = {"letter", "maker of the frame", "letter", "page 1", "2026-03-14", mm(-0.06, -0.01)};
  EXPECT_EQ(
      sentences(finding),
      (Sentences{"frame: bore 46.015 to 46.025 mm; bottom bracket: cup outside 46.055 to 46.065 mm: play -0.05 to "
                 "-0.03 mm, must be from -0.02 to -0.01 mm: 0.03 mm too tight.",
                 "The usual limit says stop; the maker of the frame allows from -0.06 to -0.01 mm: letter, page 1, "
                 "2026-03-14. Read and signed for by A. Builder, 2026-05-02.",
                 "This holds for this very part alone, undamaged and as its maker sold it: keep the paper with "
                 "the bicycle, and ask again when either part is changed."}));
}

TEST(Working, ShowsRuleValuesFormulaWindowMarginSourceAndLimit) {
  Finding finding = cup_in_shell();
  finding.values[0].value.origin = {OriginKind::maker, "", "", "", "frame sheet, page 2"};
  finding.may_pass = model::MayPass::maker;
  EXPECT_EQ(
      working(finding),
      (Sentences{"rule      cup_in_shell (cup pressed into the shell)", "method    the bore less what goes into it",
                 "value     bore = 46.015 to 46.025 mm, maker: frame sheet, page 2  [frame, bore]",
                 "value     shaft = 46.055 to 46.065 mm, maker  [bottom bracket, cup outside]",
                 "formula   bore - shaft = (46.015 to 46.025) - (46.055 to 46.065) = -0.05 to -0.03 mm",
                 "must be   from -0.15 to -0.01 mm", "margin    0.02 mm", "source    standard: ISO 286-2:2010, table 7",
                 "limit     Only the maker's paper for this very part may pass it."}));
}

TEST(Working, ANegativeNumberStandsInBrackets) {
  Finding finding = cup_in_shell();
  finding.formula = "2 x bore - shaft";
  finding.values[1].value = length(-1.5);
  EXPECT_EQ(working(finding)[4], "formula   2 x bore - shaft = 2 x (46.015 to 46.025) - (-1.5) = -0.05 to -0.03 mm");
}

}  // namespace
}  // namespace cotter::words
