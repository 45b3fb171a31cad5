// Bends, cells to keep clear of, pins, openings that are taken, and devices that go in with their leads: by hand.
#include <gtest/gtest.h>

#include "engine/route/solve.hpp"
#include "small.hpp"

namespace cotter::engine::route {
namespace {

using small::down_tube;
using small::line;
using small::tenths;

ConflictReason::Why only_reason(const Problem& problem) {
  const Result result = solve(problem);
  EXPECT_EQ(result.status, Status::infeasible);
  EXPECT_EQ(result.conflict->reasons.size(), 1U);
  return result.conflict->reasons.at(0).why;
}

/// The way turns a corner of 90 degrees at `bottom`, 100 mm before the brake.
Problem corner(std::int64_t bend_radius) {
  Problem problem = down_tube({line("hose", 50, 50, 0, 1)});
  problem.devices[1].seats[0].position = {300, 100, 0};
  problem.lines[0].bend_radius = bend_radius;
  return problem;
}

TEST(RouteDemands, AQuarterTurnTakesTheRadiusOfTheStretchBehindIt) {
  EXPECT_EQ(solve(corner(99)).status, Status::optimal);
  EXPECT_EQ(only_reason(corner(101)), ConflictReason::Why::bend);
}

TEST(RouteDemands, NothingPassesAnOpeningThatIsTaken) {
  Problem problem = down_tube({line("hose", 50, 50, 0, 1)});
  problem.apertures.push_back(small::hole("side", 0, k_outside, 100, {150, 0, 0}));
  EXPECT_EQ(solve(problem).runs.at(0).path, (std::vector<int>{0, 1}));
  problem.apertures[1].taken = true;
  EXPECT_EQ(solve(problem).runs.at(0).path, (std::vector<int>{0, 2}));
  problem.devices[1].seats[0].aperture = 1;
  EXPECT_EQ(solve(problem).status, Status::infeasible) << "no device either";
}

TEST(RouteDemands, PinsAndBansChooseTheOpening) {
  Problem problem = down_tube({line("hose", 50, 50, 0, 1)});
  problem.apertures.push_back(small::hole("side", 0, k_outside, 100, {150, 0, 0}));
  problem.lines[0].through = {2};
  EXPECT_EQ(solve(problem).runs.at(0).path, (std::vector<int>{0, 2}));
  problem.lines[0].avoids = {0};
  EXPECT_EQ(solve(problem).runs.at(0).path, (std::vector<int>{2, 1}));
  problem.lines[0].avoids = {2};
  EXPECT_EQ(only_reason(problem), ConflictReason::Why::pinned);
}

TEST(RouteDemands, ALineMustLieClearOfWhatStandsInACell) {
  Problem problem = down_tube({line("hose", 50, 50, 0, 1)});
  problem.cell_rules = {{0, tenths(50), true}};
  EXPECT_EQ(solve(problem).status, Status::optimal);
  problem.cell_rules[0].room = tenths(49);
  EXPECT_EQ(only_reason(problem), ConflictReason::Why::not_clear);
}

TEST(RouteDemands, NoBareCableBesideATurningSpindle) {
  Problem problem = down_tube({line("cable", 12, 12, 0, 1)});
  problem.cell_rules = {{0, {}, false}};
  EXPECT_EQ(solve(problem).status, Status::optimal) << "in its housing it may";
  problem.lines[0].bare_cable = true;
  EXPECT_EQ(only_reason(problem), ConflictReason::Why::not_clear);
}

/// A battery that goes in through `top` (10 mm), its lead out at `bottom`, and a wire in at `top` and out at `bottom`.
Problem battery(int body, int wire) {
  Problem problem = down_tube({line("lead", 25, 35, 2, 1), line("wire", wire, wire, 0, 1)});
  problem.devices.push_back({"battery", {{0, {150, 0, 0}, {}, {}, 0, {0}}}, Connector{tenths(body), {}}});
  problem.lines[0].captive_end = 0;
  problem.lines[0].ends[0].connector.diameter = tenths(25);
  return problem;
}

TEST(RouteDemands, TheFreeEndOfACaptiveLeadIsPulledThoughItsPlugIsTheLarger) {
  const Problem problem = battery(80, 20);
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.runs[0].leading_end, 1);
  EXPECT_EQ(violations(problem, result), std::vector<std::string>{});
}

TEST(RouteDemands, TheDeviceFollowsItsLeadAndTheWireThatLeavesNoRoomFollowsTheDevice) {
  // 8 mm beside 2 mm just pass a hole of 10 mm; 8.1 mm do not.
  const Result beside = solve(battery(80, 20));
  ASSERT_EQ(beside.device_entries.size(), 1U);
  EXPECT_EQ(beside.device_entries[0].after, (std::vector<int>{0}));
  EXPECT_EQ(beside.device_entries[0].before, (std::vector<int>{}));
  const Problem tight = battery(81, 20);
  const Result first = solve(tight);
  ASSERT_EQ(first.status, Status::optimal);
  EXPECT_EQ(first.device_entries[0].before, (std::vector<int>{1}));
  EXPECT_EQ(first.pull_order, (std::vector<int>{0, 1})) << "lead, battery, wire";
  EXPECT_EQ(violations(tight, first), std::vector<std::string>{});
}

TEST(RouteDemands, ADeviceWiderThanItsEntryHasNoSeat) {
  EXPECT_EQ(solve(battery(100, 20)).status, Status::optimal);
  EXPECT_EQ(solve(battery(101, 20)).status, Status::infeasible);
}

TEST(RouteDemands, NoOrderWhenTheLeadMustComeLastAndTheWireAfterTheDevice) {
  // At `bottom` (10 mm) the plug of the lead, 7 mm, needs the wire's 3 mm out of the way or beside it: it passes first
  // or second. With a wire of 3.1 mm it must be first, so all is well; when the wire's own plug is 8 mm it must be
  // pulled before the lead (8 + 2.5 > 10), and the lead before the wire: a circle whatever the device does.
  Problem problem = battery(81, 31);
  problem.lines[0].ends[1].connector.diameter = tenths(70);
  EXPECT_EQ(solve(problem).status, Status::optimal);
  for (LineEnd& end : problem.lines[1].ends) end.connector.diameter = tenths(80);
  EXPECT_EQ(solve(problem).status, Status::infeasible);
}

TEST(RouteDemands, TheCircleThroughTheDeviceIsSeen) {
  // The wire's plug (8 mm) must pass `bottom` before the lead lies there (2.5 mm): wire before lead, lead before
  // battery. But 8.1 mm of battery do not pass `top` beside the wire's 2 mm: battery before wire.
  Problem problem = battery(81, 20);
  for (LineEnd& end : problem.lines[1].ends) end.connector.diameter = tenths(80);
  EXPECT_EQ(solve(problem).status, Status::infeasible);
  problem.devices[2].body->diameter = tenths(80);
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.pull_order, (std::vector<int>{1, 0}));
  EXPECT_EQ(violations(problem, result), std::vector<std::string>{});
}

