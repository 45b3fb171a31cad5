// The one way in: outcomes, what is said beside a result that stands, and the journal that lies beside a job.
#include "session/session.hpp"

#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>

#include "document/parse.hpp"
#include "document/write_plan.hpp"
#include "examples.hpp"
#include "words/plan_words.hpp"

namespace cotter::session {
namespace {

Session shipped() {
  return Session({"0.0.0", {COTTER_SOURCE_DIR "/catalog"}});
}

std::string path_of(const std::string& name) {
  return COTTER_SOURCE_DIR "/examples/" + name + ".yaml";
}

/// A copy of the example in a folder of its own, so that a journal can lie beside it.
class Journal : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() / ("cotter_session_" + std::to_string(::getpid()) + "_" +
                                                        testing::UnitTest::GetInstance()->current_test_info()->name());
    std::filesystem::create_directories(folder_);
    std::filesystem::copy_file(path_of("all_road"), job());
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::string job() const { return (folder_ / "job.yaml").string(); }
  void write(const std::string& lines) const { std::ofstream(folder_ / "job.journal.jsonl") << lines; }
  std::string why(const std::string& finding) const { return shipped().why(job(), finding, {}).text; }

 private:
  std::filesystem::path folder_;
};

const std::string k_depth =
    R"({"id": "b-1", "revision": 0, "kind": "value", "by": "A. Builder", "when": "2026-05-04T09:00:00Z", )"
    R"("target": "frame.seat_tube.free_depth", "value": {"value": "DEPTH mm", "measured": {"by": "A. Builder", )"
    R"("with": "depth_stick", "on": "2026-05-04"}}, "note": ""})"
    "\n";

std::string depth(const std::string& millimetres) {
  std::string line = k_depth;
  return line.replace(line.find("DEPTH"), 5, millimetres);
}

TEST_F(Journal, AValueMeasuredAtTheBenchSettlesTheFinding) {
  EXPECT_TRUE(why("seatpost.post_to_battery").starts_with("measure  "));
  write(depth("250 ±2"));
  EXPECT_TRUE(why("seatpost.post_to_battery").starts_with("ok  ")) << why("seatpost.post_to_battery");
  write(depth("150 ±2"));
  EXPECT_TRUE(why("seatpost.post_to_battery").starts_with("stop  ")) << why("seatpost.post_to_battery");
}

TEST_F(Journal, AnUndoBringsTheFindingBack) {
  write(depth("250 ±2") +
        R"({"id": "b-2", "revision": 1, "kind": "undo", "by": "A. Builder", "when": "2026-05-04T09:05:00Z", )"
        R"("target": "b-1", "note": ""})"
        "\n");
  EXPECT_TRUE(why("seatpost.post_to_battery").starts_with("measure  "));
}

TEST_F(Journal, ATornLastLineIsSetAsideAndReportedBesideThePlan) {
  write(depth("250 ±2") + depth("150 ±2").substr(0, 80));
  const Answer answer = shipped().plan(job(), {});
  EXPECT_EQ(answer.outcome, Outcome::done);
  EXPECT_NE(answer.text, "");
  EXPECT_NE(answer.trouble.find("job.journal.jsonl:2:"), std::string::npos) << answer.trouble;
  EXPECT_TRUE(why("seatpost.post_to_battery").starts_with("ok  "));
}

TEST_F(Journal, ALineInTheMiddleThatCannotBeReadIsAnError) {
  write(depth("150 ±2").substr(0, 80) + "\n" + depth("250 ±2"));
  const Answer answer = shipped().plan(job(), {});
  EXPECT_EQ(answer.outcome, Outcome::bad_input);
  EXPECT_EQ(answer.text, "");
  EXPECT_NE(answer.trouble, "");
}

TEST_F(Journal, TheHashOfTheJobHoldsItsJournal) {
  const std::string before = shipped().plan(job(), {Form::json}).text;
  write(depth("250 ±2"));
  const auto hash = [](const std::string& text) { return text.substr(text.find("job_hash"), 80); };
  EXPECT_NE(hash(shipped().plan(job(), {Form::json}).text), hash(before));
}

TEST(Session, OutcomesAreDoneStoppedAndBadInput) {
  EXPECT_EQ(shipped().plan(path_of("all_road"), {}).outcome, Outcome::done);
  EXPECT_EQ(shipped().plan(path_of("all_road_hose_end"), {}).outcome, Outcome::stopped);
  EXPECT_EQ(shipped().draw(path_of("all_road_short_spindle")).outcome, Outcome::stopped);
  const Answer bad = shipped().plan(path_of("no_such_job"), {});
  EXPECT_EQ(bad.outcome, Outcome::bad_input);
  EXPECT_EQ(bad.text, "");
}

TEST(Session, ASheetCarriesPlanDrawingAndCautionsTogether) {
  const Sheet sheet = shipped().sheet(path_of("all_road"));
  EXPECT_EQ(sheet.outcome, Outcome::done);
  EXPECT_EQ(sheet.plan, shipped().plan(path_of("all_road"), {}).text);
  EXPECT_EQ(sheet.json, shipped().plan(path_of("all_road"), {Form::json}).text);
  EXPECT_EQ(sheet.drawing, shipped().draw(path_of("all_road")).text);
  EXPECT_EQ(sheet.cautions, words::cautions());
  EXPECT_EQ(sheet.title, "All-road, composite, 56");
}

TEST(Session, ASheetOfAJobThatCannotBeReadStillCarriesTheCautions) {
  const Sheet sheet = shipped().sheet(path_of("no_such_job"));
  EXPECT_EQ(sheet.outcome, Outcome::bad_input);
  EXPECT_EQ(sheet.drawing, "");
  EXPECT_EQ(sheet.plan, "");
  EXPECT_NE(sheet.trouble, "");
  EXPECT_FALSE(sheet.cautions.empty());
}

TEST(Session, AMeasurementIsWrittenInTheDimensionOfItsOwnValue) {
  // Went wrong: the ends for a number of bolts were written in millimetres, because a circle stood first.
  model::Finding finding;
  quantity::Value circle, bolts;
  bolts.dimension = quantity::Dimension::count;
  finding.values = {{"circle", "circle", "crank", model::ValueRef{"crank", "ring", "circle"}, circle},
                    {"count", "bolts", "crank", model::ValueRef{"crank", "ring", "bolts"}, bolts}};
  model::Measurement measurement;
  measurement.ref = {"crank", "ring", "bolts"};
  measurement.holds = quantity::Range(quantity::Mixed::from_base(5));
  finding.measurements = {measurement};
  const document::Node node = document::finding_node(finding);
  EXPECT_EQ(node.find("measurements")->items()[0].find("holds")->find("low_text")->scalar(), "5");
}

TEST(Session, AnEmptyFindingNameShowsNothing) {
  const Answer answer = shipped().why(path_of("all_road"), "", {});
  EXPECT_EQ(answer.outcome, Outcome::bad_input);
  EXPECT_EQ(answer.text, "");
}

TEST(Session, TheBillAddsUpToItsRows) {
  std::int64_t price = 0, to_order = 0;
  const model::Plan plan = plan_of(example("all_road"));
  for (const model::BillRow& row : plan.bill) {
    if (!row.price) continue;
    price += row.price->hundredths;
    if (row.to_order) to_order += row.price->hundredths;
  }
  const auto money = [](std::int64_t hundredths) {
    const std::string cents = std::to_string(hundredths % 100);
    return std::to_string(hundredths / 100) + (cents.size() == 1 ? ".0" : ".") + cents + " EUR";
  };
  const std::string text = words::plan_text(plan);
  EXPECT_NE(text.find(", " + money(price) + "; still to order " + money(to_order) + "."), std::string::npos);
}

}  // namespace
}  // namespace cotter::session
