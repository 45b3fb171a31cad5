#include "read_support.hpp"

namespace cotter::document {
namespace {

TEST(ReadKinds, KeepsWhatTheFileSays) {
  const auto& kinds = small_catalog().kinds;
  ASSERT_EQ(kinds.size(), 3u);
  const model::InterfaceKind& shell = kinds.at("shell");
  EXPECT_EQ(shell.label, "press-fit shell");
  EXPECT_EQ(shell.about, "A smooth bore on each side of the shell.");
  ASSERT_EQ(shell.dimensions.size(), 3u);
  const model::KindDimension& bore = shell.dimensions[0];
  EXPECT_EQ(bore.permitted.low().base(), 30'000'000);
  EXPECT_EQ(bore.permitted.high().base(), 60'000'000);
  EXPECT_EQ(bore.unstated.low().base(), -20'000);
  EXPECT_EQ(bore.unstated.high().base(), 20'000);
  EXPECT_TRUE(bore.required);
  EXPECT_EQ(bore.measure.tool, "bore_gauge");
  EXPECT_EQ(bore.measure.minutes, 450);
  EXPECT_EQ(shell.dimensions[1].measure.minutes, 500);
  EXPECT_EQ(shell.dimensions[1].unstated.low().base(), -300'000);
  EXPECT_FALSE(shell.dimensions[2].required);
  ASSERT_EQ(shell.words.size(), 1u);
  EXPECT_EQ(shell.words[0].accepted, (std::vector<std::string>{"plain", "faced"}));
  EXPECT_EQ(shell.smaller_than, (std::vector<std::pair<std::string, std::string>>{{"bore", "outer_diameter"}}));
}

TEST(ReadKinds, KeepsARule) {
  const auto meeting = model::find_meeting(small_catalog(), "cup", "shell");
  ASSERT_NE(meeting.meeting, nullptr);
  EXPECT_TRUE(meeting.swapped);
  ASSERT_EQ(meeting.meeting->rules.size(), 1u);
  const model::Rule& rule = meeting.meeting->rules[0];
  EXPECT_EQ(rule.id, "cup_in_shell");
  EXPECT_EQ(rule.law, "bore_on_shaft");
  EXPECT_EQ(rule.operands.at("bore").side, model::OperandRef::Side::own);
  EXPECT_EQ(rule.operands.at("shaft").side, model::OperandRef::Side::other);
  EXPECT_EQ(rule.operands.at("shaft").dimension, "diameter");
  EXPECT_EQ(rule.words.at("grade"), (std::pair<std::string, std::string>{"grade", "finish"}));
  EXPECT_EQ(rule.must.from->nominal, -150'000);
  EXPECT_EQ(rule.must.to->nominal, -10'000);
  EXPECT_FALSE(rule.should.to.has_value());
  EXPECT_EQ(rule.below.kind, model::Outcome::Kind::stop);
  EXPECT_EQ(rule.above.kind, model::Outcome::Kind::rework);
  EXPECT_EQ(rule.above.operation, "compound");
  EXPECT_EQ(rule.above.advice, "Use compound.");
  EXPECT_EQ(rule.guards, model::Guards::axle);
  EXPECT_EQ(rule.may_pass, model::MayPass::nobody);  // guarded, so nobody unless the file says maker
  EXPECT_EQ(rule.source, (model::Source{model::Source::Kind::standard, "ISO 286-2:2010, table 1"}));
}

class KindSlip : public testing::TestWithParam<Slip> {};

TEST_P(KindSlip, IsSaidInFull) {
  EXPECT_EQ(said_by_catalog("kinds.yaml", GetParam()), GetParam().said);
}

INSTANTIATE_TEST_SUITE_P(
    ReadKinds, KindSlip,
    testing::Values(
        Slip{"UnknownDimensionWord",
             "is: torque",
             "is: torqe",
             {"kinds.yaml:32:24: kinds[1].dimensions.tightening.is: The word is not one of those known here; found "
              "\"torqe\"; accepted: one of: length, angle, torque, force, mass, pressure, duration, count; did you "
              "mean \"torque\"?"}},
        Slip{"LimitOfAnotherUnit",
             "from: 1 N·m",
             "from: 1 mm",
             {"kinds.yaml:32:53: kinds[1].dimensions.tightening.from: The unit is one of another kind of quantity; "
              "found \"1 mm\"; accepted: N·m, a unit of torque"}},
        Slip{"LimitsSwapped",
             "from: 6 mm, to: 10 mm",
             "from: 10 mm, to: 6 mm",
             {"kinds.yaml:38:64: kinds[2].dimensions.diameter.to: The most is less than the least; found \"6 mm\"; "
              "accepted: at least 10 mm"}},
        Slip{"DeviationsWithoutSign",
             "unstated: ±0.01 mm",
             "unstated: 0.01 mm",
             {"kinds.yaml:31:81: kinds[1].dimensions.diameter.unstated: These are not deviations with a unit; found "
              "\"0.01 mm\"; accepted: deviations of a length such as ±1 mm"}},
        Slip{"DimensionNamedKind",
             "tightening:",
             "kind:",
             {"kinds.yaml:32:7: kinds[1].dimensions.kind: A dimension cannot have this name; it names the kind itself; "
              "found \"kind\"; accepted: another name"}},
        Slip{"WordNamedAsDimension",
             "      finish:",
             "      diameter:",
             {"kinds.yaml:21:29: kinds[0].meets[0].rules[0].words.grade[0]: There is no word of cup of this name; "
              "found \"other.finish\"",
              "kinds.yaml:34:7: kinds[1].words.diameter: The kind has a dimension of this name; found \"diameter\"; "
              "accepted: another name",
              "parts.yaml:12:93: parts[0].interfaces.cup_left.finish: A cup interface has no such field; found "
              "\"finish\"; accepted: kind, diameter, tightening"}},
        Slip{"SmallerThanOfUnknown",
             "[bore, outer_diameter]",
             "[bore, outer_diametr]",
             {"kinds.yaml:13:16: kinds[0].smaller_than[0][1]: There is no dimension of this name; found "
              "\"outer_diametr\"; accepted: bore, outer_diameter, depth; did you mean \"outer_diameter\"?"}},
        Slip{"MeetsUnknownKind",
             "- kind: cup",
             "- kind: cupp",
             {"kinds.yaml:15:15: kinds[0].meets[0].kind: There is no interface kind of this name; found \"cupp\"; "
              "accepted: cup, rail, shell; did you mean \"cup\"?"}},
        Slip{"MeetingOnBothSides",
             "    label: saddle rail\n",
             "    label: saddle rail\n    meets: [{kind: rail}, {kind: rail}]\n",
             {"kinds.yaml:37:34: kinds[2].meets[1].kind: The meeting of rail and rail is declared twice; found "
              "\"rail\"; accepted: one declaration, on one of the two sides"}},
        Slip{
            "OwnOperandUnknown",
            "bore: own.bore",
            "bore: own.boer",
            {"kinds.yaml:20:30: kinds[0].meets[0].rules[0].operands.bore: There is no dimension of shell of this name; "
             "found \"own.boer\"; accepted: own.bore, own.outer_diameter, own.depth; did you mean \"own.bore\"?"}},
        Slip{"OtherOperandUnknown",
             "shaft: other.diameter",
             "shaft: other.diametr",
             {"kinds.yaml:20:47: kinds[0].meets[0].rules[0].operands.shaft: There is no dimension of cup of this name; "
              "found \"other.diametr\"; accepted: other.diameter, other.tightening; did you mean \"other.diameter\"?"}},
        Slip{"OperandNeitherNameNorValue",
             "shaft: other.diameter",
             "shaft: diameter",
             {"kinds.yaml:20:47: kinds[0].meets[0].rules[0].operands.shaft: This is not a value with a unit; found "
              "\"diameter\"; accepted: a value such as 1.2 mm, 0.5° or 6 N·m, or a whole number"}},
        Slip{"WordUnknown",
             "own.grade]",
             "own.grad]",
             {"kinds.yaml:21:43: kinds[0].meets[0].rules[0].words.grade[1]: There is no word of shell of this name; "
              "found \"own.grad\"; accepted: own.grade; did you mean \"own.grade\"?"}},
        Slip{"WindowOfAnotherUnit",
             "must: {from: -0.15 mm, to: -0.01 mm}",
             "must: {from: -15°, to: -1°}",
             {"kinds.yaml:22:26: kinds[0].meets[0].rules[0].must.from: The limit is of another kind of quantity than "
              "what it limits; found \"-15°\"; accepted: a length",
              "kinds.yaml:22:36: kinds[0].meets[0].rules[0].must.to: The limit is of another kind of quantity than "
              "what it limits; found \"-1°\"; accepted: a length"}},
        Slip{"WindowSwapped",
             "from: -0.15 mm, to: -0.01 mm",
             "from: -0.01 mm, to: -0.15 mm",
             {"kinds.yaml:22:40: kinds[0].meets[0].rules[0].must.to: The window ends before it starts; found \"-0.15 "
              "mm\"; accepted: at least -0.01 mm"}},
        Slip{"WindowOfTwoUnits",
             "from: -0.15 mm, to: -0.01 mm",
             "from: -0.15 mm, to: 3°",
             {"kinds.yaml:22:40: kinds[0].meets[0].rules[0].must.to: The ends of the window are of two kinds of "
              "quantity; found \"3°\"; accepted: a length, as `from`"}},
        Slip{"ReworkWithoutOperation",
             "says: rework, do: compound",
             "says: rework",
             {"kinds.yaml:25:20: kinds[0].meets[0].rules[0].above.do: `says: rework` needs the field `do`; accepted: "
              "the operation that is permitted"}},
        Slip{"ReworkUnknown",
             "do: compound",
             "do: compond",
             {"kinds.yaml:25:39: kinds[0].meets[0].rules[0].above.do: There is no operation of this name; found "
              "\"compond\"; accepted: compound, look; did you mean \"compound\"?"}},
        Slip{"GuardPassedByMechanic",
             "guards: axle",
             "guards: axle\n            may_pass: mechanic",
             {"kinds.yaml:27:23: kinds[0].meets[0].rules[0].may_pass: A limit that guards `axle` may not be passed by "
              "a mechanic; found \"mechanic\"; accepted: nobody or maker"}},
        Slip{"TwoSources",
             "{standard: \"ISO 286-2:2010, table 1\"}",
             "{handbook: h, maker: m}",
             {"kinds.yaml:27:21: kinds[0].meets[0].rules[0].source: A source is exactly one thing; accepted: one of: "
              "standard, maker, handbook, common_practice: true"}},
        Slip{"NoSource",
             "{standard: \"ISO 286-2:2010, table 1\"}",
             "{common_practice: false}",
             {"kinds.yaml:27:21: kinds[0].meets[0].rules[0].source: A source is exactly one thing; accepted: one of: "
              "standard, maker, handbook, common_practice: true"}},
        Slip{"KindTwice",
             "id: rail",
             "id: cup",
             {"kinds.yaml:35:9: kinds[2].id: This interface kind is given twice, first at kinds.yaml:28:9; found "
              "\"cup\"; accepted: a name that is not used yet",
              "parts.yaml:18:21: parts[1].interfaces.rails.kind: There is no interface kind of this name; found "
              "\"rail\"; accepted: cup, shell"}}),
    name_of);

TEST(ReadKinds, RuleIdIsUniqueInTheCatalog) {
  Texts texts = small_catalog_texts();
  texts.emplace_back("more.yaml", R"(cotter: interface_kinds 1
kinds:
  - id: pin
    label: pin
    meets:
      - kind: rail
        rules:
          - {id: cup_in_shell, label: again, law: equal_family}
)");
  const auto read = read_catalog_texts(texts);
  ASSERT_FALSE(read);
  EXPECT_EQ(
      lines_of(read.error()),
      std::vector<std::string>{"more.yaml:8:18: kinds[0].meets[0].rules[0].id: This rule is given twice, first at "
                               "kinds.yaml:17:17; found \"cup_in_shell\"; accepted: a name that is not used yet"});
}

}  // namespace
}  // namespace cotter::document
