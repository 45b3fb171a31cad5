// The same bytes whatever surrounds the program; and what the terminal's width, NO_COLOR and TERM may change.
#include <algorithm>
#include <gtest/gtest.h>

#include "program.hpp"

namespace cotter::cli {
namespace {

const std::string k_job = (std::filesystem::path(COTTER_SOURCE_DIR) / "examples/all_road.yaml").string();
const std::vector<std::vector<std::string>> k_commands = {
    {"plan", k_job}, {"plan", k_job, "--json"}, {"draw", k_job}, {"why", k_job, "hanger_plane"}, {"schema", "job"}};

/// Locales that are installed here, beside the ones every system has.
std::vector<std::string> locales() {
  std::vector<std::string> names{"C", "POSIX", "C.UTF-8", "de_DE.UTF-8", "tr_TR.UTF-8"};
  for (const std::string& line : lines_of(run_program("/usr/bin/locale", {"-a"}).output)) names.push_back(line);
  return names;
}

void expect_same_bytes(const Surroundings& surroundings, const std::string& what) {
  for (const auto& command : k_commands) {
    const Ended plain = run(command), other = run(command, surroundings);
    EXPECT_EQ(other.exit_code, plain.exit_code) << what;
    EXPECT_EQ(other.trouble, plain.trouble) << what;
    EXPECT_TRUE(other.output == plain.output) << what << " changes the output of " << command[0];
  }
}

TEST(Surroundings, NoLocaleChangesAByte) {
  for (const std::string& locale : locales())
    expect_same_bytes({{{"LC_ALL", locale}, {"LANG", locale}, {"LC_NUMERIC", locale}}}, locale);
}

TEST(Surroundings, NoTimeZoneChangesAByte) {
  for (const char* zone : {"Asia/Tokyo", "America/St_Johns", "UTC"}) expect_same_bytes({{{"TZ", zone}}}, zone);
}

TEST(Surroundings, NoWorkingFolderChangesAByte) {
  const TemporaryFolder folder;
  Surroundings elsewhere;
  elsewhere.folder = folder.path();
  expect_same_bytes(elsewhere, "another folder");
  EXPECT_TRUE(folder.names().empty());
}

TEST(Surroundings, ThePlanIsTheSameByItsNameFromItsFolder) {
  Surroundings beside;
  beside.folder = std::filesystem::path(COTTER_SOURCE_DIR) / "examples";
  EXPECT_TRUE(run({"plan", "all_road.yaml"}, beside).output == run({"plan", k_job}).output);
}

TEST(Surroundings, ACatalogOfTheEnvironmentTakesThePlaceOfTheShippedOne) {
  const TemporaryFolder empty;
  const Ended ended = run({"plan", k_job}, {{{"COTTER_CATALOG", empty.path().string()}}});
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_NE(ended.trouble.find("There is no bicycle template of this name"), std::string::npos) << ended.trouble;
}

TEST(Terminal, NoEscapeCodeInAFileOrPipeWhateverTermSays) {
  for (const char* term : {"xterm-256color", "dumb", ""})
    for (const auto& command : k_commands)
      EXPECT_EQ(run(command, {{{"TERM", term}}}).output.find('\033'), std::string::npos) << term << " " << command[0];
}

/// Run under `script`, which gives the program a terminal.
std::string on_a_terminal(const std::map<std::string, std::string>& environment) {
  Surroundings surroundings;
  surroundings.environment = environment;
  return run_program("/usr/bin/script", {"-q", "-e", "-c", std::string(COTTER_PROGRAM) + " plan " + k_job, "/dev/null"},
                     surroundings)
      .output;
}

TEST(Terminal, HeadsAreBoldOnATerminalUnlessNoColorIsSetOrItIsDumb) {
  if (!std::filesystem::exists("/usr/bin/script")) GTEST_SKIP() << "skipped: no program `script` here";
  EXPECT_NE(on_a_terminal({{"TERM", "xterm"}}).find("\033[1mFindings\033[0m"), std::string::npos);
  EXPECT_EQ(on_a_terminal({{"TERM", "xterm"}, {"NO_COLOR", "1"}}).find('\033'), std::string::npos);
  EXPECT_EQ(on_a_terminal({{"TERM", "dumb"}}).find('\033'), std::string::npos);
  EXPECT_NE(on_a_terminal({{"TERM", "xterm"}, {"NO_COLOR", ""}}).find('\033'), std::string::npos);
}

/// Characters of UTF-8 text; the plans of the examples hold no wide ones.
int columns(const std::string& line) {
  return static_cast<int>(
      std::count_if(line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

class Width : public testing::TestWithParam<int> {};

TEST_P(Width, NoLineOfProseIsWiderThanTheColumnsSet) {
  const Ended ended = run({"plan", k_job}, {{{"COLUMNS", std::to_string(GetParam())}}});
  std::string head;
  for (const std::string& line : lines_of(ended.output)) {
    if (!line.empty() && line[0] != ' ') head = line;
    const bool table = head == "Parts" || head == "Openings";
    const bool one_word = line.find(' ', line.find_first_not_of(' ')) == std::string::npos;
    EXPECT_TRUE(table || one_word || columns(line) <= GetParam()) << line;
  }
}

INSTANTIATE_TEST_SUITE_P(Columns, Width, testing::Values(60, 80, 120));

TEST(Terminal, AColumnsThatIsNoNumberIsPassedOver) {
  const std::string plain = run({"plan", k_job}).output;
  EXPECT_TRUE(run({"plan", k_job}, {{{"COLUMNS", "wide"}}}).output == plain);
  EXPECT_TRUE(run({"plan", k_job}, {{{"COLUMNS", ""}}}).output == plain);
  EXPECT_TRUE(run({"plan", k_job}, {{{"COLUMNS", "100"}}}).output == plain);
  EXPECT_TRUE(run({"plan", k_job}, {{{"COLUMNS", "1"}}}).output == run({"plan", k_job}, {{{"COLUMNS", "40"}}}).output);
  EXPECT_TRUE(run({"plan", k_job}, {{{"COLUMNS", "99999999999"}}}).exit_code == 0);
}

}  // namespace
}  // namespace cotter::cli
