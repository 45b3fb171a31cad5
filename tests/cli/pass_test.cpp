// `cotter accept` from outside: what a mechanic may pass is passed and undone, what is guarded stays as it is whatever
// is written into job, journal, catalog or command. The catalog is that of tests/cli/data: its one rule guards an axle.
#include <array>
#include <gtest/gtest.h>
#include <regex>
#include <thread>

#include "program.hpp"

namespace cotter::cli {
namespace {

const std::string k_finding = "cup_in_shell@frame.shell,bracket.cup";
const std::string k_data = COTTER_SOURCE_DIR "/tests/cli/data/";

enum class Guarded { no, yes };

/// A folder with the small catalog and a job whose cup is 0.5 mm too large for its shell.
class Workshop {
 public:
  explicit Workshop(Guarded guarded) {
    for (const char* file : {"bicycle", "parts", "work"})
      folder_.write("catalog/" + std::string(file) + ".yaml", text_of(k_data + "catalog/" + file + ".yaml"));
    std::string kinds = text_of(k_data + "catalog/kinds.yaml");
    if (guarded == Guarded::no)
      kinds = edited(edited(kinds, "guards: axle", "guards: nothing"), "may_pass: maker", "may_pass: mechanic");
    folder_.write("catalog/kinds.yaml", kinds);
    folder_.write("job.yaml", edited(text_of(k_data + "job.yaml"), "bore: 46.00 ±0.01 mm", "bore: 45.50 ±0.01 mm"));
    here_.environment = {{"COLUMNS", "160"}, {"COTTER_CATALOG", (folder_.path() / "catalog").string()}};
    here_.folder = folder_.path();
  }

  Ended operator()(const std::vector<std::string>& arguments) const { return run(arguments, here_); }
  void write(const std::string& name, const std::string& text) const { folder_.write(name, text); }
  std::string text(const std::string& name) const { return text_of(folder_.path() / name); }
  bool has(const std::string& name) const { return std::filesystem::exists(folder_.path() / name); }
  Ended sign() const {
    return (*this)({"accept", "job.yaml", k_finding, "--by", "A. Builder", "--reason", "a press of our own"});
  }

