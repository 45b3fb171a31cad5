#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "quantity/edit_distance.hpp"
#include "quantity/text.hpp"

namespace cotter::quantity {
namespace {

const std::vector<std::string> k_places{"crankset", "cassette", "seatpost", "saddle", "stem"};

TEST(NearestWord, finds_the_slip_of_the_finger) {
  EXPECT_EQ(nearest_word("crankst", k_places), "crankset");
  EXPECT_EQ(nearest_word("Seatpots", k_places), "seatpost");
  EXPECT_EQ(nearest_word("sadlle", k_places), "saddle");
  EXPECT_EQ(nearest_word("setm", k_places), "stem");
  EXPECT_EQ(nearest_word("stem", k_places), "stem");
}

TEST(NearestWord, stays_silent_when_nothing_is_near) {
  EXPECT_EQ(nearest_word("mudguard", k_places), std::nullopt);
  EXPECT_EQ(nearest_word("", k_places), std::nullopt);
  EXPECT_EQ(nearest_word("stem", {}), std::nullopt);
  EXPECT_EQ(nearest_word(std::string(101, 's'), {std::string(101, 's')}), std::nullopt);
  EXPECT_EQ(nearest_word("stem", {std::string(101, 's')}), std::nullopt);
}

TEST(NearestWord, a_third_of_the_letters_may_differ_but_no_more) {
  EXPECT_EQ(nearest_word("abcdxx", {"abcdef"}), "abcdef");
  EXPECT_EQ(nearest_word("abcxxx", {"abcdef"}), std::nullopt);
  EXPECT_EQ(nearest_word("bal", {"bar"}), "bar");
  EXPECT_EQ(nearest_word("br", {"cr"}), std::nullopt);
}

TEST(NearestWord, of_two_equally_near_takes_the_first) {
  EXPECT_EQ(nearest_word("bax", {"bar", "bat"}), "bar");
  EXPECT_EQ(nearest_word("bax", {"bat", "bar"}), "bat");
}

TEST(EditDistance, counts_each_kind_of_slip_once) {
  EXPECT_EQ(edit_distance("stem", "stem"), 0U);
  EXPECT_EQ(edit_distance("stm", "stem"), 1U);
  EXPECT_EQ(edit_distance("steem", "stem"), 1U);
  EXPECT_EQ(edit_distance("stam", "stem"), 1U);
  EXPECT_EQ(edit_distance("setm", "stem"), 1U);
  EXPECT_EQ(edit_distance("", "stem"), 4U);
  // Optimal string alignment touches no letter twice: 3, where a free edit script would need 2.
  EXPECT_EQ(edit_distance("ca", "abc"), 3U);
}

RC_GTEST_PROP(EditDistanceProperty, is_the_same_both_ways, (const std::string& a, const std::string& b)) {
  RC_ASSERT(edit_distance(a, b) == edit_distance(b, a));
  RC_ASSERT((edit_distance(a, b) == 0) == (a == b));
  RC_ASSERT(edit_distance(a, b) <= std::max(a.size(), b.size()));
}

}  // namespace
}  // namespace cotter::quantity
