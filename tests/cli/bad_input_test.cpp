// Bad input from outside: exit 2, every fault in one go with its place and a mend, nothing on standard output, nothing
// written. The catalog and the job of tests/cli/data are small and their own, so that messages are asserted in full.
#include <gtest/gtest.h>
#include <ostream>

#include "program.hpp"

namespace cotter::cli {
namespace {

std::string small_job() {
  return text_of(COTTER_SOURCE_DIR "/tests/cli/data/job.yaml");
}

Surroundings small_catalog(const TemporaryFolder& folder) {
  Surroundings surroundings;
  surroundings.environment = {{"COTTER_CATALOG", COTTER_SOURCE_DIR "/tests/cli/data/catalog"}};
  surroundings.folder = folder.path();
  return surroundings;
}

struct Edit {
  std::string name, old_text, new_text, trouble;
};

void PrintTo(const Edit& edit, std::ostream* stream) {
  *stream << edit.name;
}

const std::vector<Edit> k_edits = {
    {"wrong_unit", "width: 68.0 ±0.1 mm", "width: 68.0 ±0.1 kg",
     "job.yaml:11:57: parts[0].interfaces.shell.width: The unit is one of another kind of quantity; found "
     "\"68.0 ±0.1 kg\"; accepted: mm, cm, m, µm, nm, in or tpi, a unit of length\n"},
    {"no_unit", "width: 68.0 ±0.1 mm", "width: 68.0 ±0.1",
     "job.yaml:11:57: parts[0].interfaces.shell.width: The value has no unit; found \"68.0 ±0.1\"; accepted: mm, cm, "
     "m, µm, nm, in or tpi\n"},
    {"missing_value", ", width: 68.0 ±0.1 mm", "",
     "job.yaml:11:14: parts[0].interfaces.shell.width: A shell interface needs the field `width`; accepted: a length "
     "such as 41.5 mm, or `?` when it is not known\n"},
    {"tube_thinner_than_its_bore", "outer_diameter: 48 mm", "outer_diameter: 44 mm",
     "job.yaml:13:71: parts[0].cells[0].bore: bore 45 mm is not smaller than outer diameter 44 mm; found \"45 mm\"; "
     "accepted: less than 44 mm\n"},
    {"negative_length", "distance: 120 mm", "distance: -120 mm",
     "job.yaml:15:73: parts[0].openings[0].distance: This may not be negative; found \"-120 mm\"; accepted: at "
     "least 0 mm\n"},
    {"negative_dimension", "width: 68.0 ±0.1 mm", "width: -68.0 ±0.1 mm",
     "job.yaml:11:57: parts[0].interfaces.shell.width: The width is outside what is possible for this kind (shell); "
     "found \"-68.0 ±0.1 mm\"; accepted: 60 mm to 90 mm\n"},
    {"part_in_two_places", "saddle: saddle_7", "saddle: bracket_46",
     "job.yaml:19:11: places.saddle: This part is already in another place, see line 18; found \"bracket_46\"; "
     "accepted: `another: true` beside it, when it is a further piece of the same part\n"},
    {"unknown_place", "  saddle: saddle_7", "  sadle: saddle_7",
     "job.yaml:19:3: places.sadle: There is no place of this name; found \"sadle\"; accepted: frame, bracket, saddle; "
     "did you mean \"saddle\"?\n"},
    {"unknown_part", "saddle: saddle_7", "saddle: saddle_8",
     "job.yaml:19:11: places.saddle: There is no part of this name; found \"saddle_8\"; accepted: bracket_46, "
     "saddle_7, frame_here; did you mean \"saddle_7\"?\n"},
    {"joint_of_unlike_interfaces", "  saddle: saddle_7",
     "  saddle: saddle_7\njoints:\n  - {id: odd, label: rail in shell, a: frame.shell, b: saddle.rail}",
     "job.yaml:21:56: joints[0].b: shell and rail never meet; found \"saddle.rail\"; accepted: an interface of one of "
     "the kinds cup\n"},
    {"opening_on_a_tube_that_does_not_exist", "cell: down_tube, from", "cell: up_tube, from",
     "job.yaml:15:39: parts[0].openings[0].cell: There is no cell of this name; found \"up_tube\"; accepted: "
     "down_tube\n"},
    {"alias", "saddle: saddle_7", "saddle: &one saddle_7\n  bracket_2: *one",
     "job.yaml:19:11: places.saddle: Anchors (`&`) are not allowed; found \"&one saddle_7\"; accepted: the value "
     "itself\njob.yaml:20:14: places.bracket_2: Aliases (`*`) are not allowed; found \"*one\"; accepted: the value "
     "itself, or the text in quotes\n"},
    {"unclosed_quote", "title: A small job", "title: \"A small job",
     "job.yaml:3:8: title: The quoted text does not end on its line; found \"\"A small job\"; accepted: a closing "
     "quote on the line of the opening one\n"},
    {"escape_codes_of_a_terminal", "title: A small job", "title: \"A \\e[31mred job\"",
     "job.yaml:3:8: title: The text holds a control character written as an escape; found \"\"A \\e[31mred job\"\"; "
     "accepted: letters, signs and spaces\n"},
    {"key_twice", "  saddle: saddle_7", "  saddle: saddle_7\n  saddle: saddle_7",
     "job.yaml:20:3: places.saddle: The same key stands in line 19 already; found \"saddle\"; accepted: each key once "
     "in a map\n"},
    {"newer_version", "cotter: job 1", "cotter: job 2",
     "job.yaml:1:9: cotter: The document is of version 2; this program reads versions up to 1. Take a newer program, "
     "or write the document anew; found \"job 2\"; accepted: `job 1`\n"},
    {"unknown_template", "bicycle: small", "bicycle: smalls",
     "job.yaml:4:10: bicycle: There is no bicycle template of this name; found \"smalls\"; accepted: small; did you "
     "mean "
     "\"small\"?\n"},
    {"several_faults_at_once",
     "width: 68.0 ±0.1 mm}\n    cells:\n      - {id: down_tube, tube: down_tube, outer_diameter: "
     "48 mm",
     "width: 68.0 ±0.1 kg}\n    cells:\n      - {id: down_tube, tube: down_tube, outer_diameter: 44 mm",
     "job.yaml:11:57: parts[0].interfaces.shell.width: The unit is one of another kind of quantity; found "
     "\"68.0 ±0.1 kg\"; accepted: mm, cm, m, µm, nm, in or tpi, a unit of length\n"
     "job.yaml:13:71: parts[0].cells[0].bore: bore 45 mm is not smaller than outer diameter 44 mm; found \"45 mm\"; "
     "accepted: less than 44 mm\n"}};

class BadJob : public testing::TestWithParam<Edit> {};

TEST_P(BadJob, IsRefusedByEveryCommandWithTheSameWords) {
  const TemporaryFolder folder;
  folder.write("job.yaml", edited(small_job(), GetParam().old_text, GetParam().new_text));
  const std::vector<std::vector<std::string>> commands = {{"plan", "job.yaml"},
                                                          {"plan", "job.yaml", "--json"},
                                                          {"check", "job.yaml"},
                                                          {"why", "job.yaml", "cup_in_shell"},
                                                          {"draw", "job.yaml", "-o", "drawing.svg"}};
  for (const auto& command : commands) {
    const Ended ended = run(command, small_catalog(folder));
    EXPECT_EQ(ended.exit_code, 2) << command[0];
    EXPECT_EQ(ended.output, "") << command[0];
    EXPECT_EQ(ended.trouble, GetParam().trouble) << command[0];
  }
  EXPECT_EQ(folder.names(), std::vector<std::string>{"job.yaml"});
}

INSTANTIATE_TEST_SUITE_P(Edits, BadJob, testing::ValuesIn(k_edits), [](const auto& test) { return test.param.name; });

TEST(BadFile, TheJobWithoutAnEditIsGood) {
  const TemporaryFolder folder;
  folder.write("job.yaml", small_job());
  const Ended ended = run({"check", "job.yaml"}, small_catalog(folder));
  EXPECT_EQ(ended.exit_code, 0);
  EXPECT_EQ(ended.output, "job.yaml: in order\n");
  EXPECT_EQ(ended.trouble, "");
}

void expect_refused(const TemporaryFolder& folder, const std::string& file, const std::string& trouble) {
  const Ended ended = run({"plan", file}, small_catalog(folder));
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_EQ(ended.output, "");
  EXPECT_EQ(ended.trouble, trouble);
}

TEST(BadFile, OfTenMegabytes) {
  const TemporaryFolder folder;
  folder.write("big.yaml", small_job() + "# " + std::string(10'000'000, 'x') + "\n");
  expect_refused(folder, "big.yaml", "big.yaml: The file has more than 1048576 bytes; accepted: a smaller file\n");
}

TEST(BadFile, ThatIsNotText) {
  const TemporaryFolder folder;
  folder.write("picture.yaml", std::string("\x89PNG\r\n\x1A\n\0\0\0\rIHDR", 16));
  expect_refused(folder, "picture.yaml",
                 "picture.yaml:1:1: The file holds bytes that are not UTF-8; found \"\\x89PNG\"; accepted: text"
                 " saved as UTF-8\n");
}

TEST(BadFile, ThatIsMissing) {
  expect_refused(TemporaryFolder(), "missing.yaml",
                 "missing.yaml: There is no such file; found \"missing.yaml\"; accepted: a file that can be read\n");
}

TEST(BadFile, ThatIsAFolder) {
  const TemporaryFolder folder;
  std::filesystem::create_directory(folder.path() / "jobs");
  expect_refused(folder, "jobs",
                 "jobs: This is a folder, not a file; found \"jobs\"; accepted: a file that can be read\n");
}

TEST(BadFile, ThatNeverEnds) {
  const Ended ended = run({"plan", "/dev/zero"});
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_EQ(ended.output, "");
}

TEST(BadFile, ThatIsEmpty) {
  const TemporaryFolder folder;
  folder.write("empty.yaml", "");
  expect_refused(folder, "empty.yaml", "empty.yaml:1:1: The document is empty; accepted: lines `key: value`\n");
}

TEST(BadFile, OfAnotherKind) {
  const TemporaryFolder folder;
  folder.write("parts.yaml", "cotter: parts 1\nparts: []\n");
  expect_refused(
      folder, "parts.yaml",
      "parts.yaml:1:9: cotter: This kind of document is not known here; found \"parts 1\"; accepted: one of: "
      "job\n");
}

class Deep : public testing::TestWithParam<std::string> {};

TEST_P(Deep, NestingIsRefusedNotFollowed) {
  const TemporaryFolder folder;
  const std::string name = "deep." + GetParam();
  const std::string head = GetParam() == "json" ? "" : "a: ";
  folder.write(name, head + std::string(100'000, '[') + std::string(100'000, ']'));
  const Ended ended = run({"plan", name}, small_catalog(folder));
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_EQ(ended.output, "");
  EXPECT_NE(ended.trouble.find("The document is nested deeper than 64 levels; accepted: lists and maps with fewer "
                               "levels\n"),
            std::string::npos)
      << ended.trouble;
}

INSTANTIATE_TEST_SUITE_P(Formats, Deep, testing::Values("yaml", "json"));

TEST(BadCatalog, AFolderThatIsNotThereIsRefused) {
  const TemporaryFolder folder;
  folder.write("job.yaml", small_job());
  const Ended ended = run({"plan", "job.yaml", "--catalog", "nowhere"}, small_catalog(folder));
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_EQ(ended.output, "");
  EXPECT_EQ(ended.trouble,
            "nowhere: The folder of the catalog could not be read; found \"nowhere\"; accepted: a folder with catalog "
            "files\n");
}

/// A quantity as a catalog names it, a value in its unit, and what is accepted instead of a unit of another one.
struct Quantity {
  std::string name, written, accepted;
};

const std::vector<Quantity> k_quantities = {{"length", "5 mm", "mm, cm, m, µm, nm, in or tpi, a unit of length"},
                                            {"angle", "5°", "° or deg, a unit of angle"},
                                            {"torque", "5 N·m", "N·m, a unit of torque"},
                                            {"force", "5 N", "N or kN, a unit of force"},
                                            {"mass", "5 g", "g, kg or mg, a unit of mass"},
                                            {"pressure", "5 bar", "bar, kPa, MPa, Pa or psi, a unit of pressure"},
                                            {"duration", "5 min", "s, min or h, a unit of duration"},
                                            {"count", "5", "no unit: a count is a bare number"}};

TEST(BadValue, EveryUnitWhereAnotherIsMeantIsSaidInTheDocumentAndInTheTable) {
  const TemporaryFolder folder;
  const Surroundings here = small_catalog(folder);
  for (const Quantity& meant : k_quantities) {
    const std::string least = edited(meant.written, "5", "0"), most = edited(meant.written, "5", "9");
    folder.write("extra/kind.yaml",
                 "cotter: interface_kinds 1\nkinds:\n  - id: thing\n    label: thing\n    about: One "
                 "number.\n    dimensions:\n      number: {is: " +
                     meant.name + ", label: number, from: " + least + ", to: " + most + "}\n");
    for (const Quantity& written : k_quantities) {
      folder.write("parts.yaml",
                   "cotter: parts 1\nparts:\n  - {id: one, label: one, family: one, interfaces: {it: {kind: "
                   "thing, number: " +
                       written.written + "}}}\n");
      folder.write("parts.csv",
                   "part,label,family,interface,kind,number\none,one,one,it,thing," + written.written + "\n");
      const Ended document = run({"--catalog", "extra", "check", "parts.yaml"}, here);
      const Ended table = run({"--catalog", "extra", "import", "parts.csv", "--check"}, here);
      if (written.name == meant.name) {
        EXPECT_EQ(document.exit_code, 0) << document.trouble;
        EXPECT_EQ(table.exit_code, 0) << table.trouble;
        continue;
      }
      const bool bare = written.name == "count";
      const std::string said =
          std::string(bare ? "The value has no unit" : "The unit is one of another kind of quantity") + "; found \"" +
          written.written +
          "\"; accepted: " + (bare ? meant.accepted.substr(0, meant.accepted.find(", a unit of")) : meant.accepted);
      // A torque without its metre is the slip that is nearest.
      const bool near = meant.name == "torque" && written.name == "force";
      const std::string mend = near ? "; did you mean \"N·m\"?" : "";
      EXPECT_EQ(document.exit_code, 2);
      EXPECT_EQ(document.trouble, "parts.yaml:3:79: parts[0].interfaces.it.number: " + said + mend + "\n");
      EXPECT_EQ(table.exit_code, 2);
      EXPECT_EQ(table.trouble, "parts.csv:2:22: row 2, column F (number): " + said + mend + "\n");
    }
  }
}

TEST(BadValue, ContradictoryDeviationsAreSaidWithTheirMend) {
  const std::vector<std::pair<std::string, std::string>> rows = {
      {"68.0 +0.1/+0.2 mm", "the upper deviation first, then the lower one; did you mean \"+0.2/+0.1\"?"},
      {"68.0 -0.2/+0.1 mm", "the upper deviation first, then the lower one; did you mean \"+0.1/-0.2\"?"},
      {"68.2..67.8 mm", "the smaller limit first, then the larger one; did you mean \"67.8..68.2\"?"}};
  for (const auto& [written, mend] : rows) {
    const TemporaryFolder folder;
    folder.write("job.yaml", edited(small_job(), "68.0 ±0.1 mm", written));
    const Ended ended = run({"plan", "job.yaml"}, small_catalog(folder));
    EXPECT_EQ(ended.exit_code, 2);
    EXPECT_EQ(
        ended.trouble,
        "job.yaml:11:57: parts[0].interfaces.shell.width: The deviations cannot be read, or the lower one is above "
        "the upper one; found \"" +
            written + "\"; accepted: " + mend + "\n");
  }
}

}  // namespace
}  // namespace cotter::cli
