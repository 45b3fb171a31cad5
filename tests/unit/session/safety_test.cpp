// Jobs that a mechanic tried in order to get past the plan, each a small change of an example. What guards a life must
// not come out better than it is because a feature, a family or a material was written differently.

#include <gtest/gtest.h>
#include <vector>

#include "examples.hpp"

namespace cotter::session {
namespace {

using document::Node;
using model::Verdict;

Node text(const std::string& written) {
  return Node::text(written);
}

Node interface(std::initializer_list<std::pair<const char*, const char*>> fields) {
  Node node = Node::map();
  for (const auto& [key, value] : fields) node.set(key, text(value));
  return node;
}

Node& interfaces_of(Node& job, const std::string& part) {
  return *own_part(job, part).find("interfaces");
}

void expect_verdict(const model::Plan& plan, const std::string& id, Verdict verdict) {
  const model::Finding* finding = find(plan, id);
  ASSERT_NE(finding, nullptr) << id;
  EXPECT_EQ(finding->verdict, verdict) << id;
}

/// Its cut, plug and limits have no place in this template, so they would go unjudged.
TEST(Safety, APlainSteererIsNotTakenByATemplateForThreadedOnes) {
  Node job = example("steel_road");
  put(interfaces_of(job, "fork_steel_threaded"), "steerer",
      interface({{"kind", "steerer"},
                 {"diameter", "28.58 ±0.02 mm"},
                 {"length", "205 ±1 mm"},
                 {"inside", "?"},
                 {"most_below", "30 mm"},
                 {"least_above", "5 mm"},
                 {"most_above", "20 mm"},
                 {"wall", "?"}}));
  expect_verdict(plan_of(job), "states_feature@fork.steerer", Verdict::stop);
}

TEST(Safety, AHoseForAnotherFluidIsStop) {
  Node job = example("all_road");
  for (Node& line : job.find("lines")->items())
    if (line.find("id")->scalar() == "front_hose") put(line, "part", text("hose_55_braided"));
  expect_verdict(plan_of(job), "connected@left_lever.hose,front_caliper.hose", Verdict::stop);
}

/// Spreading and reaming are changes for steel frames; the words of a kind must not smuggle them to other parts.
TEST(Safety, KindsOfSteelFramesStandOnNothingElse) {
  Node frame = example("steel_road");
  put(own_part(frame, "frame_lugged_56"), "material", text("aluminium"));
  EXPECT_NE(refusal_of(frame).find("interfaces.dropouts.kind: No part of this material has this: slotted dropouts of "
                                   "steel; found \"slotted_dropout_steel\"; accepted: material: steel"),
            std::string::npos)
      << refusal_of(frame);
  Node fork = example("steel_road");
  put(*interfaces_of(fork, "fork_steel_threaded").find("dropouts"), "kind", text("slotted_dropout_steel"));
  EXPECT_NE(refusal_of(fork).find("No part of this family has this: slotted dropouts of steel"), std::string::npos)
      << refusal_of(fork);
}

TEST(Safety, ANarrowForkIsNeverSpread) {
  Node job = example("steel_road");
  measure(job, "fork.dropouts.spacing", "97.0 ±0.1 mm");
  expect_verdict(plan_of(job), "quick_hub_spacing_slotted@fork.dropouts,front_wheel.hub", Verdict::stop);
}

/// The place decides, whatever the family is called; and a composite feature whatever the part's material is said to
/// be.
TEST(Safety, AUsedCompositeBarIsStopUnderAnyName) {
  Node job = example("all_road");
  Node part = interface({{"id", "bar_bought_used"},
                         {"label", "bar, composite, bought used"},
                         {"family", "handlebar"},
                         {"material", "composite"}});
  part.set("used", Node::boolean(true));
  const model::Part& bar = catalog().parts.at("bar_drop_440");
  Node features = Node::map();
  for (const auto& [id, feature] : bar.interfaces)
    if (feature.kind == "bar_middle" || feature.kind == "bar_hand")
      features.set(id, interface({{"kind", feature.kind.c_str()}, {"diameter", "?"}}));
  job.find("parts")->push(part.set("interfaces", std::move(features)));
  put(place(job, "bar"), "part", text("bar_bought_used"));
  expect_verdict(plan_of(job), "used_part@bar", Verdict::stop);
}

TEST(Safety, AnAxleHeadOfTheOtherFormIsStopAndSoIsOneThatTheAxleDoesNotState) {
  Node job = example("all_road");
  put(interfaces_of(job, "frame_all_road_56"), "axle_head_seat",
      interface({{"kind", "axle_head_seat"}, {"form", "flat"}}));
  expect_verdict(plan_of(job), "has_feature@frame.axle_head_seat,rear_axle.head", Verdict::stop);
}

std::vector<const model::Rule*> rules_named(const std::string& id) {
  std::vector<const model::Rule*> found;
  for (const auto& [name, kind] : catalog().kinds)
    for (const model::Meeting& meeting : kind.meets)
      for (const model::Rule& rule : meeting.rules)
        if (rule.id == id) found.push_back(&rule);
  return found;
}

/// No signature makes room: what cannot go together is not passed by anybody.
TEST(Safety, ASpindleInABearingOfAnotherSizeIsPassedByNobody) {
  for (const char* id : {"spindle_in_bearing", "cup_in_shell", "bearing_in_shell"}) {
    ASSERT_EQ(rules_named(id).size(), 1u) << id;
    EXPECT_EQ(rules_named(id).front()->may_pass, model::MayPass::nobody) << id;
  }
}

TEST(Safety, AnArmInTheStayIsPassedByNobody) {
  std::size_t seen = 0;
  for (const auto& [id, bicycle] : catalog().bicycles)
    for (const model::StackDefinition& stack : bicycle.stacks)
      for (const model::StackForm& form : stack.forms) {
        if (form.id != "arm_to_stay" && form.id != "left_arm_to_stay" && form.id != "ring_to_stay") continue;
        ++seen;
        EXPECT_EQ(form.may_pass, model::MayPass::nobody) << bicycle.id << " " << stack.id << "." << form.id;
      }
  EXPECT_GE(seen, 12u);  // three gaps in two stacks of two templates
}

}  // namespace
}  // namespace cotter::session
