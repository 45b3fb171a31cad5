// Jobs that a mechanic tried in order to get past the plan, each a small change of an example. What guards a life must
// not come out better than it is because a feature, a family or a material was written differently.

#include <algorithm>
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

/// The room beside the spindle was once reckoned for a hose of 5 mm, whatever went through the shell.
TEST(Safety, TheRoomPastTheSpindleIsReckonedWithTheThickestLineOfTheJob) {
  const std::string id = "hose_past_spindle@frame.shell_inside,crankset.spindle";
  Node job = example("all_road");
  expect_verdict(plan_of(job), id, Verdict::ok);
  // (45 - 30)/2 - 1.0 = 6.5 in the middle: a hose of 7 mm leaves nothing.
  Node thick = Node::map();
  for (const auto& [key, value] :
       {std::pair{"id", "hose_thick"}, {"label", "hose 7"}, {"family", "hose"}, {"paper", "x"}})
    thick.set(key, text(value));
  Node ends = Node::list();
  for (int i = 0; i < 2; ++i) ends.push(interface({{"family", "hose_joint"}, {"round", "7.0 mm"}}));
  Node line = interface({{"kind", "hose"}, {"diameter", "7.0 mm"}, {"longest", "2000 mm"}, {"bend_radius", "40 mm"}});
  line.set("ends", ends);
  thick.set("line", line);
  job.find("parts")->push(thick);
  for (Node& wish : job.find("lines")->items())
    if (wish.find("id")->scalar() == "front_hose") put(wish, "part", text("hose_thick"));
  expect_verdict(plan_of(job), id, Verdict::stop);
}

TEST(Safety, AnAxleThatHardlyReachesIntoItsDropoutIsStop) {
  Node job = example("steel_road");
  measure(job, "front_wheel.hub.stand", "2.5 ±0.1 mm");
  const model::Plan plan = plan_of(job);
  expect_verdict(plan, "axle_end_least_slotted@fork.dropouts,front_wheel.hub", Verdict::stop);
  expect_verdict(plan, "axle_end_reach_slotted@fork.dropouts,front_wheel.hub", Verdict::stop);
}

TEST(Safety, ABrakeCableWithAnotherHeadThanTheLeversSeatIsStop) {
  Node job = example("steel_road");
  Node cable =
      interface({{"id", "cable_barrel"}, {"label", "brake cable, barrel head"}, {"family", "housing"}, {"paper", "x"}});
  Node ends = Node::list();
  ends.push(interface({{"family", "brake_head_pear"}, {"round", "7.0 mm"}}));
  ends.push(interface({{"family", "brake_anchor"}, {"round", "5.0 mm"}}));
  Node line =
      interface({{"kind", "housing"}, {"diameter", "5.0 mm"}, {"longest", "2000 mm"}, {"bend_radius", "40 mm"}});
  line.set("ends", ends);
  cable.set("interfaces", Node::map().set("head", interface({{"kind", "cable_head"}, {"head", "barrel"}})));
  cable.set("line", line);
  job.find("parts")->push(cable);
  for (Node& wish : job.find("lines")->items())
    if (wish.find("id")->scalar() == "front_brake_cable") put(wish, "part", text("cable_barrel"));
  expect_verdict(plan_of(job), "cable_head_in_lever@left_lever.head,lines.front_brake_cable.head", Verdict::stop);
}

/// The washers may be left out of the job; on an axle with flats they hold the wheel.
TEST(Safety, AnAxleWithFlatsWantsItsWashers) {
  Node job = example("steel_road");
  put(place(job, "rear_wheel"), "part", text("hub_gear_8"));
  take_out(place(job, "rear_wheel"), "values");
  expect_verdict(plan_of(job), "has_feature@rear_wheel.flats,rear_washers.flats", Verdict::stop);
}

/// One line without a way once took the ways of all others with it.
TEST(Safety, LinesOutsideAConflictKeepTheirWays) {
  const model::Plan plan = plan_of(example("all_road_hose_end"));
  EXPECT_EQ(plan.runs.size(), 5u);
  for (const model::Run& run : plan.runs) EXPECT_NE(run.number, "L2");
  expect_verdict(plan, "route.all_lines@lines", Verdict::stop);
  expect_verdict(plan, "sequence.order@work", Verdict::measure);
  const auto& facts = find(plan, "route.all_lines@lines")->facts;
  const auto without = std::find(facts.begin(), facts.end(), std::pair<std::string, std::string>{"route.without", ""});
  ASSERT_NE(without, facts.end());
  EXPECT_EQ((without + 1)->second, "L2");
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
