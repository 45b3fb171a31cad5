// The pivot of a sprung frame: what turns, about what, how far.
#include "read_support.hpp"

namespace cotter::document {
namespace {

using Lines = std::vector<std::string>;

/// The small job with a pivot on its frame.
const std::string k_sprung_job = changed(
    k_job_text, "    passages:\n",
    "    pivots: [{id: main, label: main pivot, cells: [down_tube], points: [rear_axle], at: {x: -12.5 mm, y: 45 mm}, "
    "from: -2°, to: 18°}]\n    passages:\n");

Lines said(const std::string& from, const std::string& to) {
  const auto job = read_job_text(changed(k_sprung_job, from, to), small_catalog());
  return job ? Lines{} : lines_of(job.error());
}

TEST(ReadPivots, KeepsWhatTheFrameSays) {
  const auto job = read_job_text(k_sprung_job, small_catalog());
  ASSERT_TRUE(job) << lines_of(job.error()).front();
  const model::Pivot& pivot = job->sheet.parts.at(0).pivots.at(0);
  EXPECT_EQ(pivot.id, "main");
  EXPECT_EQ(pivot.label, "main pivot");
  EXPECT_EQ(pivot.cells, (Lines{"down_tube"}));
  EXPECT_EQ(pivot.points, (Lines{"rear_axle"}));
  EXPECT_EQ(pivot.x.nominal, -12'500'000);
  EXPECT_EQ(pivot.y.nominal, 45'000'000);
  EXPECT_EQ(pivot.from.nominal, -2'000'000);
  EXPECT_EQ(pivot.to.nominal, 18'000'000);
  EXPECT_EQ(pivot.to.origin.kind, quantity::OriginKind::maker);  // the part has a paper
}

TEST(ReadPivots, ItsCellsAreThoseOfThePart) {
  EXPECT_EQ(said("cells: [down_tube]", "cells: [down_tub]"),
            (Lines{"job.yaml:22:52: parts[0].pivots[0].cells[0]: There is no cell of this name; found \"down_tub\"; "
                   "accepted: down_tube, head_tube; did you mean \"down_tube\"?"}));
}

TEST(ReadPivots, TheFrameAsDrawnLiesInItsTravel) {
  EXPECT_EQ(said("from: -2°", "from: 2°"),
            (Lines{"job.yaml:22:120: parts[0].pivots[0].from: The travel does not hold the frame as drawn, which is "
                   "0°; found \"2°\"; accepted: an angle from -180° to 0°"}));
  EXPECT_EQ(said("to: 18°", "to: -1°"),
            (Lines{"job.yaml:22:129: parts[0].pivots[0].to: The travel does not hold the frame as drawn, which is 0°; "
                   "found \"-1°\"; accepted: an angle from 0° to 180°"}));
}

// A likely number in place of an unknown one would decide how long a brake hose is.
TEST(ReadPivots, NothingOfItMayBeUnknown) {
  EXPECT_EQ(said("y: 45 mm", "y: \"?\""),
            (Lines{"job.yaml:22:106: parts[0].pivots[0].at.y: This value has to be known; only a dimension of an "
                   "interface may be `?`; found \"?\"; accepted: a value, marked as assumed where it is: `{value: 45 "
                   "mm, assumed: \"why\"}`"}));
}

TEST(ReadPivots, OneAtMostAndOnAFrame) {
  EXPECT_FALSE(said("to: 18°}]",
                    "to: 18°}, {id: link, label: link, cells: [head_tube], at: {x: 0 mm, y: 0 mm}, from: "
                    "0°, to: 1°}]")
                   .empty());
  EXPECT_FALSE(said("family: frame\n", "family: fork\n").empty());
}

}  // namespace
}  // namespace cotter::document
