// Joints, stacks, forms and connections that are there only for some parts, and the features that decide it.

#include <algorithm>
#include <gtest/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

bool has_finding(const model::Plan& plan, const std::string& start) {
  return std::any_of(plan.findings.begin(), plan.findings.end(),
                     [&](const model::Finding& finding) { return finding.id.starts_with(start); });
}

TEST(Conditions, AJointIsJudgedOnlyWhenTheyHold) {
  SmallBicycle small;
  model::JointForm& joint = small.catalog.bicycles["small"].joints[0];
  joint.when = {"kind:frame.shell=shell"};
  EXPECT_TRUE(has_finding(small.plan(), "cup_in_shell@"));
  joint.when = {"!kind:frame.shell=shell"};
  EXPECT_FALSE(has_finding(small.plan(), "cup_in_shell@"));
  joint.when = {"kind:frame.shell=shell", "open:bell"};
  EXPECT_TRUE(has_finding(small.plan(), "cup_in_shell@"));
  joint.when = {"kind:frame.shell=shell", "open:frame"};
  EXPECT_FALSE(has_finding(small.plan(), "cup_in_shell@"));
}

TEST(Conditions, AStackAndItsFormsAreThereOnlyWhenTheyHold) {
  SmallBicycle small;
  small.catalog.bicycles["small"].stacks[0].when = {"family:frame=frame"};
  EXPECT_TRUE(has_finding(small.plan(), "spindle.gap@"));
  small.catalog.bicycles["small"].stacks[0].when = {"family:frame=fork"};
  EXPECT_FALSE(has_finding(small.plan(), "spindle.gap@"));
  small.catalog.bicycles["small"].stacks[0].when = {};
  small.form().when = {"material:frame=composite"};
  EXPECT_FALSE(has_finding(small.plan(), "spindle.gap@"));
  small.part("frame").material = model::Material::composite;
  EXPECT_TRUE(has_finding(small.plan(), "spindle.gap@"));
}

TEST(Conditions, AConnectionIsAskedForOnlyWhenTheyHold) {
  SmallBicycle small;
  model::ConnectionForm form{"brake", "brake", {"lever", "wire"}, {"brake", "wire"}, model::Guards::brake, {}};
  form.when = {"kind:frame.shell=shell"};
  small.catalog.bicycles["small"].connections = {form};
  EXPECT_EQ(finding_in(small.plan(), "connected@").verdict, model::Verdict::stop);
  small.catalog.bicycles["small"].connections[0].when = {"!kind:frame.shell=shell"};
  EXPECT_FALSE(has_finding(small.plan(), "connected@"));
}

/// What decides between stacks must not be left out without a word: else none of them would be judged.
TEST(Features, AFeatureThatIsNotStatedMustBeMeasured) {
  SmallBicycle small;
  model::FeatureForm form;
  form.id = "preload";
  form.label = "how its play is set";
  form.feature = {"crank", "preload"};
  form.kinds = {"spindle"};
  form.guards = model::Guards::steering;
  small.catalog.bicycles["small"].features = {form};
  const model::Plan unsaid = small.plan();
  const model::Finding& finding = finding_in(unsaid, "states_feature@crank.preload");
  EXPECT_EQ(finding.verdict, model::Verdict::measure);
  EXPECT_EQ(finding.guards, model::Guards::steering);
  EXPECT_EQ(finding.may_pass, model::MayPass::nobody);

  small.part("crank").interfaces["preload"] = interface_of("preload", "cup", {});
  EXPECT_EQ(finding_in(small.plan(), "states_feature@crank.preload").verdict, model::Verdict::stop);
  small.part("crank").interfaces["preload"].kind = "spindle";
  EXPECT_FALSE(has_finding(small.plan(), "states_feature@"));
}

}  // namespace
}  // namespace cotter::plan
