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

RC_GTEST_PROP(Decisions, NothingSignsAwayAStopAMeasureOrARework, ()) {
  Finding finding = accept("wish@a.x,b.y", *rc::gen::inRange<std::int64_t>(-1000, 1000));
  finding.verdict = *rc::gen::element(Verdict::ok, Verdict::add, Verdict::measure, Verdict::rework, Verdict::stop);
  finding.guards = *rc::gen::element(model::Guards::nothing, model::Guards::brake, model::Guards::steering);
  finding.may_pass = *rc::gen::element(model::MayPass::nobody, model::MayPass::mechanic, model::MayPass::maker);
  const model::Job job = decided("wish@a.x,b.y", *rc::gen::inRange<std::int64_t>(-100000, 100000));
  RC_ASSERT(!may_be_accepted(finding));
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
