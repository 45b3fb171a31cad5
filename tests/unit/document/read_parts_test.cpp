#include "read_support.hpp"

namespace cotter::document {
namespace {

using quantity::Deviations;
using quantity::OriginKind;

const model::Part& part(const char* id) {
  return small_catalog().parts.at(id);
}

TEST(ReadParts, KeepsWhatTheFileSays) {
  const model::Part& cups = part("cups_46");
  EXPECT_EQ(cups.material, model::Material::aluminium);
  EXPECT_EQ(cups.mass->nominal, 92'000);
  EXPECT_EQ(cups.price->hundredths, 5450);
  EXPECT_EQ(cups.price->currency, "EUR");
  EXPECT_EQ(cups.interfaces.size(), 2u);
  EXPECT_EQ(cups.interfaces.at("cup_left").words.at("finish"), "plain");
}

TEST(ReadParts, TextRestsOnThePaperOfThePart) {
  const quantity::Value& value = part("cups_46").interfaces.at("cup_right").values.at("diameter");
  EXPECT_EQ(value.origin.kind, OriginKind::maker);
  EXPECT_EQ(value.origin.source, "maker's sheet, page 3");
  EXPECT_EQ(value.deviations, Deviations::filled);
  EXPECT_EQ(value.range().low().base(), 46'050'000);
  EXPECT_EQ(value.range().high().base(), 46'070'000);
  EXPECT_EQ(value.text, "46.06 mm");
}

TEST(ReadParts, MapKeepsItsOwnOriginAndDeviations) {
  const quantity::Value& value = part("cups_46").interfaces.at("cup_left").values.at("diameter");
  EXPECT_EQ(value.origin.kind, OriginKind::assumed);
  EXPECT_EQ(value.origin.source, "read off a picture");
  EXPECT_EQ(value.deviations, Deviations::stated);
}

TEST(ReadParts, WithoutAPaperTextIsAssumed) {
  const quantity::Value& value = part("saddle_plain").interfaces.at("rails").values.at("diameter");
  EXPECT_EQ(value.origin.kind, OriginKind::assumed);
  EXPECT_EQ(value.deviations, Deviations::unstated);  // the kind gives no deviations to fill in
}

TEST(ReadParts, KeepsWhatItJoins) {
  ASSERT_EQ(part("cups_46").joins.size(), 1u);
  EXPECT_EQ(part("cups_46").joins.front().a, "cup_right");
  EXPECT_EQ(part("cups_46").joins.front().b, "cup_left");
  EXPECT_TRUE(part("saddle_plain").joins.empty());
}

TEST(ReadParts, NothingIsJoinedToWhatIsNeverBridged) {
  Texts texts = small_catalog_texts();
  texts[0].second =
      changed(texts[0].second, "    label: press-in cup\n", "    label: press-in cup\n    never_bridged: true\n");
  const auto read = read_catalog_texts(texts);
  ASSERT_FALSE(read);
  EXPECT_EQ(lines_of(read.error()).front(),
            "parts.yaml:13:14: parts[0].joins[0][0]: No part may stand between a press-in cup and what it meets; found "
            "\"cup_right\"; accepted: an interface of another kind");
}

TEST(ReadParts, KeepsALine) {
  const model::LineForm& hose = *part("hose_5").line;
  EXPECT_EQ(hose.kind, model::LineForm::Kind::hose);
  EXPECT_EQ(hose.family_a, "hose_joint");
  EXPECT_TRUE(hose.connector_a.round());
  EXPECT_EQ(hose.connector_a.width.nominal, 8'000'000);
  EXPECT_FALSE(hose.connector_b.round());
  EXPECT_EQ(hose.connector_b.width.nominal, 5'000'000);
  EXPECT_EQ(hose.connector_b.length.nominal, 6'000'000);
  EXPECT_EQ(hose.longest.nominal, 2'000'000'000);
  EXPECT_TRUE(hose.lengths.empty());
  EXPECT_EQ(part("wire_2").line->lengths.size(), 2u);
}

class PartSlip : public testing::TestWithParam<Slip> {};

TEST_P(PartSlip, IsSaidInFull) {
  EXPECT_EQ(said_by_catalog("parts.yaml", GetParam()), GetParam().said);
}

INSTANTIATE_TEST_SUITE_P(
    ReadParts, PartSlip,
    testing::Values(
        Slip{"UnknownKind",
             "{kind: rail,",
             "{kind: rial,",
             {"parts.yaml:18:21: parts[1].interfaces.rails.kind: There is no interface kind of this name; found "
              "\"rial\"; accepted: cup, rail, shell; did you mean \"rail\"?"}},
        Slip{"NoKind",
             "{kind: rail, diameter: 7 mm}",
             "{diameter: 7 mm}",
             {"parts.yaml:18:14: parts[1].interfaces.rails.kind: An interface needs the field `kind`; accepted: the id "
              "of an interface kind"}},
        Slip{"UnknownDimension",
             "diameter: 7 mm",
             "diametr: 7 mm",
             {"parts.yaml:18:14: parts[1].interfaces.rails.diameter: A rail interface needs the field `diameter`; "
              "accepted: a length such as 41.5 mm, or `?` when it is not known",
              "parts.yaml:18:27: parts[1].interfaces.rails.diametr: A rail interface has no such field; found "
              "\"diametr\"; accepted: kind, diameter; did you mean \"diameter\"?"}},
        Slip{"MissingDimension",
             "{kind: rail, diameter: 7 mm}",
             "{kind: rail}",
             {"parts.yaml:18:14: parts[1].interfaces.rails.diameter: A rail interface needs the field `diameter`; "
              "accepted: a length such as 41.5 mm, or `?` when it is not known"}},
        Slip{"EmptyDimension",
             "diameter: 7 mm",
             "diameter: ",
             {"parts.yaml:18:37: parts[1].interfaces.rails.diameter: The value is missing here; accepted: a length "
              "such as 41.5 mm"}},
        Slip{"WrongUnit",
             "diameter: 7 mm",
             "diameter: 7 g",
             {"parts.yaml:18:37: parts[1].interfaces.rails.diameter: The unit is one of another kind of quantity; "
              "found \"7 g\"; accepted: mm, cm, m, µm, nm, in or tpi, a unit of length"}},
        Slip{"NoUnit",
             "diameter: 7 mm",
             "diameter: 7",
             {"parts.yaml:18:37: parts[1].interfaces.rails.diameter: The value has no unit; found \"7\"; accepted: mm, "
              "cm, m, µm, nm, in or tpi"}},
        Slip{"OutOfRange",
             "diameter: 7 mm",
             "diameter: 70 mm",
             {"parts.yaml:18:37: parts[1].interfaces.rails.diameter: The diameter is outside what is possible for this "
              "kind (saddle rail); found \"70 mm\"; accepted: 6 mm to 10 mm"}},
        Slip{"MapOutOfRange",
             "46.07 ±0.01 mm",
             "460.7 ±0.01 mm",
             {"parts.yaml:12:47: parts[0].interfaces.cup_left.diameter.value: The diameter is outside what is possible "
              "for this kind (press-in cup); found \"460.7 ±0.01 mm\"; accepted: 30 mm to 60 mm"}},
        Slip{"WordNotAccepted",
             "finish: plain",
             "finish: plane",
             {"parts.yaml:12:101: parts[0].interfaces.cup_left.finish: The word is not one of those known here; found "
              "\"plane\"; accepted: one of: plain, faced, ?"}},
        Slip{"MoneyWithoutCurrency",
             "54.50 EUR",
             "54.50",
             {"parts.yaml:8:12: parts[0].price: This is not an amount of money; found \"54.50\"; accepted: an amount "
              "such as 54.00 EUR"}},
        Slip{"MoneyTooFine",
             "54.50 EUR",
             "54.505 EUR",
             {"parts.yaml:8:12: parts[0].price: This is not an amount of money; found \"54.505 EUR\"; accepted: an "
              "amount such as 54.00 EUR"}},
        Slip{"PortTwice",
             "[{id: hose, family: hose_barb}]",
             "[{id: hose, family: a}, {id: hose, family: b}]",
             {"parts.yaml:26:50: parts[3].device.ports[1].id: This port is given twice, first at parts.yaml:26:27; "
              "found \"hose\"; accepted: a name that is not used yet"}},
        Slip{"JoinOfNoInterface",
             "cup_left: {kind: cup,",
             "cup_low: {kind: cup,",
             {"parts.yaml:13:25: parts[0].joins[0][1]: There is no interface of this name; found \"cup_left\"; "
              "accepted: "
              "cup_low, cup_right"}},
        Slip{"JoinWithItself",
             "[cup_right, cup_left]",
             "[cup_right, cup_right]",
             {"parts.yaml:13:25: parts[0].joins[0][1]: A part cannot join an interface with itself; found "
              "\"cup_right\"; "
              "accepted: another interface"}},
        Slip{"EndOfNoShape",
             "{family: hose_joint, round: 8 mm}",
             "{family: hose_joint}",
             {"parts.yaml:30:47: parts[4].line.ends[0]: A cross-section is either round or a rectangle; accepted: "
              "`round: 5 mm`, or `width: 3.3 mm, height: 4.2 mm`"}},
        Slip{"EndOfTwoShapes",
             "round: 8 mm}",
             "round: 8 mm, width: 3 mm, height: 3 mm}",
             {"parts.yaml:30:47: parts[4].line.ends[0]: A cross-section is either round or a rectangle; accepted: "
              "`round: 5 mm`, or `width: 3.3 mm, height: 4.2 mm`"}},
        Slip{"NeitherLengthsNorLongest",
             ", longest: 2000 mm",
             "",
             {"parts.yaml:30:11: parts[4].line: A line is either offered in lengths or cut to length; accepted: "
              "`lengths: [600 mm]`, or `longest: 2000 mm`"}},
        Slip{"LengthsAndLongest",
             "lengths: [600 mm, 750 mm]",
             "lengths: [600 mm], longest: 2 m",
             {"parts.yaml:34:11: parts[5].line: A line is either offered in lengths or cut to length; accepted: "
              "`lengths: [600 mm]`, or `longest: 2000 mm`"}},
        Slip{"ZeroDiameter",
             "kind: wire, diameter: 2 mm",
             "kind: wire, diameter: 0 mm",
             {"parts.yaml:34:34: parts[5].line.diameter: This has to be more than nothing; found \"0 mm\"; accepted: "
              "more than 0 mm"}},
        Slip{"UnknownDiameter",
             "kind: wire, diameter: 2 mm",
             "kind: wire, diameter: '?'",
             {"parts.yaml:34:34: parts[5].line.diameter: This value has to be known; only a dimension of an interface "
              "may be `?`; found \"?\"; accepted: a value, marked as assumed where it is: `{value: 45 mm, assumed: "
              "\"why\"}`"}},
        Slip{"PartTwice",
             "id: wire_2",
             "id: hose_5",
             {"parts.yaml:31:9: parts[5].id: This part is given twice, first at parts.yaml:27:9; found \"hose_5\"; "
              "accepted: a name that is not used yet"}}),
    name_of);

}  // namespace
}  // namespace cotter::document
