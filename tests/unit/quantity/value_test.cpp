#include "quantity/value.hpp"

#include <gtest/gtest.h>

#include "quantity/ensure.hpp"

namespace cotter::quantity {
namespace {

Value shell_width() {
  Value value;
  value.nominal = 68'000'000;
  value.lower = -1'000'000;
  value.upper = 500'000;
  value.origin.kind = OriginKind::maker;
  return value;
}

template <class Call>
std::string bug_in(Call call) {
  try {
    call();
  } catch (const BugError& bug) {
    return bug.what();
  }
  return "no bug";
}

TEST(Value, range_runs_between_its_deviations) {
  EXPECT_EQ(shell_width().range(), Range(Mixed::from_base(67'000'000), Mixed::from_base(68'500'000)));
  EXPECT_EQ(length_interval(shell_width()), Interval<Length>(millimetres(67), micrometres(68'500)));
  EXPECT_EQ(nominal_length(shell_width()), millimetres(68));
}

TEST(Value, of_another_dimension_is_no_length) {
  Value torque = shell_width();
  torque.dimension = Dimension::torque;
  EXPECT_EQ(bug_in([&] { length_interval(torque); }), "a length was asked of a value that is none");
  EXPECT_EQ(bug_in([&] { nominal_length(torque); }), "a length was asked of a value that is none");
}

TEST(Value, without_a_known_range_gives_no_numbers) {
  Value unknown = shell_width();
  unknown.range_known = false;
  EXPECT_EQ(bug_in([&] { unknown.range(); }), "an unknown value has no range until its reader has filled it in");
  EXPECT_EQ(bug_in([&] { nominal_length(unknown); }),
            "an unknown value has no nominal until its reader has filled it in");
}

TEST(Value, swapped_deviations_are_a_bug) {
  Value value = shell_width();
  std::swap(value.lower, value.upper);
  EXPECT_EQ(bug_in([&] { value.range(); }), "interval with its ends swapped");
}

TEST(Value, measured_or_from_a_paper_is_attested) {
  Value value = shell_width();
  for (const auto kind : {OriginKind::measured, OriginKind::maker, OriginKind::standard}) {
    value.origin.kind = kind;
    EXPECT_TRUE(is_attested(value)) << word_for(kind);
  }
  for (const auto kind : {OriginKind::assumed, OriginKind::unknown}) {
    value.origin.kind = kind;
    EXPECT_FALSE(is_attested(value)) << word_for(kind);
  }
}

TEST(Value, computed_lengths_are_exact) {
  const Origin origin{OriginKind::assumed, "", "", "", "sum of the spacers"};
  const Value value = exact_length(micrometres(2'500), origin);
  EXPECT_EQ(value.dimension, Dimension::length);
  EXPECT_EQ(length_interval(value), Interval<Length>(micrometres(2'500)));
  EXPECT_EQ(value.origin, origin);
}

TEST(Words, for_origins_and_dimensions) {
  EXPECT_EQ(word_for(OriginKind::measured), "measured");
  EXPECT_EQ(word_for(OriginKind::maker), "maker");
  EXPECT_EQ(word_for(OriginKind::standard), "standard");
  EXPECT_EQ(word_for(OriginKind::assumed), "assumed");
  EXPECT_EQ(word_for(OriginKind::unknown), "unknown");
  EXPECT_EQ(word_for(Dimension::length), "length");
  EXPECT_EQ(word_for(Dimension::angle), "angle");
  EXPECT_EQ(word_for(Dimension::torque), "torque");
  EXPECT_EQ(word_for(Dimension::force), "force");
  EXPECT_EQ(word_for(Dimension::mass), "mass");
  EXPECT_EQ(word_for(Dimension::pressure), "pressure");
  EXPECT_EQ(word_for(Dimension::duration), "duration");
  EXPECT_EQ(word_for(Dimension::count), "count");
}

}  // namespace
}  // namespace cotter::quantity
