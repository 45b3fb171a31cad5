// Plans and refusals that a reader can redo by hand.
#include "engine/route/solve.hpp"

#include <gtest/gtest.h>

#include "instances.hpp"
#include "small.hpp"

namespace cotter::engine::route {
namespace {

using small::down_tube;
using small::line;
using small::tenths;

TEST(RouteSolve, OneHoseDownTheTube) {
  const Problem problem = down_tube({line("hose", 50, 60, 0, 1)});
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  // 100 + 300 + 100 mm, two apertures at 40, no turn.
  EXPECT_EQ(result.objective, 580);
  EXPECT_EQ(result.bound, 580);
  EXPECT_EQ(result.cost, (Cost{500, 80, 0, 0, 0}));
  EXPECT_EQ(result.runs[0].path, (std::vector<int>{0, 1}));
  EXPECT_EQ(result.runs[0].segments, (std::vector<std::int64_t>{100, 300, 100}));
  EXPECT_EQ(result.runs[0].way, 500);
  EXPECT_EQ(result.runs[0].length, 550);
  ASSERT_EQ(result.fills.size(), 2U);
  EXPECT_EQ(result.fills[0].area_permille, 250);
  // Beside 5 mm in a 10 mm hole there is room for 5 mm.
  EXPECT_EQ(result.fills[0].room, quantity::millimetres(5));
  EXPECT_TRUE(result.precedences.empty());
  EXPECT_EQ(violations(problem, result), std::vector<std::string>{});
}

TEST(RouteSolve, TwoHosesLieInASlotThatIsLongEnough) {
  Problem problem = down_tube({line("front", 50, 50, 0, 1), line("rear", 50, 50, 0, 1)});
  problem.apertures[0].opening = {tenths(50), tenths(100)};
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  // Two of 50 in 50 x 100: pi/2 of pi/4 + 1 parts of 50^2.
  EXPECT_EQ(result.fills[0].area_permille, 880);
  EXPECT_EQ(violations(problem, result), std::vector<std::string>{});
  problem.apertures[0].opening.length = tenths(99);
  EXPECT_EQ(solve(problem).status, Status::infeasible);
}

// Half circles of 60 and plug 80 x 25: its corners come down to sqrt(30^2 - 10^2) = 28.3 below the middle, so that
// 28.3 + 30 - 25 = 33.3 are left above it.
TEST(RouteSolve, PlugGoesPastAWireByItsSection) {
  Line data = line("data", 20, 84, 0, 1);
  for (LineEnd& end : data.ends) end.connector.section = geometry::Rectangle{tenths(80), tenths(25)};
  Problem problem = down_tube({line("wire", 33, 45, 0, 1), data});
  problem.apertures[0].opening = {tenths(60), tenths(120)};
  problem.apertures[1].opening = {tenths(130), tenths(130)};
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  EXPECT_EQ(violations(problem, result), std::vector<std::string>{});
  problem.lines[0].diameter = tenths(45);
  const Result turned = solve(problem);
  ASSERT_EQ(turned.status, Status::optimal);  // the plug first, then the wire
  EXPECT_EQ(turned.pull_order, (std::vector<int>{1, 0}));
}

TEST(RouteSolve, OfferedLengthsDecideTheLength) {
  Line wire = line("wire", 30, 30, 0, 1);
  wire.lengths = {900, 600, 520, 700};
  wire.max_stow = 150;
  EXPECT_EQ(solve(down_tube({wire})).runs.at(0).length, 600);
  wire.lengths = {520, 700};
  const Result none = solve(down_tube({wire}));
  EXPECT_EQ(none.status, Status::infeasible);
  EXPECT_EQ(none.conflict->reasons, (std::vector<ConflictReason>{{0, ConflictReason::Why::no_length, {}, {}}}));
}

TEST(RouteSolve, SmallerConnectorLeads) {
  Line hose = line("hose", 50, 50, 0, 1);
  hose.ends[0].connector.diameter = tenths(150);
  const Result result = solve(down_tube({hose}));
  ASSERT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.runs[0].leading_end, 1);
}

TEST(RouteSolve, ThickestGoesFirstWhereTheOrderIsFree) {
  const Result result = solve(down_tube({line("wire", 30, 30, 0, 1), line("hose", 50, 50, 0, 1)}));
  ASSERT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.pull_order, (std::vector<int>{1, 0}));
  EXPECT_TRUE(result.precedences.empty());
}

TEST(RouteSolve, WideConnectorGoesBeforeTheWire) {
  // Bodies 5 + 3 fit in 10; the plug of 8 mm does not pass beside the wire, the wire's of 3 does beside the hose.
  const Problem problem = down_tube({line("wire", 30, 30, 0, 1), line("hose", 50, 80, 0, 1)});
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.pull_order, (std::vector<int>{1, 0}));
  EXPECT_EQ(result.precedences,
            (std::vector<Precedence>{{1, 0, 0, Precedence::Because::needed}, {1, 0, 1, Precedence::Because::needed}}));
}

