// Standing decisions: what a person may sign for, and when they are asked again.
#include "plan/decisions.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using model::Finding;
using model::Verdict;

Finding accept(const std::string& id, std::int64_t margin) {
  Finding finding;
  finding.id = id;
  finding.verdict = Verdict::accept;
  finding.margin = margin;
  return finding;
}

model::Job decided(const std::string& finding, std::int64_t margin) {
  model::Job job;
  job.decisions = {{finding, "A. Builder", "2026-05-03", "the rider wants it so", margin}};
  return job;
}

std::string accepted_by(const model::Job& job, Finding finding) {
  std::vector<Finding> findings{std::move(finding)};
  apply_decisions(job, findings);
  return findings[0].accepted_by;
}

TEST(Decisions, AnAcceptanceStandsWithItsReason) {
  std::vector<Finding> findings{accept("wish@a.x,b.y", 5)};
  apply_decisions(decided("wish@a.x,b.y", 5), findings);
  EXPECT_EQ(findings[0].accepted_by, "A. Builder");
  EXPECT_EQ(findings[0].accepted_reason, "the rider wants it so");
}

TEST(Decisions, AWorseMarginIsAskedAgainABetterOneIsNot) {
  const model::Job job = decided("wish@a.x,b.y", 5);
  EXPECT_EQ(accepted_by(job, accept("wish@a.x,b.y", 6)), "A. Builder");
  EXPECT_EQ(accepted_by(job, accept("wish@a.x,b.y", 4)), "");
}

TEST(Decisions, AnotherFindingIsNotTouched) {
  const model::Job job = decided("wish@a.x,b.y", 5);
  EXPECT_EQ(accepted_by(job, accept("wish@a.x,b.z", 5)), "");
  EXPECT_EQ(accepted_by(job, accept("wish@b.y,a.x", 5)), "");
  EXPECT_EQ(accepted_by(job, accept("other@a.x,b.y", 5)), "");
}

TEST(Decisions, ARenameKeepsTheAcceptanceThroughAliases) {
  model::Job job = decided("wish@saddle.rails,post.clamp", 5);
  job.sheet.aliases = {{"saddle", "seat"}, {"seat", "my_seat"}};
  EXPECT_EQ(accepted_by(job, accept("wish@my_seat.rails,post.clamp", 5)), "A. Builder");
  EXPECT_EQ(accepted_by(job, accept("wish@saddle.rails,post.clamp", 5)), "");
}

TEST(Decisions, AnAliasRenamesPlacesNotInterfacesOrRules) {
  model::Job job = decided("rails@post.rails,rails.post", 5);
  job.sheet.aliases = {{"rails", "clamp"}};
  EXPECT_EQ(accepted_by(job, accept("rails@post.rails,clamp.post", 5)), "A. Builder");
}

TEST(Decisions, NeedANameAndAReason) {
  model::Job job = decided("wish@a.x,b.y", 5);
  job.decisions[0].reason = "";
  EXPECT_EQ(accepted_by(job, accept("wish@a.x,b.y", 5)), "");
  job = decided("wish@a.x,b.y", 5);
  job.decisions[0].by = "";
  EXPECT_EQ(accepted_by(job, accept("wish@a.x,b.y", 5)), "");
}

TEST(Decisions, ABlankNameOrReasonIsNone) {
  for (const char* blank : {"", " ", "\t\n", "\xC2\xA0", "\xE2\x80\x8B", "\xE3\x80\x80 \xEF\xBB\xBF"})
    EXPECT_TRUE(is_blank(blank));
  for (const char* name : {"a", " a ", "\xC3\x84", "\xE2\x82\xAC", "-"}) EXPECT_FALSE(is_blank(name)) << name;
  model::Job job = decided("wish@a.x,b.y", 5);
  job.decisions[0].reason = " \xC2\xA0";
  EXPECT_EQ(accepted_by(job, accept("wish@a.x,b.y", 5)), "");
}

