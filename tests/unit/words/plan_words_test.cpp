// A whole plan as text: order, cautions, sums, width, and the emphasis that never carries a meaning alone.
#include "words/plan_words.hpp"

#include <gtest/gtest.h>
#include <sstream>

#include "findings.hpp"
#include "words/layout.hpp"

namespace cotter::words {
namespace {

using model::Plan;
using model::Verdict;

model::BillRow row(std::int64_t item, const std::string& label, std::int64_t grams, std::int64_t hundredths,
                   const std::string& currency = "EUR") {
  model::BillRow out;
  out.item = item;
  out.place = out.place_label = label;
  out.part = out.label = label;
  out.mass = quantity::Value{};
  out.mass->dimension = quantity::Dimension::mass;
  out.mass->nominal = grams * 1000;
  out.price = model::Price{hundredths, currency};
  return out;
}

Plan small_plan() {
  Plan plan;
  plan.program_version = "0.1.0";
  plan.job_hash = std::string(64, 'a');
  plan.catalog_hash = std::string(64, 'b');
  plan.job = "demonstration";
  plan.title = "A bicycle with a title that is a good deal longer than sixty columns of a terminal";
  plan.revision = "B";
  plan.bicycle_label = "all-road bicycle, disc brakes, dropped bar";
  plan.shop = "Workshop at the Weir";
  plan.country = "DE";
  plan.currency = "EUR";
  model::Finding stop = cup_in_shell();
  stop.verdict = Verdict::stop;
  stop.result = mm(0.04, 0.06);
  stop.margin = -70'000;
  plan.findings = {stop, cup_in_shell()};
  plan.bill = {row(1, "frame", 1080, 145000), row(2, "fork", 430, 32050)};
  plan.bill[1].to_order = true;
  model::Run run;
  run.line = "rear_hose";
  run.number = "L1";
  run.label = "hose, 5.0 outside, cut to length";
  run.from = "right lever with a long label";
  run.to = "rear caliper with a long label";
  run.way = 1400;
  run.length = 1460;
  run.cut_to_length = true;
  run.leading_end = run.to;
  run.steps = {{"frame.port", "a", "frame: down tube, left", 350}, {"frame.head_to_down", "", "into down tube", 400}};
  plan.runs = {run};
  plan.pull_order = {{"L1", "L2", "head tube into down tube, which is a long way to say where the lines pass"}};
  model::WorkStep step;
  step.mark = "01";
  step.label = "Saw the steerer in the guide.";
  step.phase = "fork";
  step.minutes = 1550;
  step.reversible = model::Reversible::no;
  step.check = "The cut is square.";
  model::WorkStep hold = step;
  hold.mark = "02";
  hold.hold_point = true;
  hold.evidence = "two measurements that agree";
  plan.work = {step, hold};
  plan.minutes = 6600;
  plan.choices = {{"saddle", "saddle", "02", "Fit the saddle."}};
  model::Cut cut;
  cut.label = "steerer after the cut";
  cut.length = mm(221, 222);
  cut.finding = "steerer.cut@fork.steerer";
  plan.cuts = {cut};
  return plan;
}

Layout wide_layout() {
  Layout layout;
  layout.width = 160;
  return layout;
}

TEST(PlanText, CautionsStandBeforeAnyFinding) {
  const std::string text = plan_text(small_plan());
  ASSERT_EQ(cautions().size(), 4u);
  EXPECT_LT(text.find("The maker's instruction and limits"), text.find("Findings"));
  EXPECT_LT(text.find("can kill when they are wrong"), text.find("Findings"));
}

TEST(PlanText, CountsVerdictsWorstFirstAndFoldsTheOkOnes) {
  const std::string text = plan_text(small_plan());
  EXPECT_EQ(verdict_counts(small_plan()), "1 stop, 1 ok");
  EXPECT_NE(text.find("  1  stop     right cup: cup pressed into the shell [0.07 mm too loose]\n"), std::string::npos)
      << text;
  EXPECT_NE(text.find("1 more are ok."), std::string::npos);
  EXPECT_EQ(text.find("  2  ok"), std::string::npos);
  EXPECT_EQ(verdict_counts(Plan()), "nothing to say");
}

TEST(PlanText, SumsMassAndPrice) {
  EXPECT_NE(plan_text(small_plan()).find("Together 1510 g, 1770.50 EUR; still to order 320.50 EUR."), std::string::npos)
      << plan_text(small_plan());
}

TEST(PlanText, SaysHowManyPartsAreMissingFromASum) {
  Plan plan = small_plan();
  plan.bill[0].mass = std::nullopt;
  plan.bill[0].price = std::nullopt;
  EXPECT_NE(plan_text(plan).find("Together 430 g (and 1 not weighed), 320.50 EUR (and 1 without a price); still to "),
            std::string::npos)
      << plan_text(plan);
}

TEST(PlanText, NeverAddsOneCurrencyToAnother) {
  Plan plan = small_plan();
  plan.bill.push_back(row(3, "saddle", 200, 10000, "CHF"));
  plan.bill.back().to_order = true;
  EXPECT_NE(plan_text(plan, wide_layout()).find("1770.50 EUR + 100.00 CHF; still to order 320.50 EUR + 100.00 CHF."),
            std::string::npos)
      << plan_text(plan, wide_layout());
}

TEST(PlanText, AnOpenPlaceHasNeitherMassNorPrice) {
  Plan plan = small_plan();
  model::BillRow open;
  open.item = 3;
  open.place = open.place_label = "saddle";
  open.open = true;
  plan.bill.push_back(open);
  const std::string text = plan_text(plan);
  EXPECT_NE(text.find("  3 saddle              - "), std::string::npos) << text;
  EXPECT_NE(text.find("Together 1510 g, 1770.50 EUR;"), std::string::npos) << text;
}

TEST(PlanText, HoldPointsAndStepsWithoutReturnAreMarked) {
  const std::string text = plan_text(small_plan());
  EXPECT_NE(text.find("  01  FINAL Saw the steerer in the guide. (16 min)\n"), std::string::npos) << text;
  EXPECT_NE(text.find("  02  HOLD  Saw the steerer in the guide. (16 min)\n            Opens only on: two measurements "
                      "that agree.\n"),
            std::string::npos)
      << text;
  EXPECT_NE(text.find("2 steps, 1 h 06 min of clean bench time"), std::string::npos) << text;
}

TEST(PlanText, AnOpenChoiceNamesTheStepBeforeWhichItMustBeMade) {
  EXPECT_NE(plan_text(small_plan()).find("saddle: choose before step 02, \"Fit the saddle\""), std::string::npos);
}

TEST(PlanText, WithoutEmphasisThereIsNoEscapeAndWithItTheWordsAreTheSame) {
  Layout bold;
  bold.emphasis = Emphasis::bold;
  const std::string plain = plan_text(small_plan());
  std::string marked = plan_text(small_plan(), bold);
  EXPECT_EQ(plain.find('\033'), std::string::npos);
  EXPECT_NE(marked.find("\033[1mstop    \033[0m"), std::string::npos);
  for (const std::string code : {"\033[1m", "\033[0m"})
    for (std::size_t at = marked.find(code); at != std::string::npos; at = marked.find(code))
      marked.erase(at, code.size());
  EXPECT_EQ(plain, marked);
}

class PlanWidth : public testing::TestWithParam<int> {};

TEST_P(PlanWidth, NoLineOfProseIsWiderThanAsked) {
  Layout layout;
  layout.width = GetParam();
  std::istringstream lines(plan_text(small_plan(), layout));
  bool in_table = false;
  for (std::string line; std::getline(lines, line);) {
    if (line.empty()) in_table = false;
    // Rows of the parts table keep their shape; a name that has no blank cannot be broken.
    const bool one_word = line.find(' ', line.find_first_not_of(' ')) == std::string::npos;
    EXPECT_TRUE(in_table || one_word || display_width(line) <= layout.width) << line;
    if (line == "Parts") in_table = true;
    if (line.find("Together") != std::string::npos) in_table = false;
  }
}

INSTANTIATE_TEST_SUITE_P(Widths, PlanWidth, testing::Values(50, 60, 80, 100, 160));

TEST(PlanText, AnOpenAcceptShowsTheCommandThatSignsForIt) {
  model::Plan plan;
  model::Finding finding = cup_in_shell();
  finding.verdict = model::Verdict::accept;
  plan.findings = {finding};
  const Layout layout = wide_layout();
  EXPECT_NE(plan_text(plan, layout).find("cotter accept JOB FINDING --by NAME --reason TEXT"), std::string::npos)
      << plan_text(plan, layout);
  plan.findings[0].guards = model::Guards::brake;
  EXPECT_EQ(plan_text(plan, layout).find("cotter accept"), std::string::npos);
}

TEST(PlanText, ALongDescriptionGoesOnBelow) {
  model::Plan plan;
  model::BillRow row;
  row.item = 1;
  row.place = "frame";
  row.place_label = "upper half of the headset";
  row.label = "frame of steel, lugged, made for a hub of 126 and a threaded shell of 68, with a wide head tube";
  plan.bill = {row};
  Layout layout;
  layout.width = 80;
  const std::string text = plan_text(plan, layout);
  EXPECT_EQ(text.find("\u2026"), std::string::npos);
  EXPECT_NE(text.find("wide head"), std::string::npos) << text;
}

TEST(WhyText, ShowsSentencesThenWorkingThenIdentity) {
  EXPECT_EQ(why_text(cup_in_shell(), wide_layout()),
            "ok  right cup: cup pressed into the shell\n"
            "  frame: bore 46.015 to 46.025 mm; bottom bracket: cup outside 46.055 to 46.065 mm: play -0.05 to -0.03 "
            "mm, must be from -0.15 to -0.01 mm.\n"
            "\n"
            "  rule      cup_in_shell (cup pressed into the shell)\n"
            "  method    the bore less what goes into it\n"
            "  value     bore = 46.015 to 46.025 mm, maker [frame, bore]\n"
            "  value     shaft = 46.055 to 46.065 mm, maker [bottom bracket, cup outside]\n"
            "  formula   bore - shaft = (46.015 to 46.025) - (46.055 to 46.065) = -0.05 to -0.03 mm\n"
            "  must be   from -0.15 to -0.01 mm\n"
            "  margin    0.02 mm\n"
            "  source    standard: ISO 286-2:2010, table 7\n"
            "  limit     A mechanic may accept it with a written reason.\n"
            "  id        cup_in_shell@frame.shell_right,bottom_bracket.cup_right\n");
}

}  // namespace
}  // namespace cotter::words