TEST(RouteSolve, OrderThatNoPairForcesIsChosen) {
  // The plug of 5 passes beside one body of 3 in a hole of 8, not beside two: the third circle may have 2.45 at most
  // beside the others. So `plug` must not be last, though it may follow either of the two.
  Problem problem = down_tube({line("plug", 30, 50, 0, 1), line("two", 30, 30, 0, 1), line("three", 30, 30, 0, 1)});
  for (Aperture& aperture : problem.apertures) aperture.opening = {tenths(80), tenths(80)};
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.pull_order, (std::vector<int>{0, 1, 2}));
  EXPECT_EQ(result.precedences, (std::vector<Precedence>{{0, 2, 0, Precedence::Because::chosen}}));
  EXPECT_EQ(violations(problem, result), std::vector<std::string>{});
}

TEST(RouteSolve, EnlargingIsDoneOnlyWhereItIsPermitted) {
  Problem problem = down_tube({line("hose", 50, 104, 0, 1)});
  problem.apertures[0].enlarge_max = 6;
  problem.apertures[0].enlarge_cost = 7;
  const Result half = solve(problem);
  EXPECT_EQ(half.status, Status::infeasible);
  ASSERT_TRUE(half.conflict);
  // 10.4 mm against 10.6 mm at the top, against 10.0 mm at the bottom.
  EXPECT_EQ(half.conflict->reasons.front(),
            (ConflictReason{0, ConflictReason::Why::connector_too_large, 1, quantity::micrometres(400)}));
  problem.apertures[1].enlarge_max = 4;
  problem.apertures[1].enlarge_cost = 2;
  const Result both = solve(problem);
  ASSERT_EQ(both.status, Status::optimal);
  EXPECT_EQ(both.enlarge, (std::vector<int>{4, 4}));
  EXPECT_EQ(both.cost.enlargement, 4 * 7 + 4 * 2);
}

TEST(RouteSolve, RectangularPlugPassesASlotLengthwise) {
  Line wire = line("wire", 30, 30, 0, 1);
  wire.ends[0].connector = {geometry::diagonal({tenths(100), tenths(40)}),
                            geometry::Rectangle{tenths(100), tenths(40)}};
  wire.ends[1].connector = wire.ends[0].connector;
  Problem problem = down_tube({wire});
  for (Aperture& aperture : problem.apertures) aperture.opening = {tenths(70), tenths(70)};
  EXPECT_EQ(solve(problem).status, Status::infeasible);
  for (Aperture& aperture : problem.apertures) aperture.opening.length = tenths(120);
  const Result result = solve(problem);
  EXPECT_EQ(result.status, Status::optimal);
  EXPECT_EQ(violations(problem, result), std::vector<std::string>{});
}

// A plug of 0.70 and a body of 0.33 of the opening fill 0.599 of its area: the density rule at 600 permille lets them
// through, side by side they are wider than the hole.
TEST(RouteSolve, PullingShareOf600IsNotSound) {
  const std::vector<Line> lines = {line("wire", 33, 70, 0, 1), line("cable", 33, 70, 0, 1)};
  Problem problem = down_tube(lines, Packing::density);
  problem.rules.pull_permille = 600;
  EXPECT_EQ(solve(problem).status, Status::optimal);
  problem.rules.packing = Packing::exact;
  const Result exact = solve(problem);
  EXPECT_EQ(exact.status, Status::infeasible);
  EXPECT_EQ(exact.conflict->lines, (std::vector<int>{0, 1}));
  EXPECT_TRUE(exact.conflict->irreducible);
  EXPECT_EQ(exact.conflict->reasons, (std::vector<ConflictReason>{}));
}

TEST(RouteSolve, ContestedApertureIsNamed) {
  Problem problem = down_tube({line("wire", 60, 60, 0, 1), line("cable", 60, 60, 0, 1)});
  problem.apertures[1].opening = {tenths(150), tenths(150)};
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::infeasible);
  EXPECT_EQ(result.conflict->reasons, (std::vector<ConflictReason>{{0, ConflictReason::Why::contested, 0, {}},
                                                                   {1, ConflictReason::Why::contested, 0, {}}}));
}

TEST(RouteSolve, UndecidedPackingCountsAsNoFitAndIsNamed) {
  // Seven of 333 fit a hole of 1000; with one of 344 the effort ends before either is proved.
  std::vector<Line> lines;
  for (int k = 0; k < 7; ++k) lines.push_back(line(std::string(1, static_cast<char>('a' + k)), 333, 333, 0, 1));
  lines.back() = line("g", 344, 344, 0, 1);
  Problem problem = down_tube(lines);
  for (Aperture& aperture : problem.apertures) aperture.opening = {tenths(1000), tenths(1000)};
  const Result result = solve(problem);
  EXPECT_EQ(result.status, Status::infeasible);
  const std::vector<int> all = {0, 1, 2, 3, 4, 5, 6};
  EXPECT_EQ(result.undecided, (std::vector<Undecided>{{0, all}, {1, all}}));
  EXPECT_EQ(result.objective_if_undecided_fit, 7 * 580);
  for (Aperture& aperture : problem.apertures) aperture.opening = {tenths(1100), tenths(1100)};
  EXPECT_TRUE(solve(problem).undecided.empty());
}

