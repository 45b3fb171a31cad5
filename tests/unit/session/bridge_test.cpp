// The bridge over the shipped catalog: every adapter is used, the search agrees with one that has no index, and what a
// job is told.
#include <algorithm>
#include <gtest/gtest.h>
#include <random>

#include "../engine/fit/bridge_peer.hpp"
#include "examples.hpp"
#include "plan/bridge/bridge_problem.hpp"
#include "quantity/text.hpp"

namespace cotter::session {
namespace {

using document::Node;
using engine::fit::bridge::Chain;
using engine::fit::bridge::Feature;
using engine::fit::bridge::Query;
using engine::fit::bridge::Result;
using engine::fit::bridge::Status;
namespace peer = engine::fit::bridge::peer;

const plan::BridgeCatalog& bridge() {
  static const plan::BridgeCatalog built(catalog());
  return built;
}

/// A feature with sizes in micrometres, good to 0.01 mm, or angles in their base unit.
model::Interface feature(const std::string& kind, const std::map<std::string, std::int64_t>& sizes,
                         std::map<std::string, std::string> words = {}) {
  model::Interface out{"end", kind, {}, std::move(words)};
  for (const model::KindDimension& dimension : catalog().kinds.at(kind).dimensions) {
    const auto size = sizes.find(dimension.id);
    if (size == sizes.end()) continue;
    quantity::Value value;
    value.dimension = dimension.dimension;
    const bool length = dimension.dimension == quantity::Dimension::length;
    value.nominal = length ? size->second * 1000 : size->second;
    // A gauge names a pitch to the micrometre.
    value.upper = dimension.id == "pitch" ? 1'000 : length ? 10'000 : 0;
    value.lower = -value.upper;
    value.origin.kind = quantity::OriginKind::maker;
    out.values[dimension.id] = value;
  }
  return out;
}

struct Pair {
  std::string name;
  model::Interface start, goal;
  std::vector<std::string> parts;
  int most = 4;
};

std::vector<std::string> parts_of(const Chain& chain) {
  std::vector<std::string> out;
  for (const auto& link : chain.links) out.push_back(bridge().part(link.piece).id);
  return out;
}

Result asked(const Pair& pair) {
  return engine::fit::bridge::solve(bridge().index(),
                                    {*bridge().feature(pair.start), *bridge().feature(pair.goal), {}, pair.most});
}

model::Interface tube(std::int64_t bore) {
  return feature("seat_tube_bore", {{"bore", bore}, {"least_insertion", 80'000}, {"free_depth", 300'000}});
}
model::Interface post(std::int64_t diameter) {
  return feature("post", {{"diameter", diameter}, {"length", 350'000}, {"mark", 100'000}, {"exposed", 200'000}});
}
model::Interface clamp(std::int64_t bore) {
  return feature("stem_clamp", {{"bore", bore}, {"height", 40'000}});
}
model::Interface steerer(std::int64_t diameter) {
  return feature("steerer", {{"diameter", diameter}});
}
model::Interface rotor(std::int64_t size) {
  return feature("rotor_disc", {{"diameter", size * 1000}, {"thickness", 1800}});
}
model::Interface slot(std::int64_t size) {
  return feature("rotor_slot", {{"diameter", size * 1000}, {"least_thickness", 1500}});
}
model::Interface dropouts(std::int64_t bore) {
  return feature("dropout", {{"spacing", 100'000}, {"bore", bore}});
}
model::Interface hub(std::int64_t bore) {
  return feature("hub", {{"spacing", 100'000}, {"bore", bore}});
}
model::Interface cup(const std::string& hand) {
  return feature("threaded_cup", {{"major", 34'760}, {"pitch", 1058}, {"stand_out", 9000}},
                 {{"hand", hand}, {"form", "inch_60"}});
}
model::Interface shell() {
  return feature("press_shell", {{"bore", 45'985}, {"width", 68'000}, {"offset", 0}});
}
model::Interface spindle(std::int64_t diameter) {
  return feature("spindle", {{"diameter", diameter}});
}
model::Interface bearing() {
  return feature("bearing_bore", {{"bore", 30'030}});
}

std::vector<Pair> pairs() {
  const auto degrees = quantity::parse_value("45°", quantity::Dimension::angle)->nominal;
  const auto seat = feature("head_seat", {{"bore", 52'100}, {"angle", degrees}});
  const auto bearing_418 =
      feature("head_bearing", {{"outer_diameter", 41'800}, {"outer_angle", degrees}, {"stand", 0}});
  const auto bearing_bore = feature("head_bearing_bore", {{"bore", 40'050}, {"inner_angle", degrees}});
  const auto crown = feature("crown_seat", {{"diameter", 30'010}, {"angle", degrees}});
  const auto stem = feature("bar_clamp", {{"bore", 31'850}});
  const auto bar = [](std::int64_t diameter) { return feature("bar_middle", {{"diameter", diameter}}); };
  const auto seat_of = [](const std::string& form) { return feature("rotor_seat", {}, {{"form", form}}); };
  const auto foot_of = [](const std::string& form) { return feature("rotor_foot", {}, {{"form", form}}); };
  return {
      {"post 27.2 in 31.6", tube(31'620), post(27'180), {"seat_sleeve_316_272"}},
      {"post 27.2 in 30.9", tube(30'920), post(27'180), {"seat_sleeve_309_272"}},
      {"post 25.4 in 27.2", tube(27'220), post(25'380), {"seat_sleeve_272_254"}},
      {"post 30.9 in 31.6", tube(31'620), post(30'880), {"seat_sleeve_316_309"}},
      {"post 25.4 in 31.6: no sleeve goes in a sleeve", tube(31'620), post(25'380), {}},
      {"post 31.6 in 27.2", tube(27'220), post(31'580), {}},
      {"bar 25.4 in 31.8", stem, bar(25'400), {"bar_sleeve_318_254"}},
      {"bar 26.0 in 31.8", stem, bar(26'000), {"bar_sleeve_318_260"}},
      {"bar 31.8 in 35", feature("bar_clamp", {{"bore", 35'050}}), bar(31'780), {"bar_sleeve_350_318"}},
      {"steerer 28.6 in 31.8", clamp(31'830), steerer(28'590), {"steerer_sleeve_318_286"}},
      {"steerer 25.4 in 28.6", clamp(28'630), steerer(25'400), {"steerer_sleeve_286_254"}},
      {"spindle 24 in bearings of 30", bearing(), spindle(23'990), {"spindle_sleeve_30_24"}},
      {"spindle 29 in bearings of 30", bearing(), spindle(28'990), {"spindle_sleeve_30_29"}},
      {"screw-in cup, right hand, in a smooth shell", shell(), cup("right"), {"shell_adapter_46_right"}},
      {"screw-in cup, left hand, in a smooth shell", shell(), cup("left"), {"shell_adapter_46_left"}},
      {"bearing 41.8 in a seat of 52", seat, bearing_418, {"external_seat_52_418"}},
      {"straight crown in a bearing of 40", bearing_bore, crown, {"reducing_race_40_30"}},
      {"post caliper on a flat mount",
       feature("flat_mount", {{"hole_spacing", 34'000}, {"thickness", 9000}}),
       feature("post_caliper", {{"hole_spacing", 74'200}, {"thickness", 10'000}, {"bolt_length", 22'000}}),
       {"plate_flat_to_post"}},
      {"flat caliper on posts",
       feature("post_mount", {{"hole_spacing", 74'200}, {"thread_depth", 16'000}, {"thread", 6000}}),
       feature("flat_caliper",
               {{"hole_spacing", 34'000}, {"bolt_length", 19'000}, {"bolt_diameter", 5000}, {"thread_depth", 13'000}}),
       {"plate_post_to_flat"}},
      {"rotor 180 for 160", rotor(180), slot(160), {"rotor_plate_post_160_180"}},
      {"rotor 160 for 140", rotor(160), slot(140), {"rotor_plate_post_140_160"}},
      {"rotor 200 for 180", rotor(200), slot(180), {"rotor_plate_post_180_200"}},
      {"six-bolt rotor on a splined hub", seat_of("splined_ring"), foot_of("six_bolts"), {"rotor_adapter_splined_six"}},
      {"splined rotor on a six-bolt hub", seat_of("six_bolts"), foot_of("splined_ring"), {}},
      {"short cassette on a long body",
       feature("freehub", {{"length", 36'750}}, {{"form", "long_spline"}}),
       feature("cassette_body", {{"length", 34'900}}, {{"form", "long_spline"}}),
       {"freehub_spacer_185"}},
      {"hub for 15 in dropouts for 12", dropouts(12'100), hub(15'100), {"end_caps_100_15_12"}},
      {"hub for 15 in slotted dropouts",
       feature("slotted_dropout", {{"spacing", 100'000}, {"slot", 9300}, {"thickness", 6000}}),
       hub(15'100),
       {"end_caps_100_15_9"}},
  };
}

TEST(ShippedBridge, EachPairIsJoinedByThePartsMadeForIt) {
  for (const Pair& pair : pairs()) {
    const Result result = asked(pair);
    EXPECT_EQ(result.chain.has_value(), !pair.parts.empty()) << pair.name;
    if (!result.chain) continue;
    EXPECT_EQ(parts_of(*result.chain), pair.parts) << pair.name;
    EXPECT_TRUE(result.chain->certain) << pair.name;
  }
}

TEST(ShippedBridge, EveryAdapterStandsInSomePair) {
  std::vector<std::string> used{"reducing_seat_52_418"};  // dearer than the external cup: see the test below
  for (const Pair& pair : pairs()) used.insert(used.end(), pair.parts.begin(), pair.parts.end());
  for (const auto& [id, part] : catalog().parts)
    EXPECT_TRUE(part.joins.empty() || std::find(used.begin(), used.end(), id) != used.end()) << id;
}

TEST(ShippedBridge, WhereTheCheapRingIsRefusedTheFlatOneIsNext) {
  const auto all = pairs();
  const auto pair =
      std::find_if(all.begin(), all.end(), [](const Pair& one) { return one.name == "bearing 41.8 in a seat of 52"; });
  const Result result = engine::fit::bridge::solve(
      bridge().index(), {*bridge().feature(pair->start), *bridge().feature(pair->goal), {}, 4},
      [](const Chain& chain) { return parts_of(chain).front() != "external_seat_52_418"; });
  ASSERT_TRUE(result.chain);
  EXPECT_EQ(parts_of(*result.chain), std::vector<std::string>{"reducing_seat_52_418"});
  EXPECT_EQ(result.proposals, 2);
}

TEST(ShippedBridge, NothingStandsBetweenFluids) {
  EXPECT_FALSE(bridge().feature(feature("brake_master", {}, {{"fluid", "mineral_oil"}})));
  EXPECT_FALSE(bridge().feature(feature("tyre_bead", {})));
}

/// The same catalog for the search without an index.
peer::PlainCatalog plain_catalog() {
  const auto& packed = bridge().index().catalog();
  peer::PlainCatalog plain{packed.kinds(), packed.meetings(), {}};
  for (std::uint32_t number = 0; number < packed.piece_count(); ++number) {
    const model::Part& part = bridge().part(number);
    engine::fit::bridge::Piece piece;
    piece.cost = part.price->hundredths;
    std::map<std::string, std::uint32_t> names;
    for (const auto& [name, interface] : part.interfaces) {
      names[name] = static_cast<std::uint32_t>(piece.features.size());
      piece.features.push_back(*bridge().feature(interface));
    }
    for (const model::Join& join : part.joins) piece.links.emplace_back(names.at(join.a), names.at(join.b));
    plain.pieces.push_back(std::move(piece));
  }
  return plain;
}

TEST(ShippedBridge, AgreesWithDijkstraWithoutIndexOn200Queries) {
  std::vector<Feature> ends;
  for (const Pair& pair : pairs()) {
    ends.push_back(*bridge().feature(pair.start));
    ends.push_back(*bridge().feature(pair.goal));
  }
  for (const auto& [id, part] : catalog().parts)
    for (const auto& [name, interface] : part.interfaces)
      if (const auto end = bridge().feature(interface)) ends.push_back(*end);
  const peer::PlainCatalog plain = plain_catalog();
  const peer::Peer without_index(plain);
  std::mt19937_64 random(20'260'502);
  int found = 0;
  for (int i = 0; i < 200; ++i) {
    // Half of the queries join ends that some adapter was made for, moved by up to 0.2 mm; the rest are any two.
    Query query{ends[random() % ends.size()], ends[random() % ends.size()], {}, 1 + static_cast<int>(random() % 4)};
    if (i % 2 == 0) {
      const std::size_t pair = random() % pairs().size();
      query.start = ends[2 * pair];
      query.goal = ends[2 * pair + 1];
      for (auto& amount : query.goal.amounts) {
        const std::int64_t shift = static_cast<std::int64_t>(random() % 5) * 50'000 - 100'000;
        if (!amount.stated()) continue;
        amount.low += shift;
        amount.high += shift;
      }
    }
    const Result result = engine::fit::bridge::solve(bridge().index(), query);
    const auto certain = without_index.least_certain(query);
    const auto least = certain ? certain : without_index.least_open(query);
    ASSERT_EQ(result.chain.has_value(), least.has_value()) << i;
    if (!least) continue;
    ++found;
    EXPECT_EQ(result.chain->cost, *least) << i;
    EXPECT_EQ(result.chain->certain, certain.has_value()) << i;
    EXPECT_TRUE(peer::valid(plain, query, *result.chain)) << i;
  }
  EXPECT_GE(found, 30);
}

// --- what a job is told ---

std::vector<std::string> proposed(const model::Finding& finding) {
  std::vector<std::string> out;
  for (const model::Addition& addition : finding.additions)
    if (addition.proposed) out.push_back(addition.id);
  return out;
}

bool has_fact(const model::Finding& finding, const std::string& key) {
  return std::any_of(finding.facts.begin(), finding.facts.end(), [&](const auto& fact) { return fact.first == key; });
}

Node job_with_tube(const std::string& bore) {
  Node job = example("all_road");
  measure(job, "frame.seat_tube.bore", bore);
  return job;
}

TEST(JobBridge, AThinPostInAWideTubeIsOfferedASleeve) {
  Node job = job_with_tube("31.62 ±0.01 mm");
  put(own_part(job, "frame_all_road_56"), "material", Node::text("aluminium"));
  put(place(job, "seatpost"), "part", Node::text("post_272_300"));
  const model::Plan plan = plan_of(job);
  const model::Finding* finding = find(plan, "post_in_tube@frame.seat_tube,seatpost.tube");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->verdict, model::Verdict::add);
  EXPECT_EQ(proposed(*finding), std::vector<std::string>{"seat_sleeve_316_272"});
  EXPECT_EQ(finding->additions.front().price->hundredths, 1400);
  EXPECT_TRUE(has_fact(*finding, "bridge.proposal"));
  EXPECT_FALSE(has_fact(*finding, "bridge.composite"));
}

/// Sizes do not say that a composite tube bears a sleeve: its maker does.
TEST(JobBridge, ACompositeTubeIsNotGivenASleeveWithoutItsMaker) {
  const model::Plan plan = plan_of(job_with_tube("31.62 ±0.01 mm"));
  const model::Finding* finding = find(plan, "post_in_tube@frame.seat_tube,seatpost.tube");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->verdict, model::Verdict::measure);
  EXPECT_EQ(proposed(*finding), std::vector<std::string>{"seat_sleeve_316_272"});
  EXPECT_TRUE(has_fact(*finding, "bridge.composite"));
}

/// The crown may be of metal and the steerer, which the sleeve would grip, of composite.
TEST(JobBridge, ACompositeFeatureOrAMaterialNobodyStatesAsksTheMakerToo) {
  const std::string id = "post_in_tube@frame.seat_tube,seatpost.tube";
  Node job = job_with_tube("31.62 ±0.01 mm");
  put(own_part(job, "frame_all_road_56"), "material", Node::text("unknown"));
  const model::Plan unstated = plan_of(job);
  ASSERT_NE(find(unstated, id), nullptr);
  EXPECT_EQ(find(unstated, id)->verdict, model::Verdict::measure);
  put(own_part(job, "frame_all_road_56"), "material", Node::text("aluminium"));
  Node& features = *own_part(job, "frame_all_road_56").find("interfaces");
  Node spare = Node::map().set("kind", Node::text("steerer")).set("wall", Node::text("composite"));
  for (const char* size : {"diameter", "length", "inside", "most_below", "least_above"})
    spare.set(size, Node::text("?"));
  features.set("spare", std::move(spare));
  const model::Plan feature = plan_of(job);
  ASSERT_NE(find(feature, id), nullptr);
  EXPECT_EQ(find(feature, id)->verdict, model::Verdict::measure);
  EXPECT_TRUE(has_fact(*find(feature, id), "bridge.composite"));
}

TEST(JobBridge, WhatIsGuardedAndAssumedIsMeasuredFirst) {
  Node job = example("all_road");
  assume(job, "frame.seat_tube.bore", "31.62 ±0.01 mm");
  const model::Plan plan = plan_of(job);
  const model::Finding* finding = find(plan, "post_in_tube@frame.seat_tube,seatpost.tube");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->verdict, model::Verdict::measure);
  EXPECT_EQ(proposed(*finding), std::vector<std::string>{"seat_sleeve_316_272"});
  ASSERT_FALSE(finding->measurements.empty());
  EXPECT_EQ(finding->measurements.front().ref.text(), "frame.seat_tube.bore");
}

TEST(JobBridge, NoSleeveMakesATubeWider) {
  const model::Plan plan = plan_of(job_with_tube("26.62 ±0.01 mm"));
  const model::Finding* finding = find(plan, "post_in_tube@frame.seat_tube,seatpost.tube");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->verdict, model::Verdict::stop);
  EXPECT_TRUE(has_fact(*finding, "bridge.none"));
  EXPECT_TRUE(finding->additions.empty());
}

TEST(JobBridge, AThinBarInAWideClampIsOfferedASleeve) {
  Node job = example("all_road");
  measure(job, "bar.middle.diameter", "25.40 ±0.05 mm");
  const model::Plan plan = plan_of(job);
  const model::Finding* finding = find(plan, "bar_in_stem@stem.bar_clamp,bar.middle");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->verdict, model::Verdict::add);
  EXPECT_EQ(proposed(*finding), std::vector<std::string>{"bar_sleeve_318_254"});
}

TEST(JobBridge, ASixBoltRotorOnASplinedHubIsOfferedAnAdapter) {
  Node job = example("all_road");
  const std::string six_bolts = [] {
    for (const auto& [id, part] : catalog().parts) {
      const auto foot = part.interfaces.find("foot");
      if (foot != part.interfaces.end() && foot->second.kind == "rotor_foot" &&
          foot->second.words.at("form") == "six_bolts")
        return id;
    }
    return std::string();
  }();
  ASSERT_FALSE(six_bolts.empty());
  put(*job.find("places"), "front_rotor", Node::text(six_bolts));
  const model::Plan plan = plan_of(job);
  const model::Finding* finding = find(plan, "rotor_on_hub@front_wheel.rotor_seat,front_rotor.foot");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->verdict, model::Verdict::measure);  // a brake hangs on it: the makers are asked first
  EXPECT_TRUE(has_fact(*finding, "bridge.brake"));
  EXPECT_EQ(proposed(*finding), std::vector<std::string>{"rotor_adapter_splined_six"});
}

// The plate fits rotor and caliper, but its foot is made for posts and this mount is flat.
TEST(JobBridge, APlateWhoseOtherPairHasNoPlaceIsRefused) {
  Node job = example("all_road");
  measure(job, "front_caliper.slot.diameter", "140 mm");
  measure(job, "front_rotor.disc.diameter", "160 mm");
  const model::Plan plan = plan_of(job);
  const model::Finding* finding = find(plan, "rotor_for_caliper@front_rotor.disc,front_caliper.slot");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->verdict, model::Verdict::stop);
  EXPECT_TRUE(has_fact(*finding, "bridge.refused"));
  EXPECT_TRUE(has_fact(*finding, "bridge.refused_other"));
}

TEST(JobBridge, AWornRotorIsNotMendedByAPlate) {
  Node job = example("all_road");
  measure(job, "front_rotor.disc.thickness", "1.30 mm");
  const model::Plan plan = plan_of(job);
  const model::Finding* finding = find(plan, "rotor_thickness@front_rotor.disc,front_caliper.slot");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->verdict, model::Verdict::stop);
}

// An external cup of 9 mm lifts the upper bearing: the cover no longer closes the gap, so the flat ring is next.
TEST(JobBridge, TheStackRefusesTheCupThatStandsTooHigh) {
  Node job = example("all_road");
  measure(job, "frame.upper_seat.bore", "52.10 mm");
  const model::Plan plan = plan_of(job);
  const model::Finding* finding = find(plan, "head_bearing_in_seat@frame.upper_seat,headset_upper.outer");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(proposed(*finding), std::vector<std::string>{"reducing_seat_52_418"});
}

TEST(JobBridge, ALengthThatDoesNotComeOutIsNoMatterOfAnAdapter) {
  Node job = example("all_road");
  Node& wheel = place(job, "rear_wheel");
  put(wheel, "part", Node::text("wheel_rear_130"));
  take_out(wheel, "values");
  const model::Plan plan = plan_of(job);
  const model::Finding* fill = find(plan, "cassette_rings.cassette_fill@rear_wheel.freehub,cassette.body");
  ASSERT_NE(fill, nullptr);
  EXPECT_EQ(fill->governs, model::Edge::from);  // the body is too short, and a ring takes more of it
  EXPECT_EQ(fill->verdict, model::Verdict::stop);
  EXPECT_TRUE(fill->additions.empty());
}

TEST(JobBridge, FluidsAreNeverBridged) {
  Node job = example("all_road");
  const model::Plan before = plan_of(job);
  for (const auto& [id, part] : catalog().parts) {
    const auto master = part.interfaces.find("master");
    if (master == part.interfaces.end() || !master->second.words.contains("fluid") ||
        master->second.words.at("fluid") != "glycol_ether" || part.interfaces.count("band") == 0)
      continue;
    put(*job.find("places"), "left_lever", Node::text(id));
  }
  const model::Plan plan = plan_of(job);
  const model::Finding* finding = find(plan, "brake_fluid@left_lever.master,front_caliper.slave");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->verdict, model::Verdict::stop);
  EXPECT_TRUE(finding->additions.empty());
  EXPECT_FALSE(has_fact(*finding, "bridge.none"));
}

}  // namespace
}  // namespace cotter::session
