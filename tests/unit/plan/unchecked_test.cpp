// A part that nothing judges is named, with the reason that the template gives.
#include <algorithm>
#include <gtest/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

std::vector<std::string> places_of(const model::Plan& plan) {
  std::vector<std::string> out;
  for (const model::UncheckedPlace& place : plan.unchecked) out.push_back(place.place + ": " + place.reason);
  return out;
}

TEST(Unchecked, NamesPlacesWithoutAJudgedJointAndTheReason) {
  SmallBicycle small;
  for (model::PlaceForm& place : small.catalog.bicycles["small"].places)
    if (place.id == "saddle") place.unchecked = "its rails are gripped by no part of this template";
  const std::vector<std::string> unchecked = places_of(small.plan());
  EXPECT_NE(std::find(unchecked.begin(), unchecked.end(), "saddle: its rails are gripped by no part of this template"),
            unchecked.end());
  for (const char* judged : {"frame: ", "bracket: ", "crank: "})
    EXPECT_EQ(std::find(unchecked.begin(), unchecked.end(), judged), unchecked.end()) << judged;
}

TEST(Unchecked, AFindingThatThePartIsUsedJudgesNoJoint) {
  SmallBicycle small;
  small.part("saddle").used = true;
  const std::vector<std::string> unchecked = places_of(small.plan());
  EXPECT_NE(std::find(unchecked.begin(), unchecked.end(), "saddle: "), unchecked.end());
}

TEST(Unchecked, AnOpenPlaceIsNotInTheList) {
  SmallBicycle small;
  small.empty("saddle");
  const std::vector<std::string> unchecked = places_of(small.plan());
  EXPECT_EQ(std::find(unchecked.begin(), unchecked.end(), "saddle: "), unchecked.end());
}

}  // namespace
}  // namespace cotter::plan
