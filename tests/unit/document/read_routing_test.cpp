// What routing needs of a job and a catalog: devices that go into the frame with their leads, pins, bans, openings that
// are taken, measured ways, seats to choose, shafts to keep clear of, and which hand brakes which wheel.
#include "read_support.hpp"

namespace cotter::document {
namespace {

using Lines = std::vector<std::string>;
using Outline = model::ClearShape::Outline;

const std::string k_battery = R"(  - id: battery
    label: battery
    family: battery
    device:
      body: {round: 18.6 mm}
      ports: [{id: front, family: socket, lead: {kind: wire, diameter: 2 mm, plug: {family: hose_joint, width: 3.3 mm, height: 4.2 mm}, lengths: [350 mm], bend_radius: 6 mm}}]
)";

Texts catalog_texts() {
  Texts texts = small_catalog_texts();
  texts[1].second = k_parts_text + k_battery;
  texts[2].second =
      changed(changed(k_bicycle_text, "  - {id: lever, label: lever}\n",
                      "  - {id: lever, label: lever}\n  - {id: battery, label: battery, optional: true}\n"),
              "seats:\n",
              "clearances:\n"
              "  - {id: beside, cell: frame.down_tube, inside: frame.shell_right.bore, shaft: "
              "bottom_bracket.cup_right.diameter, keep: 1.5 mm, when: [\"hand:left=front\"]}\n"
              "seats:\n"
              "  - {id: high, place: battery, cell: frame.down_tube, point: seat_top, entries: [frame.port]}\n"
              "  - {id: low, place: battery, cell: frame.head_tube, point: seat_top}\n");
  texts.emplace_back("customs.yaml", R"(cotter: customs 1
brakes:
  - {left: rear, countries: [GB, IE], source: {common_practice: true}}
  - {left: front, countries: [DE], source: {common_practice: true}}
)");
  return texts;
}

const model::Catalog& catalog_with_battery() {
  static const model::Catalog catalog = [] {
    auto read = read_catalog_texts(catalog_texts());
    if (!read)
      for (const std::string& line : lines_of(read.error())) ADD_FAILURE() << line;
    return read.value_or(model::Catalog{});
  }();
  return catalog;
}

/// The small job with a battery whose lead runs to the lever, pinned, banned and measured.
const std::string k_routed_job = changed(
    changed(changed(k_job_text, "  lever: lever\n", "  lever: lever\n  battery: {part: battery, seat: low}\n"),
            "aliases:",
            "  - {id: lead, from: battery.front, to: lever.hose, through: [frame.port], avoid: [frame.exit, "
            "frame.head_to_down], measured: {way: 655, by: A. Builder, on: 2026-05-03}}\n"
            "taken: [{opening: frame.exit, by: a bolt}]\n"
            "hands: {left: rear, by: A. Builder, on: 2026-05-02}\n"
            "aliases:"),
    "distance: 60 mm, side: bottom, shape: {round: 6.5 mm}",
    "distance: 60 mm, side: bottom, shape: {width: 6 mm, length: 9 mm, oval: true}, holds: [5 mm, 2 mm], thread: M6");

TEST(ReadRouting, KeepsTheDeviceAndItsLead) {
  const model::Device& device = *catalog_with_battery().parts.at("battery").device;
  EXPECT_EQ(device.body->width.nominal, 18'600'000);
  EXPECT_TRUE(device.body->round());
  const model::LineForm& lead = *device.ports.at(0).lead;
  EXPECT_EQ(lead.family_a, "socket");
  EXPECT_EQ(lead.family_b, "hose_joint");
  EXPECT_EQ(lead.connector_a.width.nominal, 2'000'000);
  EXPECT_EQ(lead.connector_b.outline, Outline::slot);
  EXPECT_EQ(lead.lengths.at(0).nominal, 350'000'000);
}

TEST(ReadRouting, KeepsWhatTheTemplateOffers) {
  const model::Bicycle& bicycle = catalog_with_battery().bicycles.at("all_road");
  ASSERT_EQ(bicycle.clearances.size(), 1U);
  EXPECT_EQ(bicycle.clearances[0].keep.nominal, 1'500'000);
  EXPECT_EQ(bicycle.clearances[0].shaft, (model::ValueRef{"bottom_bracket", "cup_right", "diameter"}));
  EXPECT_EQ(bicycle.clearances[0].when, (model::Conditions{"hand:left=front"}));
  EXPECT_EQ(bicycle.seats.at(0).id, "high");
  EXPECT_EQ(bicycle.seats.at(0).entries, (std::vector<std::string>{"frame.port"}));
  ASSERT_EQ(catalog_with_battery().brake_customs.size(), 2U);
  EXPECT_FALSE(catalog_with_battery().brake_customs[0].left_is_front);
  EXPECT_EQ(catalog_with_battery().brake_customs[0].countries, (std::vector<std::string>{"GB", "IE"}));
}

TEST(ReadRouting, KeepsWhatTheJobSays) {
  const auto job = read_job_text(k_routed_job, catalog_with_battery());
  ASSERT_TRUE(job) << lines_of(job.error()).front();
  const model::LineWish& lead = job->sheet.lines.at(1);
  EXPECT_EQ(lead.part, "");
  EXPECT_EQ(lead.through, (std::vector<std::string>{"frame.port"}));
  EXPECT_EQ(lead.avoid, (std::vector<std::string>{"frame.exit", "frame.head_to_down"}));
  EXPECT_EQ(lead.measured->way, 655);
  EXPECT_EQ(job->sheet.taken.at(0).opening, "frame.exit");
  EXPECT_EQ(job->sheet.taken.at(0).by, "a bolt");
  EXPECT_FALSE(job->sheet.hands->left_is_front);
  EXPECT_EQ(job->sheet.hands->on, "2026-05-02");
  const model::Opening& exit = job->sheet.parts.at(0).openings.at(1);
  EXPECT_EQ(exit.shape.outline, Outline::oval);
  EXPECT_EQ(exit.holds.at(1).nominal, 2'000'000);
  EXPECT_EQ(exit.thread, "M6");
  const auto battery = std::find_if(job->sheet.places.begin(), job->sheet.places.end(),
                                    [](const model::Place& place) { return place.id == "battery"; });
  EXPECT_EQ(battery->seat, "low");
}

Lines said(const std::string& from, const std::string& to) {
  const auto job = read_job_text(changed(k_routed_job, from, to), catalog_with_battery());
  return job ? Lines{} : lines_of(job.error());
}

TEST(ReadRouting, SaysWhatIsWrongWithALine) {
  EXPECT_EQ(said("through: [frame.port]", "through: [frame.prot]"),
            (Lines{"job.yaml:36:63: lines[1].through[0]: There is no opening of this name; found \"frame.prot\"; "
                   "accepted: frame.port, frame.exit, frame.head_to_down; did you mean \"frame.port\"?"}));
  EXPECT_EQ(said("{id: lead, from", "{id: lead, part: wire_2, from"),
            (Lines{"job.yaml:36:22: lines[1].part: The device at `from` has a lead at this port that cannot be taken "
                   "off; found \"wire_2\"; accepted: no `part`"}));
  EXPECT_EQ(said("{id: brake, part: hose_5, from", "{id: brake, from"),
            (Lines{"job.yaml:35:5: lines[0].part: The device at `from` has no lead of its own at this port; accepted: "
                   "the part that is this line"}));
}

TEST(ReadRouting, SaysWhatIsWrongWithSeatsAndOpenings) {
  EXPECT_EQ(said("seat: low", "seat: lo"),
            (Lines{"job.yaml:29:34: places.battery.seat: There is no seat of this name; found \"lo\"; accepted: high, "
                   "low; did you mean \"low\"?"}));
  EXPECT_EQ(said("taken: [{opening: frame.exit, by: a bolt}]",
                 "taken: [{opening: frame.exit, by: a bolt}, {opening: frame.exit, by: a plug}]"),
            (Lines{"job.yaml:37:54: taken[1].opening: This taken opening is given twice, first at job.yaml:37:19; "
                   "found \"frame.exit\"; accepted: a name that is not used yet"}));
}

TEST(ReadRouting, APassageMayLeadIntoThePartOfAnotherPlace) {
  const auto job =
      read_job_text(changed(k_routed_job, "b: down_tube, tube", "b: fork.steerer, tube"), catalog_with_battery());
  ASSERT_TRUE(job);
  EXPECT_EQ(job->sheet.parts.at(0).passages.at(0).b, "fork.steerer");
  EXPECT_EQ(said("b: down_tube, tube", "b: fork., tube"),
            (Lines{"job.yaml:23:78: parts[0].passages[0].b: There is no cell of this name; found \"fork.\"; accepted: "
                   "down_tube, head_tube"}));
}

TEST(ReadRouting, ACountryHasOneCustom) {
  Texts texts = catalog_texts();
  texts.back().second = changed(texts.back().second, "[DE]", "[DE, IE]");
  const auto read = read_catalog_texts(texts);
  ASSERT_FALSE(read);
  EXPECT_EQ(lines_of(read.error()),
            (Lines{"customs.yaml:4:35: brakes[1].countries[1]: This country is given twice, first at "
                   "customs.yaml:3:34; found \"IE\"; accepted: a name that is not used yet"}));
}

}  // namespace
}  // namespace cotter::document
