// Papers of makers in a job: what is kept, and what proves nothing.
#include "read_support.hpp"

namespace cotter::document {
namespace {

const std::string k_paper =
    "papers:\n"
    "  - {id: letter, finding: \"cup_in_shell@frame.shell_right,bottom_bracket.cup_right\", part: frame_here, "
    "written_by: maker of the frame, document: letter, page: page 1, on: 2026-03-14, limit: {to: 0.05 mm}, "
    "signed: {by: A. Builder, on: 2026-05-02}}\n";

TEST(ReadPapers, KeepsAMakersPaper) {
  const auto job = read_job_text(k_job_text + k_paper);
  ASSERT_TRUE(job);
  ASSERT_EQ(job->sheet.papers.size(), 1u);
  const model::Paper& paper = job->sheet.papers[0];
  EXPECT_EQ(paper.id, "letter");
  EXPECT_EQ(paper.finding, "cup_in_shell@frame.shell_right,bottom_bracket.cup_right");
  EXPECT_EQ(paper.part, "frame_here");
  EXPECT_EQ(paper.written_by, "maker of the frame");
  EXPECT_EQ(paper.document + ", " + paper.page + ", " + paper.on, "letter, page 1, 2026-03-14");
  EXPECT_FALSE(paper.limit.from);
  EXPECT_EQ(paper.limit.to->nominal, 50'000);
  EXPECT_EQ(paper.signed_by + ", " + paper.signed_when, "A. Builder, 2026-05-02");
}

TEST(ReadPapers, APaperThatProvesNothingIsSaidInFull) {
  const auto said = [](const std::string& from, const std::string& to) {
    const auto read = read_job_text(k_job_text + changed(k_paper, from, to));
    return read ? std::vector<std::string>{} : lines_of(read.error());
  };
  EXPECT_EQ(
      said("written_by: maker of the frame", "written_by: \" \""),
      (std::vector<std::string>{"job.yaml:47:116: papers[0].written_by: A paper without this proves nothing; found "
                                "\" \"; accepted: the words that stand on the paper"}));
  EXPECT_EQ(said("on: 2026-03-14", "on: 14.3.2026"),
            (std::vector<std::string>{"job.yaml:47:172: papers[0].on: This is not a date; found \"14.3.2026\"; "
                                      "accepted: year, month and day, as `2026-05-02`"}));
  EXPECT_EQ(said("limit: {to: 0.05 mm}", "limit: {}"),
            (std::vector<std::string>{"job.yaml:47:191: papers[0].limit: A limit has at least one end; accepted: "
                                      "`from`, `to`, or both"}));
  EXPECT_EQ(said("cup_in_shell@", "cup_in_shel@"),
            (std::vector<std::string>{"job.yaml:47:27: papers[0].finding: This names no finding; found "
                                      "\"cup_in_shel@frame.shell_right,bottom_bra…\"; accepted: the name of "
                                      "a finding, as the plan prints it below each; did you mean \"cup_in_shell@\"?"}));
  EXPECT_EQ(said("part: frame_here", "part: frame_her"),
            (std::vector<std::string>{"job.yaml:47:92: papers[0].part: There is no part of this name; found "
                                      "\"frame_her\"; accepted: caliper, cups_46, hose_5, lever, saddle_plain, wire_2, "
                                      "frame_here; did you mean \"frame_here\"?"}));
}

}  // namespace
}  // namespace cotter::document
