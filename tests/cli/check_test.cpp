// `cotter check` on every kind of catalog file: a good one of each, and slips that are said with place and mend.
#include <array>
#include <gtest/gtest.h>
#include <map>

#include "program.hpp"

namespace cotter::cli {
namespace {

const std::string k_catalog = COTTER_SOURCE_DIR "/tests/cli/data/catalog/";

/// A good file of each kind, to be read on top of the small catalog.
const std::map<std::string, std::string>& good_files() {
  static const std::map<std::string, std::string> files = {
      {"kinds", R"(cotter: interface_kinds 1
kinds:
  - id: plug
    label: plug
    about: A plug in the end of a shell.
    dimensions:
      outside: {is: length, label: outside, from: 30 mm, to: 60 mm, unstated: ±0.02 mm}
    meets:
      - kind: shell
        rules:
          - id: plug_in_shell
            label: plug in the shell
            law: bore_on_shaft
            operands: {bore: other.bore, shaft: own.outside}
            must: {from: 0.01 mm, to: 0.10 mm}
            below: {says: stop, advice: "Take a smaller plug."}
            above: {says: stop, advice: "Take a larger plug."}
            guards: axle
            may_pass: maker
            source: {common_practice: true}
)"},
      {"parts", R"(cotter: parts 1
parts:
  - id: bracket_45
    label: bracket, 45 outside
    family: bracket
    material: steel
    mass: 90 g
    interfaces:
      cup: {kind: cup, outside: 45.05 ±0.01 mm}
)"},
      {"bicycle", R"(cotter: bicycle 1
id: other
label: a frame with a bracket
places:
  - {id: frame, label: frame}
  - {id: bracket, label: bracket}
joints:
  - {id: cup, label: right cup, a: frame.shell, b: bracket.cup}
)"},
      {"section", R"(cotter: section 1
id: shell_stack
label: shell
places: [frame, bracket]
stacks:
  - id: shell
    label: shell
    terms:
      - {id: width, label: width, value: frame.shell.width}
    forms:
      - id: room
        label: room
        terms: {width: 1}
        must: {from: 60 mm}
        below: {says: stop, advice: "Too narrow."}
        guards: axle
        source: {common_practice: true}
)"},
      {"operations", R"(cotter: operations 1
accesses:
  - {id: port, label: port, open: true}
operations:
  - {id: close_port, label: Close the port., phase: work, tools: [], position: stand, minutes: 2, reversible: costly, closes: [port], after: [press_cup]}
)"},
      {"conditions", R"(cotter: conditions 1
used:
  - id: used_bracket
    label: used bracket
    families: [bracket]
    materials: [steel]
    without: measure
    guards: axle
    source: {common_practice: true}
)"},
      {"tools", R"(cotter: tools 1
substitutes:
  - tool: caliper
    label: flat caliper jaws
    instead_of: bore_gauge
    needed_label: a bore gauge
    reads_low: {from: 0.02 mm, to: 0.1 mm}
    source: {common_practice: true}
)"},
  };
  return files;
}

Ended checked(const std::string& name, const std::string& text) {
  const TemporaryFolder folder;
  folder.write(name + ".yaml", text);
  Surroundings here;
  here.folder = folder.path();
  here.environment = {{"COTTER_CATALOG", k_catalog}};
  return run({"check", name + ".yaml"}, here);
}

TEST(CheckCatalogFile, AGoodOneOfEachKindIsInOrder) {
  for (const auto& [name, text] : good_files()) {
    const Ended ended = checked(name, text);
    EXPECT_EQ(ended.exit_code, 0) << name;
    EXPECT_EQ(ended.output, name + ".yaml: in order\n");
    EXPECT_EQ(ended.trouble, "");
  }
}

struct Slip {
  std::string file, from, to;
  std::string said;  ///< the whole line; `@` stands for the folder of the small catalog
};

const std::vector<Slip>& slips() {
  static const std::vector<Slip> all = {
      {"kinds", "other.bore", "other.bor",
       "kinds.yaml:14:30: kinds[0].meets[0].rules[0].operands.bore: There is no dimension of shell of this name; found "
       "\"other.bor\"; accepted: other.bore, other.width; did you mean \"other.bore\"?"},
      {"kinds", "from: 0.01 mm, to: 0.10 mm", "from: 0.10 mm, to: 0.01 mm",
       "kinds.yaml:15:39: kinds[0].meets[0].rules[0].must.to: The window ends before it starts; found \"0.01 mm\"; "
       "accepted: at least 0.1 mm"},
      {"kinds", "law: bore_on_shaft", "law: bore_in_shaft",
       "kinds.yaml:13:18: kinds.plug.meets.plug_in_shell: This rule cannot be judged: there is no law bore_in_shaft; "
       "the laws are bore_on_shaft, difference, at_most, at_least, range_contains, thread, equal_pattern, "
       "equal_family, engagement, radial_room, equal_angle, overlap"},
      {"kinds", "unstated: ±0.02 mm", "unstated: ±0.02 bar",
       "kinds.yaml:7:79: kinds[0].dimensions.outside.unstated: These are not deviations with a unit; found \"±0.02 "
       "bar\"; accepted: deviations of a length such as ±1 mm"},
      {"kinds", "may_pass: maker", "may_pass: mechanic",
       "kinds.yaml:19:23: kinds[0].meets[0].rules[0].may_pass: A limit that guards `axle` may not be passed by a "
       "mechanic; found \"mechanic\"; accepted: nobody or maker"},
      {"parts", "kind: cup", "kind: cupp",
       "parts.yaml:9:19: parts[0].interfaces.cup.kind: There is no interface kind of this name; found \"cupp\"; "
       "accepted: cup, rail, shell; did you mean \"cup\"?"},
      {"parts", "45.05 ±0.01 mm", "45.05",
       "parts.yaml:9:33: parts[0].interfaces.cup.outside: The value has no unit; found \"45.05\"; accepted: mm, cm, m, "
       "µm, nm, in or tpi"},
      {"parts", "45.05 ±0.01 mm", "75 mm",
       "parts.yaml:9:33: parts[0].interfaces.cup.outside: The outside is outside what is possible for this kind (cup); "
       "found \"75 mm\"; accepted: 30 mm to 60 mm"},
      {"parts", "material: steel", "material: stel",
       "parts.yaml:6:15: parts[0].material: The word is not one of those known here; found \"stel\"; accepted: one of: "
       "unknown, steel, aluminium, titanium, composite, plastic, other; did you mean \"steel\"?"},
      {"parts", "id: bracket_45", "id: bracket_46",
       "parts.yaml:3:9: parts[0].id: This part is given twice, first at @parts.yaml:3:9; found \"bracket_46\"; "
       "accepted: a name that is not used yet"},
      {"bicycle", "b: bracket.cup", "b: braket.cup",
       "bicycle.yaml:8:52: joints[0].b: There is no place `braket`; found \"braket.cup\"; accepted: `place.interface`; "
       "did you mean \"bracket\"?"},
      {"bicycle", "id: other", "id: small",
       "bicycle.yaml:2:5: id: This bicycle template is given twice, first at @bicycle.yaml:2:5; found \"small\"; "
       "accepted: a name that is not used yet"},
      {"bicycle", "label: a frame with a bracket\n", "",
       "bicycle.yaml:1:1: label: A bicycle needs the field `label`; accepted: text of at most 300 bytes"},
      {"section", "frame.shell.width", "fram.shell.width",
       "section.yaml:9:42: stacks[0].terms[0].value: There is no place `fram`; found \"fram.shell.width\"; accepted: "
       "`place.interface.dimension`; did you mean \"frame\"?"},
      {"section", "terms: {width: 1}", "terms: {widht: 1}",
       "section.yaml:13:17: stacks[0].forms[0].terms.widht: There is no term of this name; found \"widht\"; accepted: "
       "width; did you mean \"width\"?"},
      {"section", "from: 60 mm", "from: 60 N·m",
       "section.yaml:14:22: stacks[0].forms[0].must.from: The limit is of another kind of quantity than what it "
       "limits; found \"60 N·m\"; accepted: a length"},
      {"section", "stacks:", "staks:",
       "section.yaml:5:1: staks: A section has no such field; found \"staks\"; accepted: cotter, id, label, places, "
       "features, joints, connections, stacks, clearances; did you mean \"stacks\"?"},
      {"operations", "closes: [port]", "closes: [prot]",
       "operations.yaml:5:128: operations[0].closes[0]: There is no access of this name; found \"prot\"; accepted: "
       "port, shell; did you mean \"port\"?"},
      {"operations", "after: [press_cup]", "after: [press_cap]",
       "operations.yaml:5:143: operations[0].after[0]: There is no operation of this name; found \"press_cap\"; "
       "accepted: close_port, press_cup; did you mean \"press_cup\"?"},
      {"operations", "minutes: 2", "minutes: two",
       "operations.yaml:5:96: operations[0].minutes: This is text, which does not belong here; found \"two\"; "
       "accepted: a number from 0 to 10000"},
      {"operations", "id: close_port", "id: press_cup",
       "operations.yaml:5:10: operations[0].id: This operation is given twice, first at @work.yaml:5:10; found "
       "\"press_cup\"; accepted: a name that is not used yet"},
      {"conditions", "without: measure", "without: ok",
       "conditions.yaml:7:14: used[0].without: The word is not one of those known here; found \"ok\"; accepted: one "
       "of: stop, measure"},
      {"conditions", "families: [bracket]", "families: []",
       "conditions.yaml:5:15: used[0].families: There are too few entries here; found \"0 entries\"; accepted: a list "
       "of 1 to 10000 entries"},
      {"conditions", "guards: axle", "guards: axel",
       "conditions.yaml:8:13: used[0].guards: The word is not one of those known here; found \"axel\"; accepted: one "
       "of: nothing, brake, steering, axle, insertion, pressure, composite; did you mean \"axle\"?"},
      {"tools", "{from: 0.02 mm, to: 0.1 mm}", "{from: 0.02 mm}",
       "tools.yaml:7:16: substitutes[0].reads_low: This range needs both ends; accepted: `from` and `to`"},
      {"tools", "0.02 mm", "0.02 bar",
       "tools.yaml:7:37: substitutes[0].reads_low.to: The ends of the window are of two kinds of quantity; found \"0.1 "
       "mm\"; accepted: a pressure, as `from`"},
      {"tools", "from: 0.02 mm", "from: 0.2 mm",
       "tools.yaml:7:35: substitutes[0].reads_low.to: The window ends before it starts; found \"0.1 mm\"; accepted: at "
       "least 0.2 mm"},
  };
  return all;
}

TEST(CheckCatalogFile, EverySlipIsSaidWithItsPlaceAndItsMend) {
  std::map<std::string, int> slips_of;
  for (const Slip& slip : slips()) {
    ++slips_of[slip.file];
    const Ended ended = checked(slip.file, edited(good_files().at(slip.file), slip.from, slip.to));
    EXPECT_EQ(ended.exit_code, 2) << slip.to;
    EXPECT_EQ(ended.output, "") << slip.to;
    std::string said = slip.said;
    if (const std::size_t at = said.find('@'); at != std::string::npos) said.replace(at, 1, k_catalog);
    EXPECT_EQ(ended.trouble, said + "\n");
  }
  for (const auto& [name, text] : good_files()) EXPECT_GE(slips_of[name], 3) << name;
}

TEST(CheckCatalogFile, WordsLeaveNothingThatAMakersPaperCouldAllow) {
  std::string kinds = edited(good_files().at("kinds"), "operands: {bore: other.bore, shaft: own.outside}",
                             "words: {family: [own.maker, other.maker]}");
  kinds = edited(kinds, "            must: {from: 0.01 mm, to: 0.10 mm}\n", "");
  kinds = edited(edited(kinds, "kind: shell", "kind: plug"), "law: bore_on_shaft", "law: equal_family");
  kinds = edited(kinds, "    meets:\n", "    words: {maker: {label: make, accepted: [one, two]}}\n    meets:\n");
  EXPECT_EQ(checked("kinds", kinds).trouble,
            "kinds.yaml:19:23: kinds[0].meets[0].rules[0].may_pass: Words that differ leave no amount that a maker's "
            "paper could allow; what its maker calls a part is written in the part; found \"maker\"; accepted: "
            "nobody\n");
  EXPECT_EQ(checked("kinds", edited(kinds, "may_pass: maker", "may_pass: nobody")).trouble, "");
}

TEST(CheckCatalogFile, ATableOfAStandardIsBuiltInAndATableOfPartsIsImported) {
  const Ended ended = run({"check", "catalog/standards/elastic.csv"});
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_EQ(ended.output, "");
  EXPECT_EQ(ended.trouble,
            "catalog/standards/elastic.csv: a table is not checked here. A table of parts is checked by `cotter import "
            "catalog/standards/elastic.csv --check`; the tables of standards are built into cotter and checked by its "
            "tests.\n");
}

}  // namespace
}  // namespace cotter::cli
