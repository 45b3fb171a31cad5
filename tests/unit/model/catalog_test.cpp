#include "model/catalog.hpp"

#include <gtest/gtest.h>

#include "model/plan.hpp"

namespace cotter::model {
namespace {

TEST(FindMeeting, EitherSideMayDeclareIt) {
  Catalog catalog;
  catalog.kinds["shell"].meets.push_back({"cup", {}});
  catalog.kinds["cup"];
  const Meeting* declared = &catalog.kinds["shell"].meets[0];
  EXPECT_EQ(find_meeting(catalog, "shell", "cup").meeting, declared);
  EXPECT_FALSE(find_meeting(catalog, "shell", "cup").swapped);
  EXPECT_EQ(find_meeting(catalog, "cup", "shell").meeting, declared);
  EXPECT_TRUE(find_meeting(catalog, "cup", "shell").swapped);
}

TEST(FindMeeting, NoneForKindsThatNeverMeet) {
  Catalog catalog;
  catalog.kinds["shell"].meets.push_back({"cup", {}});
  EXPECT_EQ(find_meeting(catalog, "shell", "shell").meeting, nullptr);
  EXPECT_EQ(find_meeting(catalog, "shell", "none").meeting, nullptr);
  EXPECT_EQ(find_meeting(catalog, "none", "none").meeting, nullptr);
}

TEST(FindMeeting, KindThatMeetsItsOwn) {
  Catalog catalog;
  catalog.kinds["plug"].meets.push_back({"plug", {}});
  EXPECT_FALSE(find_meeting(catalog, "plug", "plug").swapped);
  EXPECT_NE(find_meeting(catalog, "plug", "plug").meeting, nullptr);
}

TEST(FindDimension, ByIdOrNothing) {
  InterfaceKind kind;
  kind.dimensions.resize(2);
  kind.dimensions[0].id = "bore";
  kind.dimensions[1].id = "width";
  EXPECT_EQ(find_dimension(kind, "width"), &kind.dimensions[1]);
  EXPECT_EQ(find_dimension(kind, "depth"), nullptr);
}

TEST(CountFindings, OfOneVerdict) {
  Plan plan;
  plan.findings.resize(3);
  plan.findings[1].verdict = Verdict::stop;
  EXPECT_EQ(count(plan, Verdict::ok), 2u);
  EXPECT_EQ(count(plan, Verdict::stop), 1u);
  EXPECT_EQ(count(plan, Verdict::add), 0u);
}

TEST(VerdictWords, AllSix) {
  EXPECT_EQ(word_for(Verdict::ok), "ok");
  EXPECT_EQ(word_for(Verdict::accept), "accept");
  EXPECT_EQ(word_for(Verdict::add), "add");
  EXPECT_EQ(word_for(Verdict::measure), "measure");
  EXPECT_EQ(word_for(Verdict::rework), "rework");
  EXPECT_EQ(word_for(Verdict::stop), "stop");
}

}  // namespace
}  // namespace cotter::model
