#include "read_support.hpp"

namespace cotter::document {
namespace {

TEST(ReadOperations, KeepsWhatTheFileSays) {
  const model::OperationCatalog& work = small_catalog().work;
  ASSERT_EQ(work.accesses.size(), 2u);
  EXPECT_TRUE(work.accesses[0].open_at_start);
  EXPECT_FALSE(work.accesses[1].open_at_start);
  ASSERT_EQ(work.operations.size(), 2u);
  EXPECT_EQ(work.operations[0].minutes, 250);
  EXPECT_FALSE(work.operations[0].hold_point);
  EXPECT_EQ(work.operations[0].reversible, model::Reversible::yes);
  const model::Operation& compound = work.operations[1];
  EXPECT_EQ(compound.phase, "bottom bracket");
  EXPECT_EQ(compound.when.size(), 7u);
  EXPECT_EQ(compound.when[1], "!line:hose");
  EXPECT_EQ(compound.after, std::vector<std::string>{"look"});
  EXPECT_EQ(compound.needs_open, (std::vector<std::vector<std::string>>{{"shell_right"}, {"shell_right", "port"}}));
  EXPECT_EQ(compound.opens, std::vector<std::string>{"port"});
  EXPECT_EQ(compound.closes, std::vector<std::string>{"shell_right"});
  EXPECT_EQ(compound.tools, std::vector<std::string>{"brush"});
  EXPECT_EQ(compound.position, "stand");
  EXPECT_EQ(compound.reversible, model::Reversible::costly);
  EXPECT_TRUE(compound.hold_point);
  EXPECT_EQ(compound.evidence, "two readings");
  EXPECT_EQ(compound.check, "It is dry.");
  EXPECT_EQ(compound.caution, "Wear gloves.");
}

class OperationSlip : public testing::TestWithParam<Slip> {};

TEST_P(OperationSlip, IsSaidInFull) {
  EXPECT_EQ(said_by_catalog("operations.yaml", GetParam()), GetParam().said);
}

INSTANTIATE_TEST_SUITE_P(
    ReadOperations, OperationSlip,
    testing::Values(
        Slip{"AfterUnknown",
             "after: [look]",
             "after: [lock]",
             {"operations.yaml:13:13: operations[1].after[0]: There is no operation of this name; found \"lock\"; "
              "accepted: compound, look; did you mean \"look\"?"}},
        Slip{"NeedsUnknownAccess",
             "needs_open: [shell_right, ",
             "needs_open: [shell_rihgt, ",
             {"operations.yaml:14:18: operations[1].needs_open[0]: There is no access of this name; found "
              "\"shell_rihgt\"; accepted: port, shell_right; did you mean \"shell_right\"?"}},
        Slip{"NeedsUnknownAccessOfGroup",
             "[shell_right, port]]",
             "[shell_right, prot]]",
             {"operations.yaml:14:45: operations[1].needs_open[1][1]: There is no access of this name; found \"prot\"; "
              "accepted: port, shell_right; did you mean \"port\"?"}},
        Slip{"OpensUnknown",
             "opens: [port]",
             "opens: [ports]",
             {"operations.yaml:15:13: operations[1].opens[0]: There is no access of this name; found \"ports\"; "
              "accepted: port, shell_right; did you mean \"port\"?"}},
        Slip{"ClosesUnknown",
             "closes: [shell_right]",
             "closes: [shell]",
             {"operations.yaml:16:14: operations[1].closes[0]: There is no access of this name; found \"shell\"; "
              "accepted: port, shell_right"}},
        Slip{"FactUnknown",
             "place:frame",
             "plaze:frame",
             {"operations.yaml:12:12: operations[1].when[0]: This is not a fact that can be asked for here; found "
              "\"plaze:frame\"; accepted: place:<place>, open:<place>, line:<wire, hose or housing>, "
              "kind:<place.interface>=<kind>, family:<place>=<family>, material:<place>=<material>, cut:<form>, "
              "rework:<operation>, shell_lines, pulled_lines, used_parts, each with `!` in front for its opposite"}},
        Slip{"FactOfUnknownPlace",
             "place:frame",
             "place:fram",
             {"operations.yaml:12:12: operations[1].when[0]: There is no place named `fram`; found \"place:fram\"; "
              "accepted: frame, bottom_bracket, saddle, lever, caliper, second_caliper; did you mean \"frame\"?"}},
        Slip{"FactOfUnknownLine",
             "!line:hose",
             "!line:hoes",
             {"operations.yaml:12:25: operations[1].when[1]: There is no kind of line named `hoes`; found "
              "\"!line:hoes\"; accepted: wire, hose, housing; did you mean \"hose\"?"}},
        Slip{"FactOfUnknownKind",
             "shell_right=shell",
             "shell_right=shel",
             {"operations.yaml:12:39: operations[1].when[2]: There is no interface kind named `shel`; found "
              "\"kind:frame.shell_right=shel\"; accepted: cup, rail, shell; did you mean \"shell\"?"}},
        Slip{"FactOfKindWithoutInterface",
             "kind:frame.shell_right=shell",
             "kind:frame=shell",
             {"operations.yaml:12:39: operations[1].when[2]: This is not a fact that can be asked for here; found "
              "\"kind:frame=shell\"; accepted: `kind:<place.interface>=<kind>`"}},
        Slip{"FactOfUnknownMaterial",
             "material:frame=steel",
             "material:frame=steal",
             {"operations.yaml:12:69: operations[1].when[3]: There is no material named `steal`; found "
              "\"material:frame=steal\"; accepted: unknown, steel, aluminium, titanium, composite, plastic, other; did "
              "you mean \"steel\"?"}},
        Slip{"FactOfUnknownCut",
             "cut:steerer_cut",
             "cut:gap",
             {"operations.yaml:12:91: operations[1].when[4]: There is no cut named `gap`; found \"cut:gap\"; accepted: "
              "steerer_cut"}},
        Slip{"FactOfUnknownRework",
             "rework:compound",
             "rework:compoundd",
             {"operations.yaml:12:121: operations[1].when[6]: There is no operation named `compoundd`; found "
              "\"rework:compoundd\"; accepted: compound, look; did you mean \"compound\"?"}},
        Slip{"OperationTwice",
             "id: look",
             "id: compound",
             {"operations.yaml:9:9: operations[1].id: This operation is given twice, first at operations.yaml:6:9; "
              "found \"compound\"; accepted: a name that is not used yet",
              "operations.yaml:13:13: operations[1].after[0]: There is no operation of this name; found \"look\"; "
              "accepted: compound"}},
        Slip{"AccessTwice",
             "{id: port, label: port",
             "{id: shell_right, label: port",
             {"operations.yaml:4:10: accesses[1].id: This access is given twice, first at operations.yaml:3:10; found "
              "\"shell_right\"; accepted: a name that is not used yet",
              "operations.yaml:14:45: operations[1].needs_open[1][1]: There is no access of this name; found \"port\"; "
              "accepted: shell_right",
              "operations.yaml:15:13: operations[1].opens[0]: There is no access of this name; found \"port\"; "
              "accepted: shell_right"}},
        Slip{"NegativeMinutes",
             "minutes: 2.5",
             "minutes: -2.5",
             {"operations.yaml:8:14: operations[0].minutes: The number is outside its range; found \"-2.5\"; accepted: "
              "a number from 0 to 10000"}}),
    name_of);

}  // namespace
}  // namespace cotter::document
