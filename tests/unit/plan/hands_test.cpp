#include "plan/hands.hpp"

#include <gtest/gtest.h>

namespace cotter::plan {
namespace {

model::Catalog catalog() {
  model::Catalog catalog;
  catalog.brake_customs = {{false, {"GB"}, {}}, {true, {"DE"}, {}}};
  return catalog;
}

model::Job job_in(const std::string& country) {
  model::Job job;
  job.sheet.shop.country = country;
  return job;
}

TEST(Hands, TheCustomOfTheCountryIsPlannedAndAsked) {
  EXPECT_EQ(hand_fact(job_in("GB"), catalog()), "hand:left=rear");
  EXPECT_EQ(hand_fact(job_in("DE"), catalog()), "hand:left=front");
  EXPECT_EQ(hand_fact(job_in("??"), catalog()), "hand:left=front");
  const auto asked = hand_findings(job_in("GB"), catalog());
  ASSERT_EQ(asked.size(), 1U);
  EXPECT_EQ(asked[0].verdict, model::Verdict::measure);
  EXPECT_EQ(asked[0].guards, model::Guards::brake);
  EXPECT_EQ(asked[0].facts.at(0).first, "hands.ask_rear");
}

TEST(Hands, WhatTheRiderSaidGoesBeforeTheCustom) {
  model::Job job = job_in("GB");
  job.sheet.hands = model::BrakeHands{true, "A. Builder", "2026-05-02"};
  EXPECT_EQ(hand_fact(job, catalog()), "hand:left=front");
  const auto agreed = hand_findings(job, catalog());
  EXPECT_EQ(agreed[0].verdict, model::Verdict::ok);
  EXPECT_EQ(agreed[0].facts.at(0).first, "hands.front");
}

}  // namespace
}  // namespace cotter::plan