TEST(Decisions, TheJournalSignsLikeTheSheetAndTheLatestIsShown) {
  model::Job job;
  model::JournalEntry entry;
  entry.id = "accept-1";
  entry.kind = model::JournalEntry::Kind::accept;
  entry.by = "B. Builder";
  entry.target = "wish@a.x,b.y";
  entry.note = "measured again";
  job.journal = {entry};
  EXPECT_EQ(accepted_by(job, accept("wish@a.x,b.y", 5)), "B. Builder");
  job.decisions = decided("wish@a.x,b.y", 5).decisions;
  EXPECT_EQ(accepted_by(job, accept("wish@a.x,b.y", 5)), "B. Builder");
  model::JournalEntry undo;
  undo.id = "undo-1";
  undo.kind = model::JournalEntry::Kind::undo;
  undo.target = "accept-1";
  job.journal.push_back(undo);
  EXPECT_EQ(accepted_by(job, accept("wish@a.x,b.y", 5)), "A. Builder");
  undo.id = "undo-2";
  undo.target = "undo-1";
  job.journal.push_back(undo);
  EXPECT_EQ(accepted_by(job, accept("wish@a.x,b.y", 5)), "B. Builder");
}

/// A number 7 below its window, on values that somebody vouches for.
Finding outside(model::MayPass may_pass) {
  Finding finding = accept("gap@a.x,b.y", -7);
  finding.verdict = Verdict::stop;
  finding.law = "difference";
  finding.result = finding.must = quantity::Range(quantity::Mixed::from_base(0));
  finding.governs = model::Edge::from;
  finding.may_pass = may_pass;
  return finding;
}

model::Job passing(std::int64_t margin, model::Passes passes) {
  model::Job job = decided("gap@a.x,b.y", margin);
  job.decisions[0].passes = passes;
  return job;
}

TEST(Decisions, AMechanicPassesALimitThatGuardsNothing) {
  std::vector<Finding> findings{outside(model::MayPass::mechanic)};
  findings[0].operation = "file_it";
  apply_decisions(passing(-7, model::Passes::below), findings);
  EXPECT_EQ(findings[0].verdict, Verdict::accept);
  EXPECT_EQ(findings[0].passed, Verdict::stop);
  EXPECT_EQ(findings[0].accepted_by, "A. Builder");
  EXPECT_EQ(findings[0].operation, "");
}

TEST(Decisions, APassNamesItsEndAndStandsOnlySoFar) {
  const auto passed = [](std::int64_t margin, model::Passes passes) {
    return !accepted_by(passing(margin, passes), outside(model::MayPass::mechanic)).empty();
  };
  EXPECT_TRUE(passed(-8, model::Passes::below));
  EXPECT_FALSE(passed(-6, model::Passes::below));
  EXPECT_FALSE(passed(-7, model::Passes::above)) << "too tight is not too loose";
  EXPECT_FALSE(passed(-7, model::Passes::nothing)) << "a signature within the limits passes none";
}

TEST(Decisions, WhyALimitIsNotPassed) {
  using model::Acceptance;
  EXPECT_EQ(acceptance(outside(model::MayPass::mechanic)), Acceptance::may_pass);
  EXPECT_EQ(acceptance(outside(model::MayPass::nobody)), Acceptance::nobody);
  EXPECT_EQ(acceptance(outside(model::MayPass::maker)), Acceptance::maker);
  const auto changed = [](auto change) {
    Finding finding = outside(model::MayPass::mechanic);
    change(finding);
    return acceptance(finding);
  };
  EXPECT_EQ(changed([](Finding& f) { f.guards = model::Guards::insertion; }), Acceptance::guarded);
  EXPECT_EQ(changed([](Finding& f) { f.verdict = Verdict::measure; }), Acceptance::undecided);
  EXPECT_EQ(changed([](Finding& f) { f.verdict = Verdict::ok; }), Acceptance::nothing);
  EXPECT_EQ(changed([](Finding& f) { f.accepted_by = "B. Builder"; }), Acceptance::already);
  EXPECT_EQ(changed([](Finding& f) { f.rests_on = {"bore (assumed)"}; }), Acceptance::unattested);
  EXPECT_EQ(changed([](Finding& f) { f.mismatches = {"hand: left against right"}; }), Acceptance::unlike);
  EXPECT_EQ(changed([](Finding& f) { f.law = "thread"; }), Acceptance::unlike);
  EXPECT_EQ(changed([](Finding& f) { f.law = "kinds"; }), Acceptance::unlike);
  EXPECT_EQ(changed([](Finding& f) { f.result.reset(); }), Acceptance::no_limit);
  EXPECT_EQ(changed([](Finding& f) { f.margin = 0; }), Acceptance::no_limit) << "an addition that makes it hold";
}

