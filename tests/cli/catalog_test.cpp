// `new`, `import`, `catalog` and `compare` from outside, and what they refuse.
#include <algorithm>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace cotter::cli {
namespace {

using nlohmann::json;

const std::string k_data = COTTER_SOURCE_DIR "/tests/cli/data/";

Surroundings small_catalog(const TemporaryFolder& folder) {
  Surroundings here;
  here.environment = {{"COTTER_CATALOG", k_data + "catalog"}};
  here.folder = folder.path();
  return here;
}

std::vector<std::string> templates() {
  const Ended ended = run({"new", "no_such_template"});
  std::string list = ended.trouble.substr(ended.trouble.find("The templates are ") + 18);
  std::vector<std::string> names;
  while (!list.empty()) {
    const std::size_t end = list.find_first_of(",.");
    names.push_back(list.substr(0, end));
    list = list[end] == '.' ? "" : list.substr(end + 2);
  }
  return names;
}

TEST(New, IsAJobWithEveryPlaceOpenAndWhatCouldGoThere) {
  const TemporaryFolder folder;
  const Ended ended = run({"new", "small", "--title", "Mine \"and\" hers"}, small_catalog(folder));
  EXPECT_EQ(ended.exit_code, 0);
  EXPECT_EQ(ended.trouble, "");
  EXPECT_EQ(
      ended.output,
      "# A new job: a frame with a bracket and a saddle. Write a part behind each place, from the catalog or one of\n"
      "#   your own under parts; ? is a dimension that nobody knows yet.\n"
      "cotter: job 1\nid: new_job\ntitle: \"Mine \\\"and\\\" hers\"\nbicycle: small\nrevision: A\n\n"
      "# Parts of your own. Each ? is a dimension to measure or a word to find out; take the kind that your part\n"
      "#   has.\n"
      "parts:\n  - id: frame_here\n    label: \"frame\"\n    family: frame\n    interfaces:\n"
      "      shell: {kind: shell, bore: \"?\", width: \"?\"}\n\n"
      "places:\n"
      "  # frame. It must offer: shell (shell).\n  frame: frame_here\n"
      "  # bracket. It must offer: cup (cup).\n"
      "  # In the catalog, what offers most of it first: bracket_46.\n  bracket: {is: bracket}\n"
      "  # saddle. Nothing of it has to mate.\n"
      "  # In the catalog, what offers most of it first: saddle_7.\n  saddle: {is: saddle}\n\n");
  folder.write("new.yaml", ended.output);
  EXPECT_EQ(run({"check", "new.yaml"}, small_catalog(folder)).output, "new.yaml: in order\n");
  const Ended plan = run({"plan", "new.yaml"}, small_catalog(folder));
  EXPECT_EQ(plan.exit_code, 0);
  EXPECT_NE(plan.output.find("Nothing chosen yet for: bracket."), std::string::npos) << plan.output;
}

TEST(New, OfEveryTemplateIsInOrderAndThePlanSaysWhatToChoose) {
  ASSERT_FALSE(templates().empty());
  for (const std::string& name : templates()) {
    const TemporaryFolder folder;
    Surroundings here;
    here.folder = folder.path();
    for (const std::vector<std::string>& more : {std::vector<std::string>{}, {"--own", "frame", "--own", "crankset"}}) {
      std::vector<std::string> command{"new", name, "-o", "new.yaml"};
      command.insert(command.end(), more.begin(), more.end());
      ASSERT_EQ(run(command, here).exit_code, 0) << name;
      const Ended check = run({"check", "new.yaml"}, here);
      EXPECT_EQ(check.output, "new.yaml: in order\n") << name << "\n" << check.trouble;
      const Ended plan = run({"plan", "new.yaml"}, here);
      EXPECT_EQ(plan.trouble, "") << name;
      EXPECT_NE(plan.output.find("Nothing chosen yet for: "), std::string::npos) << name;
    }
  }
}

TEST(New, NamesTheNearestTemplateAndPlace) {
  const TemporaryFolder folder;
  const Ended ended = run({"new", "smal"}, small_catalog(folder));
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_EQ(ended.output, "");
  EXPECT_EQ(ended.trouble, "There is no bicycle template \"smal\". Did you mean \"small\"? The templates are small.\n");
  EXPECT_EQ(run({"new", "small", "--own", "sadle"}, small_catalog(folder)).trouble,
            "The template has no place \"sadle\". Did you mean \"saddle\"? Its places are frame, bracket, saddle.\n");
  EXPECT_EQ(run({"new"}).exit_code, 64);
}

TEST(Import, PrintsWhatCheckPasses) {
  const TemporaryFolder folder;
  folder.write(
      "parts.csv",
      "\xEF\xBB\xBFpart;label;family;interface;kind;outside\r\ncup_2;cup;bracket;right;cup;46.05 ±0.01 mm\r\n");
  const Ended ended = run({"import", "parts.csv"}, small_catalog(folder));
  EXPECT_EQ(ended.exit_code, 0);
  EXPECT_EQ(ended.output,
            "cotter: parts 1\nparts:\n  - id: cup_2\n    label: cup\n    family: bracket\n    interfaces:\n"
            "      right: {kind: cup, outside: \"46.05 ±0.01 mm\"}\n");
  folder.write("parts.yaml", ended.output);
  EXPECT_EQ(run({"check", "parts.yaml"}, small_catalog(folder)).output, "parts.yaml: in order\n");
  EXPECT_EQ(run({"import", "parts.csv", "--check"}, small_catalog(folder)).output,
            "parts.csv: in order, 1 parts with 1 interfaces\n");
}

TEST(Import, IsRefusedWithRowAndColumn) {
  const TemporaryFolder folder;
  folder.write("parts.csv", "part;label;family;interface;kind;outside\ncup_2;cup;bracket;right;cup;46,05 mm\n");
  for (const auto& command : std::vector<std::vector<std::string>>{
           {"import", "parts.csv"}, {"import", "parts.csv", "--check"}, {"import", "parts.csv", "-o", "parts.yaml"}}) {
    const Ended ended = run(command, small_catalog(folder));
    EXPECT_EQ(ended.exit_code, 2);
    EXPECT_EQ(ended.output, "");
    EXPECT_EQ(ended.trouble,
              "parts.csv:2:29: row 2, column F (outside): A number is written with a point here, not with a comma; "
              "found \"46,05 mm\"; accepted: a point; did you mean \"46.05 mm\"?\n");
  }
  EXPECT_EQ(folder.names(), std::vector<std::string>{"parts.csv"});
  folder.write("parts.csv", "part,label,family,interface\n");
  EXPECT_EQ(run({"import", "parts.csv"}, small_catalog(folder)).trouble,
            "parts.csv:1:1: row 1: The column `kind` is missing; accepted: part, label, family, interface, kind\n");
  EXPECT_EQ(run({"import", "no.csv"}, small_catalog(folder)).exit_code, 2);
}

TEST(Catalog, ListsKindsFamiliesAndWhatNothingUses) {
  const TemporaryFolder folder;
  const Ended ended = run({"catalog"}, small_catalog(folder));
  EXPECT_EQ(ended.exit_code, 0);
  EXPECT_EQ(ended.output,
            "Interface kinds, and the parts that offer them\n"
            "  cup (cup): 1: bracket_46\n  rail (rail): 1: saddle_7\n  shell (shell): 0: no part offers it\n\n"
            "2 families\n  bracket: 1: bracket_46\n  saddle: 1: saddle_7\n\n"
            "Parts that no place of a template could take and none of these jobs uses\n  none\n");
}

TEST(Catalog, HoldsAtLeastSixtyFamilies) {
  const Ended ended = run({"catalog"});
  const auto lines = lines_of(ended.output);
  const auto line =
      std::find_if(lines.begin(), lines.end(), [](const std::string& one) { return one.ends_with(" families"); });
  ASSERT_NE(line, lines.end());
  EXPECT_GE(std::stoi(*line), 60);
}

TEST(Compare, SaysWhatAChangeDidWorstFirst) {
  const TemporaryFolder folder;
  const std::string job = text_of(k_data + "job.yaml");
  folder.write("before.yaml", job);
  folder.write("after.yaml",
               edited(edited(job, "bore: 46.00 ±0.01 mm", "bore: 45.50 ±0.01 mm"), "  saddle: saddle_7\n", ""));
  const Ended ended = run({"compare", "before.yaml", "after.yaml"}, small_catalog(folder));
  EXPECT_EQ(ended.exit_code, 1);
  EXPECT_EQ(ended.trouble, "");
  // By hand: 46.00 - 46.05, both ±0.01: -0.07 to -0.03, so 0.02 below -0.01; with 45.50 -0.57, 0.47 short of -0.10.
  EXPECT_EQ(ended.output,
            "from  A small job\nto    A small job\n\nFindings\n"
            "  - right cup: cup in shell: was ok [-0.07 to -0.03 mm], is stop [0.47 mm too tight] now. Room left\n"
            "    before: 0.02 mm; now: -0.47 mm. (cup_in_shell@frame.shell,bracket.cup)\n"
            "  - saddle: every place is filled: new, add [1 part]. (place_filled@saddle)\n\n"
            "Parts\n  - saddle: before saddle, rails of 7 (? g, ?); now nothing.\n\n"
            "Order list\n  - No longer to be ordered: saddle, rails of 7, for saddle.\n\n"
            "Together\n  - Parts not weighed: 3 before, 2 now.\n  - Parts without a price: 3 before, 2 now.\n\n"
            "One finding of the later plan says stop.\n");
  const Ended back = run({"compare", "after.yaml", "before.yaml"}, small_catalog(folder));
  EXPECT_EQ(back.exit_code, 0);
  EXPECT_NE(back.output.find("was stop [0.47 mm too tight], is ok [-0.07 to -0.03 mm] now."), std::string::npos);
}

TEST(Compare, OfAJobWithItselfIsNothing) {
  const TemporaryFolder folder;
  const Ended ended = run({"compare", k_data + "job.yaml", k_data + "job.yaml"}, small_catalog(folder));
  EXPECT_EQ(ended.exit_code, 0);
  EXPECT_EQ(ended.output,
            "from  A small job\nto    A small job\n\nNothing that the plan says has changed.\n\n"
            "No finding of the later plan says stop.\n");
}

TEST(Compare, AsADocumentHoldsBothSidesOfEachChange) {
  const Ended ended = run({"compare", example("all_road"), example("all_road_short_spindle"), "--json"});
  EXPECT_EQ(ended.exit_code, 1);
  const json difference = json::parse(ended.output);
  EXPECT_EQ(difference["cotter"], "plan_difference 1");
  const json plan = json::parse(run({"plan", example("all_road_short_spindle"), "--json"}).output);
  for (const json& change : difference["findings"]) {
    const json& after = change["after"];
    if (after.is_null()) continue;
    EXPECT_NE(std::find(plan["findings"].begin(), plan["findings"].end(), after), plan["findings"].end());
  }
  EXPECT_EQ(difference["findings"][0]["change"], "worse");
  EXPECT_EQ(difference["findings"][0]["after"]["verdict"], "stop");
  EXPECT_EQ(difference["parts"][0]["after"]["part"], "crank_30_short");
}

TEST(Compare, OfABadJobSaysWhatIsWrongWithEither) {
  const TemporaryFolder folder;
  folder.write("bad.yaml", "cotter: job 1\n");
  const Ended ended = run({"compare", "no.yaml", "bad.yaml"}, small_catalog(folder));
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_EQ(ended.output, "");
  EXPECT_NE(ended.trouble.find("no.yaml: There is no such file"), std::string::npos);
  EXPECT_NE(ended.trouble.find("bad.yaml:1:1: id: "), std::string::npos) << ended.trouble;
}

}  // namespace
}  // namespace cotter::cli
