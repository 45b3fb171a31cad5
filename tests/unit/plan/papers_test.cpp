// Makers' papers: which limits they let pass, and that every other one changes nothing and is said.
#include "plan/papers.hpp"

#include <functional>
#include <gtest/gtest.h>

#include "plan/decisions.hpp"
#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using model::Acceptance;
using model::Finding;
using model::Guards;
using model::MayPass;
using model::Paper;
using model::Verdict;
using quantity::OriginKind;

const std::string k_finding = "cup_in_shell@frame.shell,bracket.cup";

Paper paper_to(std::int64_t most_um) {
  Paper paper;
  paper.id = "cup_paper";
  paper.finding = k_finding;
  paper.part = "frame_part";
  paper.written_by = "maker of the frame";
  paper.document = "frame manual";
  paper.page = "page 7";
  paper.on = "2025-11-03";
  paper.limit.to = length(most_um);
  paper.signed_by = "A. Builder";
  paper.signed_when = "2026-05-02";
  return paper;
}

/// A guarded play of 0.15 to 0.25 mm where 0.01 to 0.10 is asked and the maker's paper may say otherwise.
SmallBicycle loose() {
  SmallBicycle small;
  small.rule().guards = Guards::steering;
  small.rule().may_pass = MayPass::maker;
  small.part("frame").interfaces["shell"].values["bore"] = length(46'000, 25);
  small.part("bracket").interfaces["cup"].values["outside"] = length(45'800, 25);
  return small;
}

Finding judged(SmallBicycle small, const Paper& paper) {
  small.job.sheet.papers = {paper};
  return finding_in(small.plan(), k_finding);
}

TEST(Papers, ALimitPassesByTheMakersPaperAndIsNeverOk) {
  const Finding before = finding_in(loose().plan(), k_finding);
  ASSERT_EQ(before.verdict, Verdict::stop);
  EXPECT_EQ(before.margin, -150'000);
  const Finding finding = judged(loose(), paper_to(250));
  EXPECT_EQ(finding.verdict, Verdict::accept);
  EXPECT_EQ(finding.passed, Verdict::stop);
  EXPECT_EQ(finding.accepted_by, "A. Builder");
  EXPECT_EQ(finding.accepted_when, "2026-05-02");
  EXPECT_EQ(before.advice, "Take a larger cup.");
  EXPECT_EQ(finding.advice, "");
  EXPECT_EQ(finding.margin, before.margin);  // by how much it misses the usual limit stays in sight
  ASSERT_TRUE(finding.paper);
  EXPECT_EQ(finding.paper->id, "cup_paper");
  EXPECT_EQ(finding.paper->window.low().base(), 10'000);  // the end that the paper does not speak of
  EXPECT_EQ(finding.paper->window.high().base(), 250'000);
  EXPECT_EQ(acceptance(finding), Acceptance::already);
}

TEST(Papers, AHundredthOnEitherSideOfTheLimitFlipsIt) {
  EXPECT_EQ(judged(loose(), paper_to(260)).verdict, Verdict::accept);
  EXPECT_EQ(judged(loose(), paper_to(240)).verdict, Verdict::stop);
}

TEST(Papers, WhatIsOpenByTheUsualLimitMayBeSettledByThePaper) {
  SmallBicycle small = loose();
  small.part("bracket").interfaces["cup"].values["outside"] = length(45'890, 25);  // 0.06 to 0.16
  ASSERT_EQ(finding_in(small.plan(), k_finding).verdict, Verdict::measure);
  const Finding finding = judged(small, paper_to(200));
  EXPECT_EQ(finding.verdict, Verdict::accept);
  EXPECT_EQ(finding.passed, Verdict::measure);
  EXPECT_TRUE(finding.measurements.empty());
}

TEST(Papers, APermittedChangeIsNotAskedForAnyMore) {
  SmallBicycle small = loose();
  small.part("bracket").interfaces["cup"].values["outside"] = length(46'060, 5);  // 0.03 to 0.09 too tight
  ASSERT_EQ(finding_in(small.plan(), k_finding).verdict, Verdict::rework);
  Paper paper = paper_to(0);
  paper.limit = {length(-100), std::nullopt};
  const Finding finding = judged(small, paper);
  EXPECT_EQ(finding.verdict, Verdict::accept);
  EXPECT_EQ(finding.operation, "");
}

TEST(Papers, TheFindingKeepsItsPaperUnderANewNameOfThePlace) {
  SmallBicycle small = loose();
  Paper paper = paper_to(250);
  paper.finding = "cup_in_shell@chassis.shell,bracket.cup";
  small.job.sheet.aliases = {{"chassis", "frame"}};
  EXPECT_EQ(judged(small, paper).verdict, Verdict::accept);
}

struct Useless {
  std::string name;
  std::string said;
  std::function<void(SmallBicycle&, Paper&)> change;
};
void PrintTo(const Useless& useless, std::ostream* out) {
  *out << useless.name;
}

class UselessPaper : public testing::TestWithParam<Useless> {};

TEST_P(UselessPaper, ChangesNothingAndTheFindingSaysWhy) {
  SmallBicycle small = loose();
  Paper paper = paper_to(250);
  GetParam().change(small, paper);
  const Finding before = finding_in(small.plan(), k_finding);
  const Finding after = judged(small, paper);
  EXPECT_EQ(after.verdict, before.verdict);
  EXPECT_FALSE(after.passed);
  EXPECT_FALSE(after.paper);
  EXPECT_EQ(after.accepted_by, "");
  EXPECT_EQ(after.operation, before.operation);
  ASSERT_EQ(after.facts.size(), before.facts.size() + 4);
  EXPECT_EQ(after.facts[before.facts.size()].first, GetParam().said);
}

using Small = SmallBicycle;
INSTANTIATE_TEST_SUITE_P(
    Papers, UselessPaper,
    testing::Values(
        Useless{"LimitOfNobody", "paper.nobody", [](Small& s, Paper&) { s.rule().may_pass = MayPass::nobody; }},
        Useless{"AnotherPart", "paper.other_part", [](Small&, Paper& p) { p.part = "crank_part"; }},
        Useless{"APartTakenOut", "paper.other_part", [](Small&, Paper& p) { p.part = "frame_of_last_year"; }},
        Useless{"UsedPart", "paper.used_part",
                [](Small& s, Paper&) {
                  s.part("frame").used = true;
                  s.part("frame").interfaces["shell"].values["bore"].origin.kind = OriginKind::measured;
                }},
        Useless{"NoWriter", "paper.incomplete", [](Small&, Paper& p) { p.written_by = ""; }},
        Useless{"NoDocument", "paper.incomplete", [](Small&, Paper& p) { p.document = "  "; }},
        Useless{"NoPage", "paper.incomplete", [](Small&, Paper& p) { p.page = "\xC2\xA0"; }},
        Useless{"NoDate", "paper.incomplete", [](Small&, Paper& p) { p.on = ""; }},
        Useless{"NobodyHasReadIt", "paper.incomplete", [](Small&, Paper& p) { p.signed_by = "\t"; }},
        Useless{"ReadOnNoDay", "paper.incomplete", [](Small&, Paper& p) { p.signed_when = ""; }},
        Useless{"StillExceeded", "paper.exceeded", [](Small&, Paper& p) { p.limit.to = length(140); }},
        Useless{"PerhapsExceeded", "paper.exceeded", [](Small&, Paper& p) { p.limit.to = length(200); }},
        Useless{"OnlyTheOtherEnd", "paper.exceeded", [](Small&, Paper& p) { p.limit = {length(-900), std::nullopt}; }},
        Useless{"EndsAgainstEachOther", "paper.exceeded", [](Small&, Paper& p) { p.limit.to = length(5); }},
        Useless{"NoEnd", "paper.other_quantity", [](Small&, Paper& p) { p.limit = {}; }},
        Useless{"ATorque", "paper.other_quantity",
                [](Small&, Paper& p) { p.limit.to->dimension = quantity::Dimension::torque; }},
        Useless{"AssumedValue", "paper.unattested",
                [](Small& s, Paper&) {
                  s.part("bracket").interfaces["cup"].values["outside"].origin.kind = OriginKind::assumed;
                }}),
    [](const auto& test) { return test.param.name; });

TEST(Papers, AStricterPaperGoesBeforeTheUsualLimit) {
  SmallBicycle small = loose();
  small.rule().may_pass = MayPass::nobody;
  small.part("bracket").interfaces["cup"].values["outside"] = length(45'940, 10);  // 0.025 to 0.095
  ASSERT_EQ(finding_in(small.plan(), k_finding).verdict, Verdict::ok);
  EXPECT_EQ(judged(small, paper_to(95)).verdict, Verdict::ok);
  EXPECT_EQ(judged(small, paper_to(60)).verdict, Verdict::measure);
  EXPECT_EQ(judged(small, paper_to(20)).verdict, Verdict::stop);
  EXPECT_EQ(acceptance(judged(small, paper_to(20))), Acceptance::guarded);
}

TEST(Papers, OneThatNamesNoFindingIsSaid) {
  SmallBicycle small = loose();
  Paper paper = paper_to(250);
  paper.finding = "cup_in_shell@frame.shell,bracket.cap";
  small.job.sheet.papers = {paper};
  const model::Plan plan = small.plan();
  EXPECT_EQ(finding_in(plan, k_finding).verdict, Verdict::stop);
  const Finding& astray = finding_in(plan, "paper@cup_paper");
  EXPECT_EQ(astray.verdict, Verdict::measure);
  EXPECT_EQ(astray.facts.front().first, "paper.no_finding");
}

TEST(Papers, NoneSpeaksForPartsThatAreNotMadeForEachOther) {
  Finding finding;
  finding.id = k_finding;
  finding.law = "equal_family";
  finding.verdict = Verdict::stop;
  finding.may_pass = MayPass::maker;
  finding.about = {{"frame", "shell"}};
  SmallBicycle small;
  small.job.sheet.papers = {paper_to(250)};
  const Assembly assembly(small.job, small.catalog);
  std::vector<Finding> findings{finding};
  apply_papers(assembly, findings);
  EXPECT_EQ(findings.at(0).verdict, Verdict::stop);
  EXPECT_EQ(findings.at(0).facts.front().first, "paper.unlike");
  findings = {finding};
  findings[0].law = "stack";
  apply_papers(assembly, findings);
  EXPECT_EQ(findings.at(0).verdict, Verdict::stop);
  EXPECT_EQ(findings.at(0).facts.front().first, "paper.no_number");
}

TEST(Papers, NoAdapterIsProposedForWhatPasses) {
  SmallBicycle small = loose();
  Finding finding = finding_in(small.plan(), k_finding);
  finding.facts = {{"finding.lacks", ""}, {"with", "frame"}, {"bridge.proposal", ""}, {"chain", "a sleeve"}};
  small.job.sheet.papers = {paper_to(250)};
  const Assembly assembly(small.job, small.catalog);
  std::vector<Finding> findings{finding};
  apply_papers(assembly, findings);
  EXPECT_EQ(findings.at(0).verdict, Verdict::accept);
  EXPECT_EQ(findings.at(0).facts,
            (std::vector<std::pair<std::string, std::string>>{{"finding.lacks", ""}, {"with", "frame"}}));
}

TEST(Papers, AMakersLimitOnTheStressStandsAgainstAPaperOnTheSizes) {
  SmallBicycle small = loose();
  Finding finding = finding_in(small.plan(), k_finding);
  finding.press.emplace();
  finding.press->most_stress = quantity::Range(quantity::Mixed::from_base(100));
  finding.press->steps.emplace_back();
  small.job.sheet.papers = {paper_to(250)};
  const Assembly assembly(small.job, small.catalog);
  for (const auto stress : {quantity::Certainty::fails, quantity::Certainty::open, quantity::Certainty::holds}) {
    finding.press->stress = stress;
    std::vector<Finding> findings{finding};
    apply_papers(assembly, findings);
    const bool holds = stress == quantity::Certainty::holds;
    EXPECT_EQ(findings.at(0).verdict, holds ? Verdict::accept : Verdict::stop);
    EXPECT_EQ(!findings.at(0).paper, !holds);
  }
}

}  // namespace
}  // namespace cotter::plan