TEST(RouteSolve, MountedDeviceClosesItsAperture) {
  Problem problem = down_tube({line("hose", 50, 60, 0, 1)});
  problem.devices.push_back({"socket", {{0, {0, 0, 0}, 0, {}, 5}, {0, {0, 0, 0}, {}, {}, 30}}});
  const Result result = solve(problem);
  ASSERT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.seats[2], 1);
  EXPECT_EQ(result.objective, 580 + 30);
}

TEST(RouteSolve, LimitGivesABoundAndCountsNodes) {
  Problem problem;
  Result whole;
  for (std::uint64_t seed = 1; !whole.objective || whole.nodes < 10; ++seed) {
    problem = instances::frame(seed, 11, 9, 85);
    whole = solve(problem);
  }
  const Result cut = solve(problem, {.node_limit = 2});
  ASSERT_EQ(cut.status, Status::limit);
  ASSERT_TRUE(cut.bound);
  EXPECT_LE(*cut.bound, *whole.objective);
  EXPECT_GT(*cut.bound, *whole.objective / 2);
  EXPECT_LE(cut.nodes, 4);
  EXPECT_EQ(solve(problem, {.way_limit = 10}).status, Status::limit);
}

TEST(RouteSolve, NoLinesIsAPlan) {
  const Result result = solve(down_tube({}));
  EXPECT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.objective, 0);
}

TEST(RouteFaults, EachIsNamedWithItsPlace) {
  Problem problem = down_tube({line("hose", 50, 40, 0, 7)});
  problem.apertures[1].b = 5;
  problem.devices[0].seats[0].position.x = 20'000;
  problem.devices[1].seats.clear();
  problem.rules.equal_table[3] = 1;
  const Result result = solve(problem);
  EXPECT_EQ(result.status, Status::bad);
  EXPECT_EQ(result.faults, (std::vector<Fault>{{"table_not_rising", "rules.equal_table"},
                                               {"no_such_cell", "apertures[1].b"},
                                               {"position_out_of_range", "devices[0].seats[0].pos"},
                                               {"no_seat", "devices[1].seats"},
                                               {"connector_thinner_than_line", "lines[0].ends[0].c"},
                                               {"no_such_device", "lines[0].ends[1].device"},
                                               {"connector_thinner_than_line", "lines[0].ends[1].c"}}));
}

struct Damage {
  const char* code;
  void (*spoil)(Problem&, Result&);
};

TEST(RouteViolations, EachKindOfDamageIsFound) {
  const Problem whole = down_tube({line("wire", 30, 30, 0, 1), line("hose", 50, 80, 0, 1)});
  const Result plan = solve(whole);
  ASSERT_EQ(violations(whole, plan), std::vector<std::string>{});
  const Damage damages[] = {
      {"shape", [](Problem&, Result& r) { r.pull_order = {0, 0}; }},
      {"broken_way: line 0", [](Problem&, Result& r) { r.runs[0].path = {0}; }},
      {"way: line 1", [](Problem&, Result& r) { r.runs[1].segments[0] = 99; }},
      {"length: line 0", [](Problem&, Result& r) { r.runs[0].length = 549; }},
      {"enlarge: aperture 1", [](Problem&, Result& r) { r.enlarge[1] = 1; }},
      {"pull_order: line 1", [](Problem&, Result& r) { r.pull_order = {0, 1}; }},
      {"precedences: line 1", [](Problem&, Result& r) { r.precedences.clear(); }},
      {"bundle: aperture 0", [](Problem& p, Result&) { p.apertures[0].opening = {tenths(79), tenths(79)}; }},
      {"exclusive: aperture 0", [](Problem& p, Result&) { p.apertures[0].kind = ApertureKind::exclusive; }},
      {"mounted: aperture 1", [](Problem& p, Result&) { p.devices[0].seats[0].aperture = 1; }},
      {"place: device 1", [](Problem& p, Result&) { p.devices[0].seats[0].place = p.devices[1].seats[0].place = 3; }},
      {"cost", [](Problem&, Result& r) { ++*r.objective; }},
      {"bound", [](Problem&, Result& r) { --*r.bound; }},
  };
  for (const Damage& damage : damages) {
    Problem problem = whole;
    Result result = plan;
    damage.spoil(problem, result);
    const auto found = violations(problem, result);
    EXPECT_NE(std::find(found.begin(), found.end(), damage.code), found.end()) << damage.code;
  }
}

}  // namespace
}  // namespace cotter::engine::route
