// The shared sections on the all-road job with other parts in: each way to set a crank's play, cartridge, threaded
// headset, wheels, seatpost. Every number is worked out by hand beside it; windows are common practice.
#include <gtest/gtest.h>

#include "document/parse.hpp"
#include "examples.hpp"
#include "quantity/text.hpp"

namespace cotter::session {
namespace {

using document::Node;
using model::Finding;
using model::Verdict;

Node yaml(const std::string& text) {
  return *document::parse("cotter: job 1\nit: " + text + "\n", "part.yaml", document::Format::yaml)->find("it");
}

/// A part of our own in a place of the job.
void fill(Node& job, const std::string& where, const std::string& part) {
  Node node = yaml(part);
  const std::string id = node.find("id")->scalar();
  job.find("parts")->push(std::move(node));
  put(*job.find("places"), where, Node::text(id));
}

/// A value as a maker prints it.
void printed(Node& job, const std::string& ref, const std::string& text) {
  assume(job, ref, text);
  const std::size_t dot = ref.find('.');
  put(*place(job, ref.substr(0, dot)).find("values"), ref.substr(dot + 1), yaml("{value: " + text + ", maker: sheet}"));
}

void kit(Node& job, const std::string& rows) {
  put(*job.find("shop"), "kit", yaml("[" + rows + "]"));
}

/// The finding of a form, whatever it is about; a test fails when there is none.
Finding finding_of(const Node& job, const std::string& rule) {
  EXPECT_EQ(refusal_of(job), "");
  for (const Finding& finding : plan_of(job).findings)
    if (finding.rule == rule) return finding;
  ADD_FAILURE() << "no finding of " << rule;
  return {};
}

std::string crank(const std::string& shoulders, const std::string& preload) {
  return "{id: crank_here, label: crank, family: crankset, paper: sheet, interfaces: {spindle: {kind: spindle, "
         "diameter: 29.98 ±0 mm, shoulders: " +
         shoulders +
         ", shoulder_plane: 45.0 ±0 mm, chainline: 46.0 ±0 mm, inner_ring_face: 41.4 ±0 mm, arm_face: 57.5 ±0 mm}, "
         "preload: " +
         preload + "}}";
}

/// Shell 86.5 and twice 1.75 of cup: 90.00 over the bearings, all exact; no spacer in the drawer.
Node with_crank(const std::string& shoulders, const std::string& preload) {
  Node job = example("all_road");
  printed(job, "frame.shell_right.width", "86.5 ±0 mm");
  printed(job, "frame.shell_right.offset", "0 ±0 mm");
  printed(job, "bottom_bracket.cup_right.stand_out", "1.75 ±0 mm");
  printed(job, "bottom_bracket.cup_left.stand_out", "1.75 ±0 mm");
  kit(job, "");
  fill(job, "crankset", crank(shoulders, preload));
  return job;
}

struct Case {
  const char* shoulders;
  Verdict verdict;
};

void expect_all(const std::string& rule, const std::string& preload, const std::vector<Case>& cases) {
  for (const Case& one : cases) {
    const Node job = with_crank(one.shoulders, preload);
    EXPECT_EQ(finding_of(job, "bottom_bracket." + rule).verdict, one.verdict) << preload << " with " << one.shoulders;
  }
}

/// Gap 94.5 - 90 = 4.5: the end of the ring's travel; 0.05 more is too much, 0.05 less than 2.0 too little.
TEST(Preload, AdjusterRingWorksWithinItsTravel) {
  expect_all("preload_gap", "{kind: crank_preload, travel_from: 2.0 ±0 mm, travel_to: 4.5 ±0 mm}",
             {{"94.5 ±0 mm", Verdict::ok},
              {"94.55 ±0 mm", Verdict::add},
              {"91.95 ±0 mm", Verdict::stop},
              {"94.5 ±0.1 mm", Verdict::measure}});
}

/// 90.75 - 90 - 0.3 of flat washer = 0.45 of wave.
TEST(Preload, WaveWasherKeepsItsWave) {
  expect_all("wave_left", "{kind: wave_washer, flat: 0.3 ±0 mm, least_left: 0.3 mm, most_left: 0.5 mm}",
             {{"90.75 ±0 mm", Verdict::ok},
              {"90.85 ±0 mm", Verdict::add},
              {"90.55 ±0 mm", Verdict::stop},
              {"90.75 ±0.1 mm", Verdict::measure}});
}

/// 1.2 left over: a ring of 1.0 would leave 0.2, too flat; three of 0.25 leave 0.45. Common practice.
TEST(Preload, WaveWasherTakesThreeThinShimsAndNotOneThickOne) {
  Node job = with_crank("91.5 ±0 mm", "{kind: wave_washer, flat: 0.3 ±0 mm, least_left: 0.3 mm, most_left: 0.5 mm}");
  kit(job,
      "{id: quarter, label: shim, piece: spindle_spacer, bore: 30 mm, thickness: 0.25 mm, count: 4}, {id: one, label: "
      "ring, piece: spindle_spacer, bore: 30 mm, thickness: 1.0 mm, count: 4}");
  const Finding finding = finding_of(job, "bottom_bracket.wave_left");
  EXPECT_EQ(finding.verdict, Verdict::add);
  int quarters = 0;
  for (const model::Addition& addition : finding.additions) {
    EXPECT_EQ(addition.id, "quarter");
    quarters += static_cast<int>(addition.count);
  }
  EXPECT_EQ(quarters, 3);
  EXPECT_EQ(finding.result->low().base(), 450'000);
}

/// Rings whose hole is made for another spindle stay in the drawer.
TEST(Preload, ARingForAnotherSpindleIsNotOffered) {
  Node job = with_crank("91.5 ±0 mm", "{kind: wave_washer, flat: 0.3 ±0 mm, least_left: 0.3 mm, most_left: 0.5 mm}");
  kit(job, "{id: quarter, label: shim, piece: spindle_spacer, bore: 24 mm, thickness: 0.25 mm, count: 4}");
  for (const model::Addition& addition : finding_of(job, "bottom_bracket.wave_left").additions)
    EXPECT_NE(addition.id, "quarter");
}

/// 90.00 over the bearings in a range of 89.5 to 90.0 mm.
TEST(Preload, PinchedArmWantsTheWidthOfItsPaper) {
  const auto width = [](const char* shell) {
    Node job = with_crank("95 ±0 mm", "{kind: pinch_cap, least_width: 89.5 mm, most_width: 90.0 mm}");
    printed(job, "frame.shell_right.width", shell);
    return finding_of(job, "bottom_bracket.pinch_width").verdict;
  };
  EXPECT_EQ(width("86.5 ±0 mm"), Verdict::ok);
  EXPECT_EQ(width("86.55 ±0 mm"), Verdict::stop);
  EXPECT_EQ(width("85.95 ±0 mm"), Verdict::add);
  EXPECT_EQ(width("86.5 ±0.1 mm"), Verdict::measure);
}

/// 90.5 - 90 = 0.5 on the floating side.
TEST(Preload, FixedStepLeavesItsFloat) {
  expect_all("floating_gap", "{kind: fixed_step, least_float: 0.5 mm}",
             {{"90.5 ±0 mm", Verdict::ok}, {"90.45 ±0 mm", Verdict::stop}, {"90.5 ±0.1 mm", Verdict::measure}});
}

/// How the play is set decides between the stacks: unsaid it is asked for, and no other stack takes its place.
TEST(Preload, UnsaidIsAskedFor) {
  Node job = with_crank("94.5 ±0 mm", "{kind: crank_preload, travel_from: 2.0 ±0 mm, travel_to: 4.5 ±0 mm}");
  for (Node& part : job.find("parts")->items())
    if (part.find("id")->scalar() == "crank_here") take_out(*part.find("interfaces"), "preload");
  EXPECT_EQ(finding_of(job, "states_feature").verdict, Verdict::measure);
}

Node with_cartridge(const std::string& line_from_end) {
  Node job = example("all_road");
  printed(job, "frame.shell_right.width", "86.5 ±0 mm");
  printed(job, "frame.shell_right.offset", "0 ±0 mm");
  printed(job, "front_derailleur.cage.chainline_from", "42 mm");
  printed(job, "front_derailleur.cage.chainline_to", "45 mm");
  fill(job, "bottom_bracket",
       "{id: cartridge_here, label: cartridge, family: bottom_bracket, paper: sheet, interfaces: {cartridge: {kind: "
       "cartridge_spindle, made_for: 86.5 mm, length: 130 ±0 mm, longer_right: 0 ±0 mm}}}");
  fill(job, "crankset",
       "{id: arms_here, label: crank, family: crankset, paper: sheet, interfaces: {preload: {kind: cartridge_arms, "
       "line_from_end: " +
           line_from_end + ", ring_from_end: 26 ±0 mm, right_arm_from_end: 5 ±0 mm, left_arm_from_end: 4 ±0 mm}}}");
  return job;
}

/// 130 / 2 - 21.5 = 43.5. The other taper stops the arm 4.5 further out: 48.0, past the derailleur's 45. Common
/// practice.
TEST(Cartridge, ChainlineFollowsFromSpindleAndArm) {
  const auto verdict = [](const char* line) { return finding_of(with_cartridge(line), "cartridge.chainline").verdict; };
  EXPECT_EQ(finding_of(with_cartridge("21.5 ±0 mm"), "cartridge.chainline").result->low().base(), 43'500'000);
  EXPECT_EQ(finding_of(with_cartridge("17.0 ±0 mm"), "cartridge.chainline").result->low().base(), 48'000'000);
  EXPECT_EQ(verdict("21.5 ±0 mm"), Verdict::ok);
  EXPECT_EQ(verdict("17.0 ±0 mm"), Verdict::stop);
  EXPECT_EQ(verdict("19.95 ±0 mm"), Verdict::stop);
  EXPECT_EQ(verdict("20.0 ±0.1 mm"), Verdict::measure);
}

/// Right arm 65 - 5 = 60, left 65 - 4 = 61: 1 mm less on the right, the edge of the wish.
TEST(Cartridge, ArmsAreComparedAcrossTheCentrePlane) {
  const Finding finding = finding_of(with_cartridge("21.5 ±0 mm"), "cartridge.arms_even");
  EXPECT_EQ(finding.result->low().base(), -1'000'000);
  EXPECT_EQ(finding.verdict, Verdict::ok);
}

/// A crank of 86.5 on flush bearings in a shell of 68 wants 18.5 of spacers: 9.25 a side keep the chainline, all of it
/// on the left moves the crank 9.25 in. Common practice.
TEST(Symmetry, SpacersAreSplitOverBothSides) {
  Node job = with_crank("86.5 ±0 mm", "{kind: crank_preload, travel_from: 0 ±0 mm, travel_to: 0.5 ±0 mm}");
  printed(job, "frame.shell_right.width", "68 ±0 mm");
  printed(job, "bottom_bracket.cup_right.stand_out", "0 ±0 mm");
  printed(job, "bottom_bracket.cup_left.stand_out", "0 ±0 mm");
  printed(job, "crankset.spindle.shoulder_plane", "43.25 ±0 mm");
  kit(job, "{id: half, label: ring, piece: spindle_spacer, bore: 30 mm, thickness: 9.25 mm, count: 2}");
  EXPECT_EQ(finding_of(job, "bottom_bracket.preload_gap").verdict, Verdict::add);
  EXPECT_EQ(finding_of(job, "bottom_bracket.chainline").result->low().base(), 46'000'000);
  EXPECT_EQ(finding_of(job, "bottom_bracket.arms_even").result->low().base(), 0);
  kit(job, "{id: whole, label: ring, piece: spindle_spacer, bore: 30 mm, thickness: 18.5 mm, count: 1}");
  EXPECT_EQ(finding_of(job, "bottom_bracket.preload_gap").verdict, Verdict::add);
  EXPECT_TRUE(finding_of(job, "bottom_bracket.preload_gap").additions.front().id.empty());
}

/// A shell that stands as far to the left as another to the right moves the arms as far the other way.
TEST(Symmetry, MirroredOffsetMirrorsTheArms) {
  for (const int tenths : {0, 3, 7, 9}) {
    const auto even = [&](const std::string& sign) {
      Node job = with_crank("93 ±0 mm", "{kind: crank_preload, travel_from: 2.0 ±0 mm, travel_to: 4.5 ±0 mm}");
      printed(job, "frame.shell_right.offset", sign + "0." + std::to_string(tenths) + " ±0 mm");
      return finding_of(job, "bottom_bracket.arms_even").result->low().base();
    };
    EXPECT_EQ(even(""), -even("-"));
    EXPECT_EQ(even(""), tenths * 200'000);
  }
}

/// Ring 1.0 from the stay; 2.0 on the right bring 3.0 and move the chainline from 43.5 to 45.5. Common practice.
TEST(Symmetry, TheRingIsMovedOffTheStayAsFarAsTheDerailleurAllows) {
  const auto with_limit = [](const char* chainline_to) {
    Node job = with_crank("95.5 ±0 mm", "{kind: crank_preload, travel_from: 2.0 ±0 mm, travel_to: 5.5 ±0 mm}");
    printed(job, "crankset.spindle.shoulder_plane", "46.0 ±0 mm");
    printed(job, "crankset.spindle.chainline", "44.5 ±0 mm");
    printed(job, "crankset.spindle.inner_ring_face", "40.0 ±0 mm");
    printed(job, "frame.stay_right.at_ring", "38.0 ±0 mm");
    printed(job, "front_derailleur.cage.chainline_from", "42 mm");
    printed(job, "front_derailleur.cage.chainline_to", chainline_to);
    kit(job, "{id: two, label: ring, piece: spindle_spacer, bore: 30 mm, thickness: 2.0 mm, count: 1}");
    return job;
  };
  EXPECT_EQ(finding_of(with_limit("45.5 mm"), "bottom_bracket.ring_to_stay").result->low().base(), 3'000'000);
  EXPECT_EQ(finding_of(with_limit("45.5 mm"), "bottom_bracket.chainline").result->low().base(), 45'500'000);
  const Finding ring = finding_of(with_limit("45.0 mm"), "bottom_bracket.ring_to_stay");
  EXPECT_EQ(ring.verdict, Verdict::add);
  EXPECT_EQ(ring.result->low().base(), 1'000'000);
}

/// The cover would lie 0.3 into the frame: three shims of 0.25 leave 0.45. Common practice.
TEST(Headset, ThreeShimsFreeTheCover) {
  Node job = example("all_road");
  printed(job, "headset_upper.outer.stand", "0 ±0 mm");
  printed(job, "headset_cover.ring.lift", "3.0 ±0 mm");
  printed(job, "headset_cover.cover.skirt", "3.3 ±0 mm");
  const Finding finding = finding_of(job, "headset.cover_gap");
  EXPECT_EQ(finding.verdict, Verdict::add);
  ASSERT_EQ(finding.additions.size(), 1u);
  EXPECT_EQ(finding.additions[0].count, 3);
  EXPECT_EQ(finding.result->low().base(), 450'000);
}

/// Support 5 to 40 below the top, 20 of spacers above, steerer 3 ±0.5 below them, clamp 40: 17 ±0.5 without support.
TEST(Headset, APlugThatEndsInTheClampZoneIsStop) {
  Node job = example("all_road");
  printed(job, "compression_plug.body.support_from", "5 ±0 mm");
  printed(job, "compression_plug.body.support_to", "40 ±0 mm");
  printed(job, "spacers_above.stack.height", "20 ±0 mm");
  printed(job, "stem.steerer_clamp.height", "40 ±0 mm");
  const Finding finding = finding_of(job, "steerer.plug_below_clamp");
  EXPECT_EQ(finding.verdict, Verdict::stop);
  EXPECT_EQ(finding.result->low().base(), -17'500'000);
  EXPECT_EQ(finding.result->high().base(), -16'500'000);
  printed(job, "compression_plug.body.support_to", "60 ±0 mm");
  EXPECT_EQ(finding_of(job, "steerer.plug_below_clamp").verdict, Verdict::ok);
}

/// One maker asks for a spacer above the stem, another allows none: the rule is the fork's. Common practice.
TEST(Headset, SpacersAboveFollowTheVeryFork) {
  Node job = example("all_road");
  printed(job, "fork.steerer.least_above", "5 mm");
  printed(job, "spacers_above.stack.height", "0 ±0 mm");
  EXPECT_EQ(finding_of(job, "steerer.spacers_above_limit").verdict, Verdict::stop);
  printed(job, "fork.steerer.least_above", "0 mm");
  printed(job, "fork.steerer.most_above", "0 mm");
  EXPECT_EQ(finding_of(job, "steerer.spacers_above_limit").verdict, Verdict::ok);
  printed(job, "spacers_above.stack.height", "5 ±0 mm");
  EXPECT_EQ(finding_of(job, "steerer.spacers_above_most").verdict, Verdict::stop);
}

/// 142 with 3.5 in each dropout works like 135; a body of 36.75 under a cassette for 34.95 takes a ring of 1.85: -0.05.
TEST(Wheels, EffectiveWidthAndCassetteRing) {
  Node job = example("all_road");
  EXPECT_EQ(finding_of(job, "rear_hub.effective_spacing").result->high().base(), 135'200'000);
  put(*job.find("places"), "cassette", Node::text("cassette_11_34_11_short"));
  job.find("shop")->find("kit")->push(
      yaml("{id: ring_185, label: ring, piece: cassette_ring, thickness: 1.85 mm, count: 1}"));
  const Finding finding = finding_of(job, "cassette_rings.cassette_fill");
  EXPECT_EQ(finding.verdict, Verdict::add);
  ASSERT_EQ(finding.additions.size(), 1u);
  EXPECT_EQ(finding.additions[0].id, "ring_185");
  EXPECT_EQ(finding.result->low().base() + finding.result->high().base(), -100'000);
}

/// A post of 350, 50 cut off, 170 exposed: 130 in the tube, its new mark at 55 from the end, twice 27.2 is 54.4.
TEST(Seatpost, ACutPostIsJudgedByItsNewMark) {
  const auto with_mark = [](const char* mark) {
    Node job = example("all_road");
    fill(job, "seatpost",
         std::string("{id: post_here, label: post, family: seatpost, paper: sheet, interfaces: {tube: {kind: post, "
                     "diameter: 27.2 ±0 mm, length: 350 ±0 mm, mark: 100 ±0 mm, exposed: 170 ±0 mm}, head: {kind: "
                     "rail_clamp, width: 7 mm, height: 7 mm}, cut: {kind: post_cut, off: 50 ±0 mm, new_mark: ") +
             mark + "}}}");
    return job;
  };
  const Node job = with_mark("55 ±0 mm");
  EXPECT_EQ(finding_of(job, "seatpost.post_cut").result->low().base(), 300'000'000);
  EXPECT_EQ(finding_of(job, "seatpost.cut_insertion_mark").result->low().base(), 75'000'000);
  EXPECT_EQ(finding_of(job, "seatpost.cut_insertion_frame").verdict, Verdict::ok);
  EXPECT_EQ(finding_of(job, "seatpost.new_mark_two_diameters").verdict, Verdict::ok);
  EXPECT_EQ(finding_of(with_mark("54.35 ±0 mm"), "seatpost.new_mark_two_diameters").verdict, Verdict::stop);
  for (const Finding& finding : plan_of(job).findings) EXPECT_NE(finding.rule, "seatpost.insertion_mark");
}

}  // namespace
}  // namespace cotter::session
