#include "read_support.hpp"

namespace cotter::document {
namespace {

using quantity::Deviations;
using quantity::OriginKind;

/// The small job, read; the test fails when it is not whole.
const model::Job& small_job() {
  static const model::Job job = [] {
    auto read = read_job_text(k_job_text);
    if (!read)
      for (const std::string& line : lines_of(read.error())) ADD_FAILURE() << line;
    return read.value_or(model::Job{});
  }();
  return job;
}

const quantity::Value& shell_value(const char* dimension) {
  return small_job().sheet.parts.at(0).interfaces.at("shell_right").values.at(dimension);
}

TEST(ReadJob, KeepsWhatTheFileSays) {
  const model::Sheet& sheet = small_job().sheet;
  EXPECT_EQ(sheet.id, "test_bike");
  EXPECT_EQ(sheet.title, "Test bike");
  EXPECT_EQ(sheet.note, "A bicycle of our own invention.");
  EXPECT_EQ(sheet.bicycle, "all_road");
  EXPECT_EQ(sheet.revision, "A");
  ASSERT_EQ(sheet.joints.size(), 1u);
  EXPECT_EQ(sheet.joints[0].b, (model::InterfaceRef{"bottom_bracket", "cup_left"}));
  EXPECT_EQ(sheet.aliases,
            (std::map<std::string, std::string>{{"old_saddle", "my_saddle"}, {"older_saddle", "old_saddle"}}));
  ASSERT_EQ(small_job().decisions.size(), 1u);
  EXPECT_EQ(small_job().decisions[0].margin, -400'000);
  EXPECT_EQ(small_job().decisions[0].when, "2026-05-02");
  EXPECT_EQ(sheet.shop.rate_hundredths, 6200);
  EXPECT_EQ(sheet.shop.currency, "EUR");
  EXPECT_EQ(sheet.shop.tools.at(0).kind, "bore_gauge");
  EXPECT_EQ(sheet.shop.kit.at(0).thickness.nominal, 500'000);
  EXPECT_EQ(sheet.shop.kit.at(0).count, 4);
}

TEST(ReadJob, KeepsThePlaces) {
  const auto& places = small_job().sheet.places;
  ASSERT_EQ(places.size(), 6u);
  EXPECT_EQ(places[0].is, "frame");
  EXPECT_EQ(places[0].part, "frame_here");
  EXPECT_FALSE(places[0].ordered);
  EXPECT_TRUE(places[1].ordered);
  EXPECT_EQ(places[2].id, "my_saddle");
  EXPECT_EQ(places[2].is, "saddle");  // renamed by `is`
  EXPECT_EQ(places[2].part, "");
  const quantity::Value& replaced = places[1].values.at("cup_right.diameter");
  EXPECT_EQ(replaced.nominal, 46'080'000);
  EXPECT_EQ(replaced.origin.kind, OriginKind::assumed);  // the paper of the part does not speak of this piece
  EXPECT_EQ(replaced.upper, 10'000);                     // unstated deviations of the kind
}

TEST(ReadJob, KeepsHollows) {
  const model::Part& frame = small_job().sheet.parts.at(0);
  EXPECT_EQ(frame.geometry.at("head_tube_angle").dimension, quantity::Dimension::angle);
  EXPECT_EQ(frame.geometry.at("reach").nominal, 385'000'000);
  EXPECT_FALSE(frame.geometry.contains("stack"));  // unknown, and nothing permits a range for it
  ASSERT_EQ(frame.openings.size(), 2u);
  EXPECT_FALSE(frame.openings[0].shape.round());
  EXPECT_TRUE(frame.openings[0].shared);
  EXPECT_EQ(frame.openings[0].enlarge_most, 600'000);
  EXPECT_EQ(frame.openings[0].enlarge_paper, "frame sheet, page 4");
  EXPECT_TRUE(frame.openings[1].shape.round());
  EXPECT_FALSE(frame.openings[1].shared);
  EXPECT_EQ(frame.openings[1].shape.length.nominal, 6'500'000);
  EXPECT_EQ(frame.passages.at(0).b, "down_tube");
}

TEST(ReadJob, MeasuredValueHasTheErrorOfItsTool) {
  const quantity::Value& bore = shell_value("bore");
  EXPECT_EQ(bore.origin.kind, OriginKind::measured);
  EXPECT_EQ(bore.origin.by, "A. Builder");
  EXPECT_EQ(bore.deviations, Deviations::filled);
  EXPECT_EQ(bore.lower, -5'000);
  EXPECT_EQ(bore.upper, 5'000);
}

TEST(ReadJob, MeasuredWithAToolOfThatKind) {
  const auto job = read_job_text(changed(k_job_text, "with: gauge_1", "with: bore_gauge"));
  ASSERT_TRUE(job);
  EXPECT_EQ(job->sheet.parts[0].interfaces.at("shell_right").values.at("bore").upper, 5'000);
}

// Threads an inch, psi and some inches are enclosed by whole base units; those two ends were once taken for deviations
// that somebody had written, so a reading in psi was believed to the pascal.
TEST(ReadJob, AUnitThatIsEnclosedGotNoToolError) {
  const auto job = read_job_text(changed(k_job_text, "value: 46.02 mm", "value: 1-29/36 in"));  // 45 861 111.1 nm
  ASSERT_TRUE(job);
  const quantity::Value& bore = job->sheet.parts[0].interfaces.at("shell_right").values.at("bore");
  EXPECT_EQ(bore.nominal, 45'861'111);
  EXPECT_EQ(bore.deviations, Deviations::filled);
  EXPECT_EQ(bore.lower, -5'000);
  EXPECT_EQ(bore.upper, 5'001);
}

TEST(ReadJob, MeasuredWithAToolTheShopDoesNotOwn) {
  const auto job = read_job_text(changed(k_job_text, "with: gauge_1", "with: gauge_2"));
  ASSERT_FALSE(job);
  ASSERT_EQ(job.error().list().size(), 1u);
  EXPECT_EQ(job.error().list()[0].code, "unknown_name");
  EXPECT_EQ(job.error().list()[0].found, "gauge_2");
  EXPECT_EQ(job.error().list()[0].suggestion, "gauge_1");
}

TEST(ReadJob, WrittenWordWinsOverThePaper) {
  const quantity::Value& outer = shell_value("outer_diameter");
  EXPECT_EQ(outer.origin.kind, OriginKind::assumed);
  EXPECT_EQ(outer.lower, -300'000);
  EXPECT_EQ(outer.upper, 100'000);
}

TEST(ReadJob, UnknownValueIsTheWholePermittedRange) {
  const quantity::Value& depth = shell_value("depth");
  EXPECT_EQ(depth.origin.kind, OriginKind::unknown);
  EXPECT_TRUE(depth.range_known);
  EXPECT_EQ(depth.range().low().base(), 5'000'000);
  EXPECT_EQ(depth.range().high().base(), 40'000'000);
  EXPECT_EQ(depth.nominal, 22'500'000);
  EXPECT_EQ(depth.deviations, Deviations::filled);
  EXPECT_EQ(depth.text, "?");
}

TEST(ReadJob, LineWrittenTheOtherWayRoundIsTurned) {
  const model::LineWish& brake = small_job().sheet.lines.at(0);
  EXPECT_EQ(brake.from_place, "lever");
  EXPECT_EQ(brake.to_place, "caliper");
  EXPECT_EQ(brake.least_slack, 60);
  EXPECT_EQ(brake.most_stow, 10);
  EXPECT_EQ(brake.surfaces, 1);
}

TEST(ReadJob, LineToAnOpenPlaceKeepsItsEnds) {
  const auto job =
      read_job_text(changed(k_job_text, "  caliper: caliper\n  second_caliper: {part: caliper, another: true}\n", ""));
  ASSERT_TRUE(job);
  // The lever's port belongs to end a, whatever the caliper will be.
  EXPECT_EQ(job->sheet.lines.at(0).from_place, "lever");
}

TEST(ReadJob, PlaceMayBeCalledByTheTemplatesName) {
  const auto job = read_job_text(changed(
      changed(k_job_text, "  lever: lever", "  left_lever: {is: lever, part: lever}"), "slack: 60", "slack: 61"));
  ASSERT_TRUE(job);
  EXPECT_EQ(job->sheet.lines.at(0).from_place, "left_lever");
}

class JobSlip : public testing::TestWithParam<Slip> {};

TEST_P(JobSlip, IsSaidInFull) {
  const auto read = read_job_text(changed(k_job_text, GetParam().from, GetParam().to));
  EXPECT_EQ(read ? std::vector<std::string>{} : lines_of(read.error()), GetParam().said);
}

INSTANTIATE_TEST_SUITE_P(
    Parts, JobSlip,
    testing::Values(Slip{"BoreNotSmaller",
                         "outer_diameter: 50 mm assumed",
                         "outer_diameter: 44 mm",
                         {"job.yaml:14:40: parts[0].interfaces.shell_right.bore: bore 46.02 mm is not smaller than "
                          "outer diameter 44 mm; accepted: less than 44 mm"}},
                    Slip{"RequiredDimensionMissing",
                         "outer_diameter: 50 mm assumed, ",
                         "",
                         {"job.yaml:14:20: parts[0].interfaces.shell_right.outer_diameter: A shell interface needs the "
                          "field `outer_diameter`; accepted: a length such as 41.5 mm, or `?` when it is not known"}},
                    Slip{"RequiredWordMissing",
                         ", grade: plain",
                         "",
                         {"job.yaml:14:20: parts[0].interfaces.shell_right.grade: A shell interface needs the field "
                          "`grade`; accepted: one of: plain, faced, or `?` when it is not known"}},
                    Slip{"AngleWithoutDegrees",
                         "head_tube_angle: 71.5°",
                         "head_tube_angle: 71.5 mm",
                         {"job.yaml:15:48: parts[0].geometry.head_tube_angle: The unit is one of another kind of "
                          "quantity; found \"71.5 mm\"; accepted: ° or deg, a unit of angle"}},
                    Slip{"CellBoreNotSmaller",
                         "outer_diameter: 48 mm, bore: 45 mm",
                         "outer_diameter: 48 mm, bore: 48 mm",
                         {"job.yaml:17:71: parts[0].cells[0].bore: bore 48 mm is not smaller than outer diameter 48 "
                          "mm; found \"48 mm\"; accepted: less than 48 mm"}},
                    Slip{"CellTubeUnknown",
                         "tube: head_tube, outer",
                         "tube: headtube, outer",
                         {"job.yaml:18:31: parts[0].cells[1].tube: The word is not one of those known here; found "
                          "\"headtube\"; accepted: one of: head_tube, top_tube, down_tube, seat_tube, chainstay_left, "
                          "chainstay_right, seatstay_left, seatstay_right, shell, steerer, fork_blade_left, "
                          "fork_blade_right, seatpost, stem, bar; did you mean \"head_tube\"?"}},
                    Slip{"CellTwice",
                         "{id: head_tube, tube",
                         "{id: down_tube, tube",
                         {"job.yaml:18:14: parts[0].cells[1].id: This cell is given twice, first at job.yaml:17:14; "
                          "found \"down_tube\"; accepted: a name that is not used yet",
                          "job.yaml:23:64: parts[0].passages[0].a: There is no cell of this name; found \"head_tube\"; "
                          "accepted: down_tube, down_tube"}},
                    Slip{"OpeningOnUnknownCell",
                         "label: exit, cell: down_tube",
                         "label: exit, cell: downtube",
                         {"job.yaml:21:39: parts[0].openings[1].cell: There is no cell of this name; found "
                          "\"downtube\"; accepted: down_tube, head_tube; did you mean \"down_tube\"?"}},
                    Slip{"OpeningWiderThanItsTube",
                         "{round: 6.5 mm}",
                         "{round: 65 mm}",
                         {"job.yaml:21:107: parts[0].openings[1].shape.round: The hole is 65 mm wide, and the tube it "
                          "is on only 48 mm; found \"65 mm\"; accepted: at most 48 mm"}},
                    Slip{"OpeningOfNoWidth",
                         "{round: 6.5 mm}",
                         "{round: 0 mm}",
                         {"job.yaml:21:107: parts[0].openings[1].shape.round: This has to be more than nothing; found "
                          "\"0 mm\"; accepted: more than 0 mm"}},
                    Slip{"OpeningOfNegativeLength",
                         "{width: 7 mm, length: 15 mm}",
                         "{width: 7 mm, length: -15 mm}",
                         {"job.yaml:20:122: parts[0].openings[0].shape.length: This has to be more than nothing; found "
                          "\"-15 mm\"; accepted: more than 0 mm"}},
                    Slip{"SlotShorterThanWide",
                         "{width: 7 mm, length: 15 mm}",
                         "{width: 15 mm, length: 7 mm}",
                         {"job.yaml:20:123: parts[0].openings[0].shape.length: An opening is at least as long as it is "
                          "wide; found \"7 mm\"; accepted: at least 15 mm"}},
                    Slip{"SlotWithoutLength",
                         "{width: 7 mm, length: 15 mm}",
                         "{width: 7 mm}",
                         {"job.yaml:20:100: parts[0].openings[0].shape: The shape is round, a slot or an oval; "
                          "accepted: "
                          "`{round: 6.5 mm}`, `{width: 7 mm, length: 15 mm}`, or that with `oval: true`"}},
                    Slip{"RoundSlot",
                         "{round: 6.5 mm}",
                         "{round: 6.5 mm, width: 7 mm}",
                         {"job.yaml:21:99: parts[0].openings[1].shape: The shape is round, a slot or an oval; "
                          "accepted: "
                          "`{round: 6.5 mm}`, `{width: 7 mm, length: 15 mm}`, or that with `oval: true`"}},
                    Slip{"OpeningTwice",
                         "{id: exit,",
                         "{id: port,",
                         {"job.yaml:21:14: parts[0].openings[1].id: This opening or passage is given twice, first at "
                          "job.yaml:20:14; found \"port\"; accepted: a name that is not used yet"}},
                    Slip{"PassageNamedAsOpening",
                         "{id: head_to_down,",
                         "{id: exit,",
                         {"job.yaml:23:14: parts[0].passages[0].id: This opening or passage is given twice, first at "
                          "job.yaml:21:14; found \"exit\"; accepted: a name that is not used yet"}},
                    Slip{"EnlargedWithoutPaper",
                         ", paper: \"frame sheet, page 4\"}",
                         "}",
                         {"job.yaml:20:153: parts[0].openings[0].enlarge.paper: An opening may be enlarged only as far "
                          "as a paper of the frame's maker permits; accepted: the paper and the place in it; without "
                          "one, leave `enlarge` out"}},
                    Slip{"PassageFromUnknownCell",
                         "a: head_tube, b",
                         "a: hed_tube, b",
                         {"job.yaml:23:64: parts[0].passages[0].a: There is no cell of this name; found \"hed_tube\"; "
                          "accepted: down_tube, head_tube; did you mean \"head_tube\"?"}},
                    Slip{"PassageIntoItself",
                         "a: head_tube, b",
                         "a: down_tube, b",
                         {"job.yaml:23:78: parts[0].passages[0].b: The passage leads from a cell into itself; found "
                          "\"down_tube\"; accepted: another cell"}},
                    Slip{"PassageWiderThanItsTube",
                         "{round: 30 mm}",
                         "{round: 50 mm}",
                         {"job.yaml:23:151: parts[0].passages[0].shape.round: The hole is 50 mm wide, and the tube it "
                          "is on only 48 mm; found \"50 mm\"; accepted: at most 48 mm"}},
                    Slip{
                        "PartOfTheCatalog",
                        "id: frame_here\n",
                        "id: lever\n",
                        {"job.yaml:8:9: parts[0].id: The catalog has a part of this name; found \"lever\"; accepted: a "
                         "name that is not used yet",
                         "job.yaml:25:10: places.frame: There is no part of this name; found \"frame_here\"; accepted: "
                         "caliper, cups_46, hose_5, lever, saddle_plain, wire_2, lever",
                         "job.yaml:34:55: lines[0].to: There is no port of lever of this name; found \"lever.hose\""}}),
    name_of);

INSTANTIATE_TEST_SUITE_P(
    Sheet, JobSlip,
    testing::Values(
        Slip{"TemplateUnknown",
             "bicycle: all_road",
             "bicycle: al_road",
             {"job.yaml:5:10: bicycle: There is no bicycle template of this name; found \"al_road\"; accepted: "
              "all_road; did you mean \"all_road\"?"}},
        Slip{"PlaceUnknown",
             "  lever: lever",
             "  levr: lever",
             {"job.yaml:28:3: places.levr: There is no place of this name; found \"levr\"; accepted: frame, "
              "bottom_bracket, saddle, lever, caliper, second_caliper; did you mean \"lever\"?"}},
        Slip{"IsUnknown",
             "{is: saddle}",
             "{is: sadle}",
             {"job.yaml:27:19: places.my_saddle.is: There is no place of this name; found \"sadle\"; accepted: frame, "
              "bottom_bracket, saddle, lever, caliper, second_caliper; did you mean \"saddle\"?"}},
        Slip{"PlaceFilledTwice",
             "{is: saddle}",
             "{is: lever}",
             {"job.yaml:28:3: places.lever: This place of the template is given twice, first at job.yaml:27:19; found "
              "\"lever\"; accepted: a name that is not used yet"}},
        Slip{"PartUnknown",
             "  lever: lever",
             "  lever: levr",
             {"job.yaml:28:10: places.lever: There is no part of this name; found \"levr\"; accepted: caliper, "
              "cups_46, hose_5, lever, saddle_plain, wire_2, frame_here; did you mean \"lever\"?"}},
        Slip{"PartInTwoPlaces",
             "{part: caliper, another: true}",
             "caliper",
             {"job.yaml:30:19: places.second_caliper: This part is already in another place, see line 29; found "
              "\"caliper\"; accepted: `another: true` beside it, when it is a further piece of the same part"}},
        Slip{"ReplacedValueUnknown",
             "cup_right.diameter: 46.08 mm",
             "cup_right.diametr: 46.08 mm",
             {"job.yaml:26:59: places.bottom_bracket.values.cup_right.diametr: The part has no value "
              "`cup_right.diametr`; found \"cup_right.diametr\"; accepted: cup_left.diameter, cup_left.tightening, "
              "cup_right.diameter, cup_right.tightening; did you mean \"cup_right.diameter\"?"}},
        Slip{"ReplacedValueOfNoShape",
             "cup_right.diameter: 46.08 mm",
             "diameter: 46.08 mm",
             {"job.yaml:26:59: places.bottom_bracket.values.diameter: This does not name a value of a part; found "
              "\"diameter\"; accepted: `interface.dimension`, or `geometry.name`"}},
        Slip{"ReplacedValueOutOfRange",
             "46.08 mm",
             "4.608 mm",
             {"job.yaml:26:79: places.bottom_bracket.values.cup_right.diameter: The diameter is outside what is "
              "possible for this kind (press-in cup); found \"4.608 mm\"; accepted: 30 mm to 60 mm"}},
        Slip{"ReplacedValueOfWrongUnit",
             "46.08 mm",
             "46.08 kg",
             {"job.yaml:26:79: places.bottom_bracket.values.cup_right.diameter: The unit is one of another kind of "
              "quantity; found \"46.08 kg\"; accepted: mm, cm, m, µm, nm, in or tpi, a unit of length"}},
        Slip{"ReplacedBoreTooLarge",
             "frame: frame_here",
             "frame: {part: frame_here, values: {shell_right.bore: 55 mm}}",
             {"job.yaml:25:56: places.frame.values.shell_right.bore: bore 55 mm is not smaller than outer diameter 50 "
              "mm; found \"55 mm\"; accepted: less than 50 mm"}},
        Slip{"ReplacedGeometryUnknown",
             "frame: frame_here",
             "frame: {part: frame_here, values: {geometry.reach: '?'}}",
             {"job.yaml:25:54: places.frame.values.geometry.reach: This value has to be known; only a dimension of an "
              "interface may be `?`; found \"?\"; accepted: a value, marked as assumed where it is: `{value: 45 mm, "
              "assumed: \"why\"}`"}},
        Slip{"ValuesOfAnOpenPlace",
             "{is: saddle}",
             "{is: saddle, values: {rails.diameter: 7 mm}}",
             {"job.yaml:27:35: places.my_saddle.values: A place without a part has no values; accepted: a part beside "
              "the values"}},
        Slip{"ValuesAsAList",
             "{cup_right.diameter: 46.08 mm}",
             "[46.08 mm]",
             {"job.yaml:26:58: places.bottom_bracket.values: Values are written as a map; accepted: "
              "`interface.dimension: value`"}},
        Slip{"JointOfUnlikeKinds",
             "b: bottom_bracket.cup_left}",
             "b: frame.shell_right}",
             {"job.yaml:32:64: joints[0].b: shell and shell never meet; found \"frame.shell_right\"; accepted: an "
              "interface of one of the kinds cup"}},
        Slip{"JointOfUnknownInterface",
             "b: bottom_bracket.cup_left}",
             "b: bottom_bracket.cup_lefd}",
             {"job.yaml:32:64: joints[0].b: There is no interface of cups_46 of this name; found "
              "\"bottom_bracket.cup_lefd\"; accepted: bottom_bracket.cup_left, bottom_bracket.cup_right; did you mean "
              "\"bottom_bracket.cup_left\"?"}},
        Slip{"JointOfUnknownPlace",
             "b: bottom_bracket.cup_left}",
             "b: botom_bracket.cup_left}",
             {"job.yaml:32:64: joints[0].b: There is no place `botom_bracket`; found \"botom_bracket.cup_left\"; "
              "accepted: `place.interface`; did you mean \"bottom_bracket\"?"}},
        Slip{"JointOfTheTemplate",
             "{id: shell_left,",
             "{id: shell_right,",
             {"job.yaml:32:10: joints[0].id: The template has a joint of this name; found \"shell_right\"; accepted: a "
              "name that is not used yet"}},
        Slip{"LineOfUnknownPart",
             "part: hose_5",
             "part: hose_6",
             {"job.yaml:34:23: lines[0].part: There is no part of this name; found \"hose_6\"; accepted: caliper, "
              "cups_46, hose_5, lever, saddle_plain, wire_2, frame_here; did you mean \"hose_5\"?"}},
        Slip{"LineThatIsNone",
             "part: hose_5",
             "part: lever",
             {"job.yaml:34:23: lines[0].part: This part is not a line; found \"lever\"; accepted: a part with the "
              "field `line`"}},
        Slip{"LineOfOtherEnds",
             "part: hose_5",
             "part: wire_2",
             {"job.yaml:34:23: lines[0].part: The ends of this line are plug and plug, its ports hose_barb and "
              "hose_joint; found \"wire_2\"; accepted: a line whose ends are of the families of its two ports"}},
        Slip{"LineFromUnknownPort",
             "from: caliper.hose",
             "from: caliper.hoze",
             {"job.yaml:34:37: lines[0].from: There is no port of caliper of this name; found \"caliper.hoze\"; "
              "accepted: caliper.hose; did you mean \"caliper.hose\"?"}},
        Slip{"LineFromUnknownPlace",
             "from: caliper.hose",
             "from: calliper.hose",
             {"job.yaml:34:37: lines[0].from: There is no place `calliper`; found \"calliper.hose\"; accepted: "
              "`place.port`; did you mean \"caliper\"?"}},
        Slip{"LineFromNoPort",
             "from: caliper.hose",
             "from: caliper",
             {"job.yaml:34:37: lines[0].from: This does not name a thing of a place; found \"caliper\"; accepted: "
              "`place.port`"}},
        Slip{"LineIntoItself",
             "from: caliper.hose",
             "from: lever.hose",
             {"job.yaml:34:53: lines[0].to: The line ends where it starts; found \"lever.hose\"; accepted: another "
              "port"}},
        Slip{"NegativeSlack",
             "slack: 60",
             "slack: -60",
             {"job.yaml:34:74: lines[0].slack: The number is outside its range; found \"-60\"; accepted: a whole "
              "number from 0 to 10000"}},
        Slip{"AliasCircle",
             "old_saddle: my_saddle",
             "old_saddle: older_saddle",
             {"job.yaml:35:23: aliases.old_saddle: The old names lead in a circle: old_saddle, older_saddle, "
              "old_saddle; found \"older_saddle\"; accepted: the name that is used now"}},
        Slip{"AliasOfItself",
             "old_saddle: my_saddle",
             "old_saddle: old_saddle",
             {"job.yaml:35:23: aliases.old_saddle: The old names lead in a circle: old_saddle, old_saddle; found "
              "\"old_saddle\"; accepted: the name that is used now"}},
        Slip{"AliasInUse",
             "older_saddle: old_saddle",
             "frame: old_saddle",
             {"job.yaml:35:34: aliases.frame: This old name is the name of a place now; found \"frame\"; accepted: a "
              "name that is no longer used"}},
        Slip{"MarginWithoutUnit",
             "margin: -0.4 mm",
             "margin: -0.4",
             {"job.yaml:37:134: decisions[0].margin: This is not a value with a unit; found \"-0.4\"; accepted: a "
              "value such as 1.2 mm, 0.5° or 6 N·m, or a whole number"}},
        Slip{"RateWithoutCurrency",
             "62.00 EUR",
             "62.00 euro",
             {"job.yaml:41:9: shop.rate: This is not an amount of money; found \"62.00 euro\"; accepted: an amount "
              "such as 54.00 EUR"}},
        Slip{"ResolutionInWords",
             "resolution: 0.005 mm",
             "resolution: fine",
             {"job.yaml:43:79: shop.tools[0].resolution: This is not a value with a unit; found \"fine\"; accepted: a "
              "value such as 1.2 mm, 0.5° or 6 N·m, or a whole number"}},
        Slip{"NegativeCount",
             "count: 4",
             "count: -4",
             {"job.yaml:45:86: shop.kit[0].count: The number is outside its range; found \"-4\"; accepted: a whole "
              "number from 0 to 1000000"}},
        Slip{"ThicknessOfNothing",
             "thickness: 0.5 mm",
             "thickness: 0 mm",
             {"job.yaml:45:71: shop.kit[0].thickness: This has to be more than nothing; found \"0 mm\"; accepted: more "
              "than 0 mm"}}),
    name_of);

TEST(ReadJob, AllErrorsInOneGo) {
  std::string text = changed(k_job_text, "bore: 45 mm", "bore: 49 mm");
  text = changed(text, "outer_diameter: 50 mm assumed", "outer_diameter: 50 kg");
  text = changed(text, "revision: A", "revisionn: A");
  text = changed(text, "  lever: lever", "  lever: levr");
  text = changed(text, "part: hose_5", "part: hose_6");
  text = changed(text, "count: 4", "count: four");
  const auto read = read_job_text(text);
  ASSERT_FALSE(read);
  EXPECT_EQ(
      lines_of(read.error()),
      (std::vector<std::string>{
          "job.yaml:6:1: revisionn: A job has no such field; found \"revisionn\"; accepted: cotter, id, title, note, "
          "bicycle, revision, parts, places, joints, lines, taken, hands, aliases, decisions, papers, shop; did you "
          "mean "
          "\"revision\"?",
          "job.yaml:14:134: parts[0].interfaces.shell_right.outer_diameter: The unit is one of another kind of "
          "quantity; found \"50 kg\"; accepted: mm, cm, m, µm, nm, in or tpi, a unit of length",
          "job.yaml:17:71: parts[0].cells[0].bore: bore 49 mm is not smaller than outer diameter 48 mm; found "
          "\"49 mm\"; accepted: less than 48 mm",
          "job.yaml:28:10: places.lever: There is no part of this name; found \"levr\"; accepted: caliper, "
          "cups_46, hose_5, lever, saddle_plain, wire_2, frame_here; did you mean \"lever\"?",
          "job.yaml:34:23: lines[0].part: There is no part of this name; found \"hose_6\"; accepted: caliper, "
          "cups_46, hose_5, lever, saddle_plain, wire_2, frame_here; did you mean \"hose_5\"?",
          "job.yaml:45:86: shop.kit[0].count: This is text, which does not belong here; found \"four\"; "
          "accepted: a whole number from 0 to 1000000"}));
}

TEST(ReadJob, AnotherKindOfDocument) {
  const auto read = read_job_text(k_parts_text);
  ASSERT_FALSE(read);
  EXPECT_EQ(
      lines_of(read.error()),
      (std::vector<std::string>{
          "job.yaml:1:9: cotter: This kind of document is not known here; found \"parts 1\"; accepted: one of: job"}));
}

}  // namespace
}  // namespace cotter::document