 private:
  TemporaryFolder folder_;
  Surroundings here_;
};

TEST(Accept, PassesALimitThatAMechanicMayPass) {
  const Workshop shop(Guarded::no);
  ASSERT_EQ(shop({"plan", "job.yaml"}).exit_code, 1);
  const Ended ended = shop.sign();
  EXPECT_EQ(ended.exit_code, 0) << ended.trouble;
  EXPECT_EQ(ended.trouble, "");
  // By hand: 45.50 - 46.05 = -0.55, both ±0.01: -0.57 at worst, 0.47 below -0.10.
  const std::regex entry(
      R"(\{"id":"accept-1","revision":0,"kind":"accept","by":"A. Builder","when":"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ",)"
      R"("target":"cup_in_shell@frame.shell,bracket.cup","value":"-0.47 mm","passes":"below",)"
      R"("note":"a press of our own"\}\n)");
  const std::string written = shop.text("job.journal.jsonl");
  EXPECT_TRUE(std::regex_match(written, entry)) << written;
  const Ended plan = shop({"plan", "job.yaml"});
  EXPECT_EQ(plan.exit_code, 0);
  EXPECT_NE(plan.output.find("accept   right cup: cup in shell [0.47 mm too tight]"), std::string::npos) << plan.output;
  EXPECT_NE(plan.output.find("Outside its limit, which says stop; passed by A. Builder, 20"), std::string::npos);
  EXPECT_NE(plan.output.find(": a press of our own."), std::string::npos);
}

TEST(Accept, AnUndoneAcceptanceIsNone) {
  const Workshop shop(Guarded::no);
  ASSERT_EQ(shop.sign().exit_code, 0);
  const std::string journal = shop.text("job.journal.jsonl");
  shop.write("job.journal.jsonl", journal + R"({"id": "u", "revision": 1, "kind": "undo", "by": "A. Builder", "when": )"
                                            R"("2026-05-03T09:12:00Z", "target": "accept-1"})"
                                            "\n");
  EXPECT_EQ(shop({"plan", "job.yaml"}).exit_code, 1);
}

TEST(Accept, IsAskedAgainWhenTheMarginGetsWorseOrTheOtherEndIsMissed) {
  const Workshop shop(Guarded::no);
  ASSERT_EQ(shop.sign().exit_code, 0);
  const std::string job = shop.text("job.yaml");
  for (const auto& [bore, exit_code] :
       std::map<std::string, int>{{"45.51", 0}, {"45.49", 1}, {"46.10", 1}, {"46.00", 0}}) {
    shop.write("job.yaml", edited(job, "45.50 ±", bore + " ±"));
    EXPECT_EQ(shop({"plan", "job.yaml"}).exit_code, exit_code) << bore;
  }
}

TEST(Accept, WritesBehindATornLineAndALineWithoutItsEnd) {
  const std::string fact =
      R"({"id": "f", "revision": 0, "kind": "fact", "by": "A. Builder", "when": "2026-05-03T09:12:00Z", "target": "x"})";
  for (const std::string& before : {fact + "\n{\"id\": \"torn", fact}) {
    const Workshop shop(Guarded::no);
    shop.write("job.journal.jsonl", before);
    EXPECT_EQ(shop.sign().exit_code, 0);
    const auto lines = lines_of(shop.text("job.journal.jsonl"));
    ASSERT_EQ(lines.size(), 2u);
    EXPECT_EQ(lines[0], fact);
    EXPECT_TRUE(lines[1].starts_with("{\"id\":\"accept-2\"")) << lines[1];
    EXPECT_EQ(shop({"plan", "job.yaml"}).trouble, "");
  }
}

TEST(Accept, TwoAtOnceWriteOneEntry) {
  const Workshop shop(Guarded::no);
  std::vector<Ended> ended(4);
  std::vector<std::thread> writers;
  for (Ended& one : ended) writers.emplace_back([&] { one = shop.sign(); });
  for (std::thread& writer : writers) writer.join();
  int done = 0;
  for (const Ended& one : ended) done += one.exit_code == 0;
  EXPECT_EQ(done, 1);
  EXPECT_EQ(lines_of(shop.text("job.journal.jsonl")).size(), 1u);
}

struct Refusal {
  std::string finding, by, reason, trouble;
};

TEST(Accept, SaysWhyNotAndWritesNothing) {
  const std::vector<Refusal> refusals = {
      {k_finding, "", "why", "An acceptance needs the name of the person who signs: --by NAME.\n"},
      {k_finding, " \t", "why", "An acceptance needs the name of the person who signs: --by NAME.\n"},
      {k_finding, "A. Builder", " ", "An acceptance needs a written reason: --reason TEXT.\n"},
      {"cup_in_shell@frame.shell,braket.cup", "A. Builder", "why",
       "No finding begins with \"cup_in_shell@frame.shell,braket.cup\". Did you mean \"" + k_finding +
           "\"? The plan prints the name of each finding below it.\n"},
      {"cup_in_shell", "A. Builder", "why",
       "An acceptance needs the whole name of the finding, not the beginning \"cup_in_shell\": " + k_finding + "\n"}};
  const Workshop shop(Guarded::no);
  for (const Refusal& refusal : refusals) {
    const Ended ended = shop({"accept", "job.yaml", refusal.finding, "--by", refusal.by, "--reason", refusal.reason});
    EXPECT_EQ(ended.exit_code, 2);
    EXPECT_EQ(ended.output, "");
    EXPECT_EQ(ended.trouble, refusal.trouble);
    EXPECT_FALSE(shop.has("job.journal.jsonl"));
  }
  EXPECT_EQ(shop({"accept", "job.yaml", k_finding}).exit_code, 64);
  ASSERT_EQ(shop.sign().exit_code, 0);
  EXPECT_EQ(shop.sign().trouble,
            k_finding +
                " says accept; nothing was written. A. Builder has signed for it already: a press of our "
                "own.\n");
}

/// The last line of a plan tells which job it is of, which every attempt changes.
std::string without_hashes(const std::string& plan) {
  return plan.substr(0, plan.find("\nMade by "));
}

/// A guarded stop: exit code, words and verdict before anything is tried.
class GuardedStop : public testing::Test {
 protected:
  GuardedStop() : shop(Guarded::yes), plain(shop({"plan", "job.yaml"})) {
    EXPECT_EQ(plain.exit_code, 1);
    EXPECT_NE(plain.output.find("  1  stop     right cup: cup in shell [0.47 mm too tight]"), std::string::npos);
  }