TEST(Decisions, AGuardedDepartureFromCommonPracticeIsNotSignedEither) {
  Finding finding = accept("wish@a.x,b.y", 5);
  finding.guards = model::Guards::steering;
  EXPECT_EQ(acceptance(finding), model::Acceptance::guarded);
  EXPECT_EQ(accepted_by(decided("wish@a.x,b.y", 5), finding), "");
}

RC_GTEST_PROP(Decisions, NothingSignsAwayWhatIsGuardedOrUndecided, ()) {
  Finding finding = outside(*rc::gen::element(model::MayPass::nobody, model::MayPass::mechanic, model::MayPass::maker));
  finding.margin = *rc::gen::inRange<std::int64_t>(-1000, 1000);
  finding.verdict =
      *rc::gen::element(Verdict::ok, Verdict::accept, Verdict::add, Verdict::measure, Verdict::rework, Verdict::stop);
  finding.guards = *rc::gen::element(model::Guards::nothing, model::Guards::brake, model::Guards::steering);
  if (finding.guards == model::Guards::nothing) finding.verdict = Verdict::measure;
  const model::Job job = passing(*rc::gen::inRange<std::int64_t>(-100000, 100000),
                                 *rc::gen::element(model::Passes::nothing, model::Passes::below, model::Passes::above));
  RC_ASSERT(accepted_by(job, finding).empty());
}

TEST(Decisions, InAPlanADecisionOnAGuardedMeasureChangesNothing) {
  SmallBicycle small;
  small.rule().guards = model::Guards::brake;
  small.part("frame").interfaces["shell"].values["bore"] = length(46'050, 5, quantity::OriginKind::assumed);
  const model::Plan before = small.plan();
  const Finding& finding = finding_in(before, "cup_in_shell@");
  ASSERT_EQ(finding.verdict, Verdict::measure);
  small.job.decisions = {{finding.id, "A. Builder", "2026-05-03", "it will do", -1'000'000'000}};
  const model::Plan after = small.plan();
  EXPECT_EQ(finding_in(after, "cup_in_shell@").verdict, Verdict::measure);
  EXPECT_EQ(finding_in(after, "cup_in_shell@").accepted_by, "");
}

TEST(Decisions, InAPlanAnAcceptanceHoldsUntilTheMarginGetsWorse) {
  SmallBicycle small;
  small.rule().should = {length(70), std::nullopt};
  const model::Plan before = small.plan();
  const Finding& finding = finding_in(before, "cup_in_shell@");
  ASSERT_EQ(finding.verdict, Verdict::accept);
  small.job.decisions = {{finding.id, "A. Builder", "2026-05-03", "it will do", finding.margin}};
  EXPECT_EQ(finding_in(small.plan(), "cup_in_shell@").accepted_by, "A. Builder");
  small.part("frame").interfaces["shell"].values["bore"] = length(46'040, 5);
  EXPECT_EQ(finding_in(small.plan(), "cup_in_shell@").verdict, Verdict::accept);
  EXPECT_EQ(finding_in(small.plan(), "cup_in_shell@").accepted_by, "");
}

}  // namespace
}  // namespace cotter::plan