TEST(RouteDemands, ViolationsSeeEachBrokenDemand) {
  const auto broken = [](const Problem& problem, const Result& result, const std::string& code) {
    const auto found = violations(problem, result);
    return std::any_of(found.begin(), found.end(), [&](const std::string& one) { return one.starts_with(code); });
  };
  Problem problem = battery(81, 20);
  const Result result = solve(problem);
  ASSERT_TRUE(violations(problem, result).empty());
  Problem other = problem;
  other.apertures[1].taken = true;
  EXPECT_TRUE(broken(other, result, "taken"));
  other = problem;
  other.lines[1].avoids = {1};
  EXPECT_TRUE(broken(other, result, "avoids"));
  other.lines[1].avoids.clear();
  other.lines[0].through = {0};
  EXPECT_TRUE(broken(other, result, "through"));
  other = problem;
  other.cell_rules = {{0, tenths(24), true}};
  EXPECT_TRUE(broken(other, result, "not_clear"));
  other = corner(99);
  const Result turned = solve(other);
  other.lines[0].bend_radius = 101;
  EXPECT_TRUE(broken(other, turned, "bend"));
  Result wrong = result;
  wrong.device_entries[0].before.clear();
  EXPECT_TRUE(broken(problem, wrong, "entry"));
  wrong = result;
  wrong.device_entries[0].after.clear();
  EXPECT_TRUE(broken(problem, wrong, "captive"));
  wrong = result;
  wrong.precedences.push_back({1, 0, 1, Precedence::Because::needed});
  EXPECT_TRUE(broken(problem, wrong, "entry_circle"));
  wrong = result;
  wrong.runs[0].leading_end = 0;
  EXPECT_TRUE(broken(problem, wrong, "leading_end"));
}

TEST(RouteDemands, ALeadWiderThanItsDeviceIsABadProblem) {
  Problem problem = battery(30, 20);
  EXPECT_EQ(faults_in(problem), (std::vector<Fault>{{"lead_wider_than_its_device", "lines[0].captive_end"}}));
}

}  // namespace
}  // namespace cotter::engine::route
