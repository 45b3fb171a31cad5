// A kind of interface and two parts that the program has never heard of, by data alone.
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace cotter::cli {
namespace {

using nlohmann::json;

constexpr const char* k_kinds = R"(cotter: interface_kinds 1
kinds:
  - id: bell_band
    label: band of a bell
    about: The band that holds a bell on the bar.
    dimensions:
      bore: {is: length, label: bore of the band, from: 18 mm, to: 40 mm, unstated: ±0.1 mm, measure: {feature: band of the bell, faces: "wall to wall, screw closed", tool: caliper, resolution: 0.1 mm}}
    meets:
      - kind: bar_hand
        rules:
          - id: bell_on_bar
            label: bell on the bar
            law: bore_on_shaft
            operands: {bore: own.bore, shaft: other.diameter}
            must: {from: 0 mm, to: 0.6 mm}
            below: {says: stop, advice: "Take a bell with a larger band."}
            above: {says: add, part: "strip of rubber under the band", advice: "Wind rubber round the bar first."}
            source: {common_practice: true}
)";

constexpr const char* k_parts = R"(cotter: parts 1
parts:
  - id: bell_243
    label: bell, band of 24.3
    family: bell
    paper: invented for tests
    interfaces:
      band: {kind: bell_band, bore: 24.3 ±0.05 mm}
  - id: bell_222
    label: bell, band of 22.2
    family: bell
    paper: invented for tests
    interfaces:
      band: {kind: bell_band, bore: 22.2 ±0.05 mm}
)";

class NewKind : public testing::Test {
 protected:
  TemporaryFolder folder;

  void SetUp() override {
    folder.write("more/kinds.yaml", k_kinds);
    folder.write("more/parts.yaml", k_parts);
  }

  std::string job_with(const std::string& bell) const {
    const std::string with_bell = edited(text_of(example("all_road")), "  bar_tape: bar_tape_3\n",
                                         "  bar_tape: bar_tape_3\n  bell: " + bell + "\n");
    const std::string joint =
        "joints:\n  - {id: bell_on_bar, label: \"bell, bar\", a: bar.hand_left, b: bell.band}\n\nlines:\n";
    return folder.write("job.yaml", edited(with_bell, "\nlines:\n", "\n" + joint)).string();
  }

  Ended cotter(std::vector<std::string> arguments) const {
    arguments.insert(arguments.end(), {"--catalog", (folder.path() / "more").string()});
    return run(arguments);
  }

  json finding(const std::string& bell) const {
    const Ended ended = cotter({"plan", job_with(bell), "--json"});
    EXPECT_EQ(ended.trouble, "");
    if (ended.output.empty()) return {};
    const json plan = json::parse(ended.output);
    for (const json& one : plan["findings"])
      if (one["rule"] == "bell_on_bar") return one;
    return {};
  }
};

TEST_F(NewKind, IsJudgedByItsLawAgainstAKindThatWasThereBefore) {
  // 24.3 ±0.05 on 24.0 ±0.1: 0.15 to 0.45. 22.2 on the same: 1.65 at the least too small, 1.95 at the worst.
  const json fits = finding("bell_243"), small = finding("bell_222");
  EXPECT_EQ(fits["verdict"], "ok");
  EXPECT_EQ(fits["result"]["low"], 150'000);
  EXPECT_EQ(fits["result"]["high"], 450'000);
  EXPECT_EQ(fits["id"], "bell_on_bar@bar.hand_left,bell.band");
  EXPECT_EQ(small["verdict"], "stop");
  EXPECT_EQ(small["margin"], -1'950'000);
  EXPECT_EQ(cotter({"plan", job_with("bell_222")}).exit_code, 1);
  EXPECT_EQ(cotter({"plan", job_with("bell_243")}).exit_code, 0);
}

TEST_F(NewKind, HasItsWorkingShown) {
  const Ended ended = cotter({"why", job_with("bell_222"), "bell_on_bar"});
  EXPECT_EQ(ended.exit_code, 1);
  for (const char* part :
       {"stop  bell, bar: bell on the bar\n", "bell: bore of the band 22.15 to 22.25 mm", "1.95 mm too tight",
        "Take a bell with a larger band.", "  method    the bore less what goes into it\n",
        "formula   bore - shaft = (22.15 to 22.25) - (23.9 to 24.1) = ", "  source    common practice, no source\n"})
    EXPECT_NE(ended.output.find(part), std::string::npos) << part << "\n" << ended.output;
}

TEST_F(NewKind, HasASchemaThatNamesItsDimension) {
  const Ended ended = cotter({"schema", "interface:bell_band"});
  EXPECT_EQ(ended.exit_code, 0);
  EXPECT_TRUE(json::parse(ended.output)["properties"].contains("bore"));
  EXPECT_EQ(run({"schema", "interface:bell_band"}).exit_code, 2);
}

TEST_F(NewKind, IsCheckedLikeAnyOther) {
  EXPECT_EQ(cotter({"check", (folder.path() / "more/kinds.yaml").string()}).exit_code, 0);
  folder.write("more/parts.yaml", edited(k_parts, "bore: 22.2 ±0.05 mm", "bore: 222 ±0.05 mm"));
  const Ended ended = cotter({"check", (folder.path() / "more/parts.yaml").string()});
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_NE(ended.trouble.find("The bore of the band is outside what is possible for this kind (band of a bell)"),
            std::string::npos)
      << ended.trouble;
}

TEST_F(NewKind, ARuleWithoutALawOrAnOperandIsRefusedAtTheFileNotInThePlan) {
  folder.write("more/kinds.yaml", edited(k_kinds, "law: bore_on_shaft", "law: bore_in_shaft"));
  const Ended law = cotter({"plan", job_with("bell_243")});
  EXPECT_EQ(law.exit_code, 2);
  EXPECT_EQ(law.output, "");
  EXPECT_NE(law.trouble.find("bore_on_shaft"), std::string::npos) << law.trouble;
  folder.write("more/kinds.yaml", edited(k_kinds, "{bore: own.bore, shaft: other.diameter}", "{bore: own.bore}"));
  const Ended operand = cotter({"plan", job_with("bell_243")});
  EXPECT_EQ(operand.exit_code, 2);
  EXPECT_EQ(operand.output, "");
  EXPECT_NE(operand.trouble.find("kinds.bell_band.meets.bell_on_bar"), std::string::npos) << operand.trouble;
  EXPECT_NE(operand.trouble.find("the law needs the operand shaft"), std::string::npos) << operand.trouble;
}

TEST_F(NewKind, AnIdThatIsThereAlreadyIsRefusedWithBothPlaces) {
  folder.write("more/again.yaml", edited(k_parts, "  - id: bell_222", "  - id: bar_drop_440"));
  const Ended ended = cotter({"plan", job_with("bell_243")});
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_NE(ended.trouble.find("again.yaml:"), std::string::npos) << ended.trouble;
  EXPECT_NE(ended.trouble.find("front_end.yaml"), std::string::npos) << ended.trouble;
}

}  // namespace
}  // namespace cotter::cli
