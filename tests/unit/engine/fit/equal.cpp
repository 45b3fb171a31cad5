// thread, equal_pattern and equal_family.

#include <gtest/gtest.h>

#include "checks.hpp"

namespace cotter::engine::fit {
namespace {

using namespace testing;

Check thread(std::int64_t internal, std::int64_t external, std::int64_t internal_pitch_nm,
             std::int64_t external_pitch_nm) {
  Check made = check(Law::thread,
                     {um("internal_major", internal), um("external_major", external),
                      base("internal_pitch", internal_pitch_nm, internal_pitch_nm, Dimension::length),
                      base("external_pitch", external_pitch_nm, external_pitch_nm, Dimension::length)},
                     um_window(-50, 250));
  made.words["hand"] = {"left", "left"};
  return made;
}

constexpr std::int64_t k_24_per_inch = 1'058'333;

TEST(Thread, SameMajorPitchAndHandFit) {
  const CheckResult result = judge(thread(34'900, 34'750, k_24_per_inch, k_24_per_inch + 1));
  EXPECT_EQ(result.must, Certainty::holds);
  EXPECT_EQ(result_um(result), std::pair(150L, 150L));
  EXPECT_TRUE(result.mismatches.empty());
}

TEST(Thread, AnotherPitchIsAMismatchWithBothValues) {
  const CheckResult result = judge(thread(34'900, 34'900, k_24_per_inch, 1'000'000));
  EXPECT_EQ(result.must, Certainty::fails);
  EXPECT_EQ(result.mismatches, (std::vector<Mismatch>{{"pitch", "1.058333 mm", "1 mm"}}));
  EXPECT_FALSE(result.too_low || result.too_high) << "the diameters would do";
}

TEST(Thread, PitchesMayDifferByFiveThousandths) {
  EXPECT_EQ(judge(thread(34'900, 34'900, 1'000'000, 1'005'000)).must, Certainty::holds);
  EXPECT_EQ(judge(thread(34'900, 34'900, 1'000'000, 1'005'001)).must, Certainty::fails);
}

TEST(Thread, AHundredthBeyondTheMajorWindowFails) {
  EXPECT_EQ(judge(thread(34'900, 34'650, k_24_per_inch, k_24_per_inch)).must, Certainty::holds);
  EXPECT_EQ(judge(thread(34'900, 34'640, k_24_per_inch, k_24_per_inch)).must, Certainty::fails);
  EXPECT_EQ(judge(thread(34'900, 34'960, k_24_per_inch, k_24_per_inch)).must, Certainty::fails);
}

TEST(Thread, TheOtherHandIsAMismatch) {
  Check crossed = thread(34'900, 34'900, k_24_per_inch, k_24_per_inch);
  crossed.words["hand"] = {"left", "right"};
  const CheckResult result = judge(crossed);
  EXPECT_EQ(result.must, Certainty::fails);
  EXPECT_EQ(result.mismatches, (std::vector<Mismatch>{{"hand", "left", "right"}}));
  EXPECT_EQ(result.margin, 50'000) << "the number itself is within its window";
}

TEST(Thread, AHandNobodyStatedLeavesItOpen) {
  Check unstated = thread(34'900, 34'900, k_24_per_inch, k_24_per_inch);
  unstated.words["hand"] = {"left", ""};
  const CheckResult result = judge(unstated);
  EXPECT_EQ(result.must, Certainty::open);
  EXPECT_EQ(result.unknown_words, std::vector<std::string>{"hand"});
}

TEST(Thread, APitchThatIsNotKnownLeavesItOpenAndNamesWhatWouldDo) {
  Check wide = thread(34'900, 34'900, 1'000'000, 1'000'000);
  wide.operands[3] = base("external_pitch", 900'000, 1'100'000, Dimension::length);
  const CheckResult result = judge(wide);
  EXPECT_EQ(result.must, Certainty::open);
  EXPECT_EQ(influence(result, "external_pitch").holds, Range(Mixed::from_base(995'000), Mixed::from_base(1'005'000)));
  EXPECT_EQ(influence(result, "internal_major").holds, std::nullopt) << "no major mends an unknown pitch";
}

TEST(EqualPattern, CirclesWithinTheWindowAndCountsTheSame) {
  const auto pattern = [](std::int64_t holes, std::int64_t circle) {
    return judge(check(Law::equal_pattern,
                       {count("count_a", 5), count("count_b", holes), um("circle_a", 110'000), um("circle_b", circle)},
                       um_window(-200, 200)));
  };
  EXPECT_EQ(pattern(5, 110'200).must, Certainty::holds);
  EXPECT_EQ(pattern(5, 110'210).must, Certainty::fails);
  EXPECT_EQ(pattern(5, 110'210).dimension, Dimension::length);
  EXPECT_EQ(pattern(4, 110'000).must, Certainty::fails);
  EXPECT_EQ(pattern(4, 110'000).mismatches, (std::vector<Mismatch>{{"count", "5", "4"}}));
}

TEST(EqualFamily, ComparesWordsOnlyAndHasNoNumber) {
  Check fluids = check(Law::equal_family, {});
  fluids.words["family"] = {"mineral_oil", "glycol_ether"};
  const CheckResult mixed = judge(fluids);
  EXPECT_EQ(mixed.must, Certainty::fails);
  EXPECT_EQ(mixed.result, std::nullopt);
  EXPECT_EQ(mixed.mismatches, (std::vector<Mismatch>{{"family", "mineral_oil", "glycol_ether"}}));
  fluids.words["family"].second = "mineral_oil";
  EXPECT_EQ(judge(fluids).must, Certainty::holds);
  fluids.words["family"].first = "";
  EXPECT_EQ(judge(fluids).must, Certainty::open);
}

}  // namespace
}  // namespace cotter::engine::fit
