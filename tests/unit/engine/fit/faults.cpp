#include <gtest/gtest.h>

#include "checks.hpp"
#include "quantity/ensure.hpp"

namespace cotter::engine::fit {
namespace {

using namespace testing;
using Kind = Fault::Kind;

Check good() {
  return check(Law::bore_on_shaft, {um("bore", 30'000), um("shaft", 29'900)}, from_um(0));
}

TEST(Faults, AGoodCheckHasNone) {
  EXPECT_TRUE(faults(good()).empty());
}

TEST(Faults, NameTheMissingAndTheUnknownRole) {
  Check wrong = good();
  wrong.operands[1].role = "shat";
  EXPECT_EQ(faults(wrong), (std::vector<Fault>{{Kind::unknown_role, "shat", "bore, shaft"},
                                               {Kind::missing_role, "shaft", "bore, shaft"}}));
}

TEST(Faults, ARoleGivenTwice) {
  Check wrong = good();
  wrong.operands.push_back(um("bore", 31'000));
  EXPECT_EQ(faults(wrong), (std::vector<Fault>{{Kind::double_role, "bore", "each role once"}}));
}

TEST(Faults, ARoleOfTheWrongDimension) {
  Check wrong = good();
  wrong.operands[1].dimension = Dimension::angle;
  EXPECT_EQ(faults(wrong), (std::vector<Fault>{{Kind::wrong_dimension, "shaft", "length"}}));
}

TEST(Faults, TwoDimensionsWhereAnyWillDo) {
  Check wrong = check(Law::at_most, {um("value", 1), base("limit", 1, 1, Dimension::mass)});
  EXPECT_EQ(faults(wrong), (std::vector<Fault>{{Kind::wrong_dimension, "limit", "length"}}));
}

TEST(Faults, WordsThatALawDoesNotCompare) {
  Check wrong = good();
  wrong.words["hand"] = {"left", "left"};
  EXPECT_EQ(faults(wrong), (std::vector<Fault>{{Kind::unknown_word, "hand", "nothing"}}));
  EXPECT_EQ(faults(check(Law::equal_family, {})), (std::vector<Fault>{{Kind::missing_word, "family", "family"}}));
}

TEST(Faults, ParametersMissingStrangeOrOutOfBounds) {
  Check bolt = check(Law::engagement, {um("bolt", 1), um("through", 1), um("depth", 1), um("diameter", 1)});
  EXPECT_EQ(faults(bolt), (std::vector<Fault>{{Kind::missing_parameter, "factor_permille", "an exact whole number"}}));
  bolt.parameters["factor_permille"] = 0;
  EXPECT_EQ(faults(bolt), (std::vector<Fault>{{Kind::bad_parameter, "factor_permille", "1 to 100000"}}));
  Check strange = good();
  strange.parameters["factor"] = 2;
  EXPECT_EQ(faults(strange), (std::vector<Fault>{{Kind::bad_parameter, "factor", "nothing"}}));
}

TEST(Faults, WindowsSwappedOrWithoutANumber) {
  Check swapped = good();
  swapped.must = um_window(1, 0);
  EXPECT_EQ(faults(swapped), (std::vector<Fault>{{Kind::window_swapped, "must", "`from` no greater than `to`"}}));
  Check words = check(Law::equal_family, {}, {}, from_um(0));
  words.words["family"] = {"a", "a"};
  EXPECT_EQ(faults(words),
            (std::vector<Fault>{{Kind::window_without_number, "should", "no window: the law compares words only"}}));
}

TEST(Faults, AmountsBeyondTheBounds) {
  Check huge = good();
  huge.operands[0].range = Range(Mixed::from_base(k_most_base_units + 1));
  EXPECT_EQ(faults(huge), (std::vector<Fault>{{Kind::out_of_bounds, "bore", "at most 1e15 base units"}}));
  huge.operands[0].range = Range(Mixed::from_base(k_most_base_units));
  EXPECT_TRUE(faults(huge).empty());
  EXPECT_EQ(judge(huge).must, Certainty::holds);
}

TEST(Faults, AreABugWhenJudgedAnyway) {
  EXPECT_THROW(judge(check(Law::bore_on_shaft, {um("bore", 1)})), quantity::BugError);
}

TEST(Laws, HaveTheirWordsAndNoTwoShareOne) {
  EXPECT_EQ(all_laws().size(), 12u);
  for (const LawSpec& spec : all_laws()) {
    EXPECT_EQ(law_from_word(spec.word), spec.law);
    for (const Form& form : spec.number) EXPECT_EQ(form.factors.size(), spec.roles.size()) << spec.word;
    for (const Demand& demand : spec.demands) EXPECT_EQ(demand.form.factors.size(), spec.roles.size()) << spec.word;
  }
  EXPECT_EQ(law_from_word("spline"), std::nullopt);
}

TEST(Solve, KeepsTheOrderOfTheChecks) {
  Problem problem{{good(), good()}};
  problem.checks[0].id = "second";
  problem.checks[1].id = "first";
  const Result result = solve(problem);
  ASSERT_EQ(result.checks.size(), 2u);
  EXPECT_EQ(result.checks[0].id, "second");
  EXPECT_EQ(result.checks[1].id, "first");
}

}  // namespace
}  // namespace cotter::engine::fit
