// Pins, bans, openings that are taken, a measured way, the network of lines and the rider's hands, on a whole job.
#include <algorithm>
#include <gtest/gtest.h>

#include "examples.hpp"

namespace cotter::session {
namespace {

using document::Node;
using model::Verdict;

/// A line of the job.
Node& line(Node& job, const std::string& id) {
  for (Node& one : job.find("lines")->items())
    if (one.find("id")->scalar() == id) return one;
  ADD_FAILURE() << "no line " << id;
  return job.find("lines")->items().front();
}

const model::Run& run(const model::Plan& plan, const std::string& id) {
  const auto found =
      std::find_if(plan.runs.begin(), plan.runs.end(), [&](const model::Run& one) { return one.line == id; });
  EXPECT_NE(found, plan.runs.end()) << id;
  return *found;
}

bool passes(const model::Run& run, const std::string& opening) {
  return std::any_of(run.steps.begin(), run.steps.end(),
                     [&](const model::RunStep& step) { return step.opening == opening; });
}

TEST(Routing, AnOpeningThatIsTakenSendsTheLineElsewhereOrStopsThePlan) {
  const model::Plan before = plan_of(example("all_road"));
  ASSERT_TRUE(passes(run(before, "rear_hose"), "frame.port_left"));
  Node job = example("all_road");
  put(job, "taken",
      Node::list_of({Node::map().set("opening", Node::text("frame.port_left")).set("by", Node::text("a bolt"))}));
  const model::Plan after = plan_of(job);
  // No other hole of this frame takes a hose of 5 mm near the head.
  EXPECT_EQ(find(after, "route.all_lines@lines")->verdict, Verdict::stop);
}

TEST(Routing, ABannedOpeningIsNotPassedAndAPinnedOneIs) {
  Node job = example("all_road");
  ASSERT_TRUE(passes(run(plan_of(job), "main_wire"), "frame.port_left"));
  put(line(job, "main_wire"), "avoid", Node::list_of({Node::text("frame.port_left")}));
  const model::Plan plan = plan_of(job);
  ASSERT_EQ(find(plan, "route.all_lines@lines")->verdict, Verdict::ok);
  EXPECT_FALSE(passes(run(plan, "main_wire"), "frame.port_left"));
  const std::string other = run(plan, "main_wire").steps.front().opening;
  Node pinned = example("all_road");
  put(line(pinned, "main_wire"), "through", Node::list_of({Node::text(other)}));
  EXPECT_TRUE(passes(run(plan_of(pinned), "main_wire"), other));
}

TEST(Routing, AMeasuredWayReplacesTheComputedOne) {
  Node job = example("all_road");
  const model::Run computed = run(plan_of(job), "rear_hose");
  put(line(job, "rear_hose"), "measured",
      Node::map()
          .set("way", Node::integer(computed.way + 33))
          .set("by", Node::text("A. Builder"))
          .set("on", Node::text("2026-05-03")));
  const model::Run measured = run(plan_of(job), "rear_hose");
  EXPECT_EQ(measured.way, computed.way + 33);
  EXPECT_EQ(measured.length, (computed.way + 33 + 60 + 9) / 10 * 10) << "60 mm of slack, up to whole centimetres";
}

TEST(Routing, TwoLinesInOnePortAreAStop) {
  Node job = example("all_road");
  put(line(job, "rear_wire"), "from", Node::text("battery.front"));
  const model::Plan plan = plan_of(job);
  const model::Finding* twice = find(plan, "port@battery.front,rear_wire");
  ASSERT_NE(twice, nullptr);
  EXPECT_EQ(twice->verdict, Verdict::stop);
  EXPECT_EQ(find(plan, "network@lines"), nullptr);
}

TEST(Routing, NobodyHasAskedWhichHandBrakesWhichWheel) {
  Node job = example("all_road");
  take_out(job, "hands");
  const model::Plan plan = plan_of(job);
  EXPECT_EQ(find(plan, "hands@brakes")->verdict, Verdict::measure);
  EXPECT_EQ(plan.hands_by, std::nullopt);
}

TEST(Routing, TheOtherHandAsksForTheOtherHoses) {
  Node job = example("all_road");
  put(*job.find("hands"), "left", Node::text("rear"));
  const model::Plan wrong = plan_of(job);
  EXPECT_EQ(find(wrong, "connected@right_lever.hose,front_caliper.hose")->verdict, Verdict::stop);
  put(line(job, "front_hose"), "from", Node::text("right_lever.hose"));
  put(line(job, "rear_hose"), "from", Node::text("left_lever.hose"));
  const model::Plan right = plan_of(job);
  EXPECT_EQ(find(right, "connected@right_lever.hose,front_caliper.hose")->verdict, Verdict::ok);
  EXPECT_EQ(run(right, "rear_hose").from, "left lever");
}

TEST(Routing, ALineThroughTheShellLiesClearOfTheSpindle) {
  // Beside a spindle of 30 mm, 1.5 mm kept: 43.2 mm inside leave 5.1 mm, 42.8 mm only 4.9 mm for a hose of 5 mm.
  for (const auto& [inside, verdict] : {std::pair{"43.2 ±0.01 mm", Verdict::ok}, {"42.8 ±0.01 mm", Verdict::stop}}) {
    Node job = example("all_road");
    measure(job, "frame.shell_inside.diameter", inside);
    EXPECT_EQ(find(plan_of(job), "route.all_lines@lines")->verdict, verdict) << inside;
  }
}

}  // namespace
}  // namespace cotter::session
