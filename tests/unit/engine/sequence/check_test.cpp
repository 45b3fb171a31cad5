// The checker itself, on orders that are wrong on purpose.

#include "engine/sequence/check.hpp"

#include <gtest/gtest.h>

#include "build.hpp"

namespace cotter::engine::sequence {
namespace {

using Kind = Violation::Kind;

Problem shell() {
  Problem problem;
  problem.accesses = {{"left", true}, {"right", true}};
  problem.operations = {{.id = "cups", .closes = {"left", "right"}},
                        {.id = "wire", .after = {"cut"}, .needs_open = {{"left", "right"}}},
                        {.id = "cut"}};
  return problem;
}

TEST(SequenceCheck, LegalOrderHasNone) {
  EXPECT_TRUE(violations(shell(), {2, 1, 0}).empty());
}

TEST(SequenceCheck, TooEarly) {
  EXPECT_EQ(violations(shell(), {1, 2, 0}), (std::vector<Violation>{{Kind::too_early, 1, "cut"}}));
}

TEST(SequenceCheck, AccessClosed) {
  EXPECT_EQ(violations(shell(), {2, 0, 1}), (std::vector<Violation>{{Kind::access_closed, 1, "left|right"}}));
}

TEST(SequenceCheck, TwiceMissingAndNotAnOperation) {
  EXPECT_EQ(violations(shell(), {2, 2, 7, 1}),
            (std::vector<Violation>{{Kind::twice, 2}, {Kind::not_an_operation, 7}, {Kind::missing, 0}}));
}

}  // namespace
}  // namespace cotter::engine::sequence
