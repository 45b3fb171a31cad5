#include "read_support.hpp"

namespace cotter::document {
namespace {

TEST(ReadBicycle, KeepsWhatTheFileSays) {
  const model::Bicycle& bicycle = small_catalog().bicycles.at("all_road");
  ASSERT_EQ(bicycle.places.size(), 6u);
  EXPECT_EQ(bicycle.places[2].decide_before, "compound");
  EXPECT_FALSE(bicycle.places[2].optional);
  EXPECT_TRUE(bicycle.places[5].optional);
  ASSERT_EQ(bicycle.joints.size(), 1u);
  EXPECT_EQ(bicycle.joints[0].b, (model::InterfaceRef{"bottom_bracket", "cup_right"}));
  ASSERT_EQ(bicycle.seats.size(), 2u);
  EXPECT_EQ(bicycle.seats[0].x, -10);
  EXPECT_EQ(bicycle.seats[0].z, -60);
  EXPECT_EQ(bicycle.seats[0].cost, 5);
  EXPECT_EQ(bicycle.seats[1].opening, "frame.port");
  ASSERT_EQ(bicycle.passages.size(), 1u);
  EXPECT_TRUE(bicycle.passages[0].shared);
}

TEST(ReadBicycle, KeepsAStack) {
  const model::StackDefinition& stack = small_catalog().bicycles.at("all_road").stacks.at(0);
  EXPECT_EQ(stack.terms[0].value, (model::ValueRef{"frame", "shell_right", "bore"}));
  EXPECT_EQ(stack.terms[1].fixed->nominal, 3'000'000);
  EXPECT_EQ(stack.slots[0].most_pieces, 4);
  const model::StackForm& gap = stack.forms[0];
  EXPECT_EQ(gap.terms, (std::map<std::string, int>{{"allowance", -1}, {"bore", 1}}));
  EXPECT_EQ(gap.slots, (std::map<std::string, int>{{"right", -1}}));
  EXPECT_EQ(gap.must_from, (model::ValueRef{"frame", "shell_right", "depth"}));
  EXPECT_EQ(gap.must.to->nominal, 3'000'000);
  EXPECT_EQ(gap.target->nominal, 47'000'000);
  EXPECT_EQ(gap.below.kind, model::Outcome::Kind::add);
  EXPECT_EQ(gap.below.operation, "spacers");
  EXPECT_EQ(gap.guards, model::Guards::steering);
  EXPECT_EQ(gap.may_pass, model::MayPass::maker);
  EXPECT_EQ(gap.source, model::Source{});
  EXPECT_TRUE(stack.forms[1].cut);
  EXPECT_EQ(stack.forms[1].may_pass, model::MayPass::mechanic);
}

class BicycleSlip : public testing::TestWithParam<Slip> {};

TEST_P(BicycleSlip, IsSaidInFull) {
  EXPECT_EQ(said_by_catalog("bicycle.yaml", GetParam()), GetParam().said);
}

INSTANTIATE_TEST_SUITE_P(
    ReadBicycle, BicycleSlip,
    testing::Values(
        Slip{"DecideBeforeUnknown",
             "decide_before: compound",
             "decide_before: compond",
             {"bicycle.yaml:7:48: places[2].decide_before: There is no operation of this name; found \"compond\"; "
              "accepted: compound, look; did you mean \"compound\"?"}},
        Slip{"PlaceTwice",
             "{id: caliper, label: caliper}",
             "{id: lever, label: caliper}",
             {"bicycle.yaml:9:10: places[4].id: This place is given twice, first at bicycle.yaml:8:10; found "
              "\"lever\"; accepted: a name that is not used yet",
              "bicycle.yaml:34:13: seats[0].place: There is no place of this name; found \"caliper\"; accepted: frame, "
              "bottom_bracket, saddle, lever, lever, second_caliper"}},
        Slip{"JointOfUnknownPlace",
             "a: frame.shell_right,",
             "a: fram.shell_right,",
             {"bicycle.yaml:12:44: joints[0].a: There is no place `fram`; found \"fram.shell_right\"; accepted: "
              "`place.interface`; did you mean \"frame\"?"}},
        Slip{"JointWithoutInterface",
             "a: frame.shell_right,",
             "a: frame,",
             {"bicycle.yaml:12:44: joints[0].a: This does not name a thing of a place; found \"frame\"; accepted: "
              "`place.interface`"}},
        Slip{"TermOfUnknownPlace",
             "value: frame.shell_right.bore",
             "value: frmae.shell_right.bore",
             {"bicycle.yaml:17:40: stacks[0].terms[0].value: There is no place `frmae`; found "
              "\"frmae.shell_right.bore\"; accepted: `place.interface.dimension`; did you mean \"frame\"?"}},
        Slip{"TermWithoutDimension",
             "value: frame.shell_right.bore",
             "value: frame.bore",
             {"bicycle.yaml:17:40: stacks[0].terms[0].value: This does not name a thing of a place; found "
              "\"frame.bore\"; accepted: `place.interface.dimension`"}},
        Slip{"TermOfNothing",
             ", fixed: 3 mm",
             "",
             {"bicycle.yaml:18:9: stacks[0].terms[1]: A term is a dimension of a part or a fixed length; accepted: "
              "`value: place.interface.dimension`, or `fixed: 3 mm`"}},
        Slip{"TermOfBoth",
             "fixed: 3 mm",
             "fixed: 3 mm, value: frame.a.b",
             {"bicycle.yaml:18:9: stacks[0].terms[1]: A term is a dimension of a part or a fixed length; accepted: "
              "`value: place.interface.dimension`, or `fixed: 3 mm`"}},
        Slip{"TermTwice",
             "{id: allowance,",
             "{id: bore,",
             {"bicycle.yaml:18:14: stacks[0].terms[1].id: This term is given twice, first at bicycle.yaml:17:14; found "
              "\"bore\"; accepted: a name that is not used yet",
              "bicycle.yaml:24:26: stacks[0].forms[0].terms.allowance: There is no term of this name; found "
              "\"allowance\"; accepted: bore, bore"}},
        Slip{"FormOfUnknownTerm",
             "{bore: 1, allowance: -1}",
             "{bore: 1, allowancee: -1}",
             {"bicycle.yaml:24:26: stacks[0].forms[0].terms.allowancee: There is no term of this name; found "
              "\"allowancee\"; accepted: bore, allowance; did you mean \"allowance\"?"}},
        Slip{"FormOfUnknownSlot",
             "slots: {right: -1}",
             "slots: {rihgt: -1}",
             {"bicycle.yaml:25:17: stacks[0].forms[0].slots.rihgt: There is no slot of this name; found \"rihgt\"; "
              "accepted: right; did you mean \"right\"?"}},
        Slip{"FormTwice",
             "id: steerer_cut",
             "id: gap",
             {"bicycle.yaml:32:14: stacks[0].forms[1].id: This form is given twice, first at bicycle.yaml:22:13; found "
              "\"gap\"; accepted: a name that is not used yet",
              "operations.yaml:12:91: operations[1].when[4]: There is no cut named `steerer_cut`; found "
              "\"cut:steerer_cut\"; accepted: gap"}},
        Slip{"LimitTwice",
             "must: {to: 3 mm}",
             "must: {from: 0 mm, to: 3 mm}",
             {"bicycle.yaml:27:22: stacks[0].forms[0].must.from: This limit is already taken from a part by "
              "`must_from`; found \"0 mm\"; accepted: one of the two"}},
        Slip{"LimitOfUnknownPlace",
             "must_from: frame.shell_right.depth",
             "must_from: shell.right.depth",
             {"bicycle.yaml:26:20: stacks[0].forms[0].must_from: There is no place `shell`; found "
              "\"shell.right.depth\"; accepted: `place.interface.dimension`"}},
        Slip{"WindowOfAnotherUnit",
             "must: {to: 3 mm}",
             "must: {to: 3 g}",
             {"bicycle.yaml:27:20: stacks[0].forms[0].must.to: The limit is of another kind of quantity than what it "
              "limits; found \"3 g\"; accepted: a length"}},
        Slip{"AddWithoutPart",
             "{says: add, part: spacers}",
             "{says: add}",
             {"bicycle.yaml:29:16: stacks[0].forms[0].below.part: `says: add` needs the field `part`; accepted: what "
              "would mend it"}},
        Slip{"SeatOfUnknownPlace",
             "{place: caliper, cell",
             "{place: calipers, cell",
             {"bicycle.yaml:34:13: seats[0].place: There is no place of this name; found \"calipers\"; accepted: "
              "frame, bottom_bracket, saddle, lever, caliper, second_caliper; did you mean \"caliper\"?"}},
        Slip{"SeatInNoCell",
             "cell: frame.down_tube",
             "cell: down_tube",
             {"bicycle.yaml:35:26: seats[1].cell: This does not name a thing of a place; found \"down_tube\"; "
              "accepted: `outside` or `place.cell`"}},
        Slip{"SeatAtUnknownPoint",
             "point: rear_axle",
             "point: rear_axel",
             {"bicycle.yaml:34:44: seats[0].point: The word is not one of those known here; found \"rear_axel\"; "
              "accepted: one of: bottom_bracket, rear_axle, front_axle, crown, head_top, head_bottom, seat_cluster, "
              "seat_top, saddle, stem_clamp, bar_centre, hood_left, hood_right, bar_end_left, bar_end_right, "
              "pedal_right; did you mean \"rear_axle\"?"}},
        Slip{"PassageOfUnknownPlace",
             "b: frame.head_tube",
             "b: forks.head_tube",
             {"bicycle.yaml:37:59: passages[0].b: There is no place `forks`; found \"forks.head_tube\"; accepted: "
              "`place.cell`"}},
        Slip{"PassageBeforeTheTube",
             "distance: 5 mm",
             "distance: -5 mm",
             {"bicycle.yaml:37:122: passages[0].distance: This may not be negative; found \"-5 mm\"; accepted: at "
              "least 0 mm"}}),
    name_of);

}  // namespace
}  // namespace cotter::document