  void expect_unmoved(const std::string& attempt) const {
    const Ended now = shop({"plan", "job.yaml"});
    EXPECT_EQ(now.exit_code, 1) << attempt;
    EXPECT_EQ(without_hashes(now.output), without_hashes(plain.output)) << attempt;
    EXPECT_EQ(shop({"why", "job.yaml", "cup_in_shell"}).exit_code, 1) << attempt;
  }

  Workshop shop;
  Ended plain;
};

TEST_F(GuardedStop, StaysForEveryFlagOfTheCommand) {
  const std::string no = k_finding +
                         " says stop; nothing was written. It protects the hold of a wheel: nobody can sign for "
                         "that, with any reason.\n";
  const std::vector<std::vector<std::string>> ways = {
      {"accept", "job.yaml", k_finding, "--by", "A. Builder", "--reason", "the maker said so"},
      {"--catalog", "catalog", "accept", "job.yaml", k_finding, "--by", "A", "--reason", "r"},
      {"accept", "--reason", "r", "--by", "the maker", "job.yaml", k_finding}};
  EXPECT_EQ(shop(ways[0]).trouble, no);
  for (const auto& way : ways) {
    EXPECT_EQ(shop(way).exit_code, 2);
    EXPECT_FALSE(shop.has("job.journal.jsonl"));
  }
  for (const char* flag : {"--force", "--yes", "--may-pass=mechanic", "--margin=-9", "--passes=below", "-f"})
    EXPECT_EQ(shop({"accept", "job.yaml", k_finding, "--by", "A", "--reason", "r", flag}).exit_code, 64) << flag;
  expect_unmoved("command");
}

TEST_F(GuardedStop, StaysForEveryDecisionOfTheJob) {
  const std::string job = shop.text("job.yaml");
  for (const char* margin : {"", ", margin: -900 m", ", margin: 0 mm", ", margin: 900 m", ", margin: -1 nm"})
    for (const char* passes : {"", ", passes: below", ", passes: above"}) {
      const std::string decision = "  - {finding: \"" + k_finding +
                                   "\", by: A. Builder, on: 2026-05-02, reason: it will do" + margin + passes + "}\n";
      shop.write("job.yaml", job + "decisions:\n" + decision + decision);
      expect_unmoved(decision);
    }
}

TEST_F(GuardedStop, StaysForEveryJournalEntryAlsoUnderAnOldName) {
  const std::string job = shop.text("job.yaml");
  for (const std::string& place : {std::string("frame"), std::string("before")})
    for (const char* kind : {"accept", "fact", "sign_off", "undo"})
      for (const char* passes : {"below", "above"}) {
        shop.write("job.yaml", job + "aliases: {before: once, once: frame}\n");
        const std::string entry = "{\"id\": \"1\", \"revision\": 0, \"kind\": \"" + std::string(kind) +
                                  "\", \"by\": \"A\", \"when\": \"2026-05-03T09:12:00Z\", \"target\": \"cup_in_shell@" +
                                  place + ".shell,bracket.cup\", \"value\": \"-900 m\", \"passes\": \"" + passes +
                                  "\", \"note\": \"it will do\"}\n";
        shop.write("job.journal.jsonl", entry);
        expect_unmoved(entry);
      }
}

TEST_F(GuardedStop, StaysUnderARenamedPlace) {
  const std::string job = shop.text("job.yaml");
  shop.write("job.yaml", edited(job, "  frame: {part: frame_here, at_hand: true}",
                                "  chassis: {is: frame, part: frame_here, at_hand: true}") +
                             "aliases: {frame: chassis}\ndecisions:\n  - {finding: \"" + k_finding +
                             "\", by: A, on: 2026-05-02, reason: r, margin: -900 m, passes: below}\n");
  const Ended now = shop({"plan", "job.yaml"});
  EXPECT_EQ(now.exit_code, 1);
  EXPECT_NE(now.output.find("  1  stop     right cup: cup in shell [0.47 mm too tight]"), std::string::npos);
}

TEST_F(GuardedStop, CannotBeOpenedByACatalog) {
  const std::string kinds = text_of(k_data + "catalog/kinds.yaml");
  shop.write("extra.yaml", edited(kinds, "may_pass: maker", "may_pass: mechanic"));
  const Ended twice = shop({"--catalog", "extra.yaml", "plan", "job.yaml"});
  EXPECT_EQ(twice.exit_code, 2);
  EXPECT_EQ(twice.output, "");
  EXPECT_NE(twice.trouble.find("extra.yaml:21:23: kinds[0].meets[0].rules[0].may_pass: A limit that guards `axle` may "
                               "not be passed by a mechanic; found \"mechanic\"; accepted: nobody or maker\n"),
            std::string::npos)
      << twice.trouble;
  // The same ids again, unguarded: an id that is there already is refused.
  shop.write("extra.yaml",
             edited(edited(kinds, "guards: axle", "guards: nothing"), "may_pass: maker", "may_pass: mechanic"));
  EXPECT_EQ(shop({"--catalog", "extra.yaml", "plan", "job.yaml"}).exit_code, 2);
  shop.write("nothing/readme.txt", "");
  expect_unmoved("before the empty catalog");
  EXPECT_EQ(shop({"--catalog", "nothing", "plan", "job.yaml"}).output, plain.output);
}

TEST(GuardedCatalog, AnEmptyOneInItsPlacePlansNothing) {
  const TemporaryFolder folder;
  folder.write("job.yaml", text_of(k_data + "job.yaml"));
  folder.write("nothing/readme.txt", "");
  Surroundings here;
  here.folder = folder.path();
  here.environment = {{"COTTER_CATALOG", (folder.path() / "nothing").string()}};
  for (const auto& command : std::vector<std::vector<std::string>>{
           {"plan", "job.yaml"}, {"accept", "job.yaml", k_finding, "--by", "A", "--reason", "r"}}) {
    const Ended ended = run(command, here);
    EXPECT_EQ(ended.exit_code, 2);
    EXPECT_EQ(ended.output, "");
  }
  EXPECT_EQ(folder.names(), (std::vector<std::string>{"job.yaml", "nothing"}));
}

TEST_F(GuardedStop, StaysForAPartOfTheJobUnderAnyName) {
  // A part written in the job cannot bring a rule of its own, and cannot stand for one of the catalog.
  const std::string job = shop.text("job.yaml");
  shop.write("job.yaml",
             edited(edited(job, "places:\n",
                           "  - {id: bracket_here, label: bracket, family: bracket, paper: ours, interfaces: "
                           "{cup: {kind: cup, outside: 46.05 ±0.01 mm}}}\nplaces:\n"),
                    "bracket: bracket_46", "bracket: bracket_here"));
  const Ended ended = shop({"accept", "job.yaml", k_finding, "--by", "A", "--reason", "r"});
  EXPECT_EQ(ended.exit_code, 2);
  EXPECT_NE(ended.trouble.find("nobody can sign for that"), std::string::npos);
  EXPECT_EQ(shop({"plan", "job.yaml"}).exit_code, 1);
  shop.write("job.yaml",
             edited(job, "frame: {part: frame_here, at_hand: true}", "frame: {part: frame_here, may_pass: mechanic}"));
  EXPECT_EQ(shop({"plan", "job.yaml"}).exit_code, 2);
}

/// A paper of the frame's maker that allows a play down to `least`.
std::string paper(const std::string& least, const std::string& part = "frame_here") {
  return "papers:\n  - {id: press_paper, finding: \"" + k_finding + "\", part: " + part +
         ", written_by: maker of the frame, document: frame manual, page: page 7, on: 2025-11-03, limit: {from: " +
         least + "}, signed: {by: A. Builder, on: 2026-05-02}}\n";
}

TEST_F(GuardedStop, PassesByTheMakersPaperOnlyAndIsSignedFor) {
  const std::string job = shop.text("job.yaml");
  shop.write("job.yaml", job + paper("-0.57 mm"));
  const Ended now = shop({"plan", "job.yaml"});
  EXPECT_EQ(now.exit_code, 0) << now.trouble;
  EXPECT_NE(now.output.find("accept   right cup: cup in shell [0.47 mm too tight]"), std::string::npos) << now.output;
  const Ended why = shop({"why", "job.yaml", "cup_in_shell"});
  EXPECT_NE(why.output.find("The usual limit says stop; the maker of the frame allows from -0.57 to -0.01 mm: frame "
                            "manual, page 7, 2025-11-03."),
            std::string::npos)
      << why.output;
  EXPECT_NE(why.output.find("signed for by A. Builder,"), std::string::npos) << why.output;
  EXPECT_EQ(shop.sign().trouble, k_finding +
                                     " says accept; nothing was written. A. Builder has signed for it already: frame "
                                     "manual, page 7.\n");
  EXPECT_FALSE(shop.has("job.journal.jsonl"));
}

TEST_F(GuardedStop, StaysForAPaperThatDoesNotReachOrIsForAnotherPart) {
  const std::string job = shop.text("job.yaml");
  for (const std::string& useless : {paper("-0.56 mm"), paper("3 N·m"), paper("-9 mm", "saddle_7")}) {
    shop.write("job.yaml", job + useless);
    const Ended now = shop({"plan", "job.yaml"});
    EXPECT_EQ(now.exit_code, 1) << useless;
    EXPECT_NE(now.output.find("  1  stop     right cup: cup in shell [0.47 mm too tight]"), std::string::npos);
    EXPECT_NE(now.output.find("The paper press_paper changes nothing: "), std::string::npos) << now.output;
  }
}

TEST_F(GuardedStop, APaperThatProvesNothingIsBadInput) {
  const std::string job = shop.text("job.yaml");
  for (const auto& [field, with, said] : std::vector<std::array<std::string, 3>>{
           {"document: frame manual", "document: \" \"", "A paper without this proves nothing;"},
           {"on: 2025-11-03", "on: last year", "This is not a date;"},
           {"on: 2025-11-03", "on: 2025-13-03", "This is not a date;"},
           {"limit: {from: -9 mm}", "limit: {}", "A limit has at least one end;"},
           {"part: frame_here", "part: frame_her", "did you mean \"frame_here\"?"},
           {"cup_in_shell@", "cup_in_shel@", "did you mean \"cup_in_shell@\"?"},
           {"page: page 7, ", "", "page"},
           {"written_by: maker of the frame, ", "", "written_by"},
           {", signed: {by: A. Builder, on: 2026-05-02}", "", "signed"}}) {
    shop.write("job.yaml", job + edited(paper("-9 mm"), field, with));
    const Ended now = shop({"plan", "job.yaml"});
    EXPECT_EQ(now.exit_code, 2) << field;
    EXPECT_EQ(now.output, "") << field;
    EXPECT_NE(now.trouble.find(said), std::string::npos) << now.trouble;
    EXPECT_NE(now.trouble.find("job.yaml:"), std::string::npos) << now.trouble;
  }
}

}  // namespace
}  // namespace cotter::cli
