// A used part is never passed over in silence: inspected, asked for, or stopped.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "small_bicycle.hpp"

namespace cotter::plan {
namespace {

using model::Verdict;
using quantity::OriginKind;

model::Condition record(bool sound, std::vector<model::Wear> wear = {}) {
  return {"bare, with a lens", "A. Builder", "2026-05-02", sound, sound ? "" : "a crack at the crown", std::move(wear)};
}

/// 1.00 mm at least; the reading is 1 mm and `off_um` more or less, each side ±50 um.
model::Wear wall(std::int64_t off_um, OriginKind kind = OriginKind::measured) {
  model::Wear wear{"wall", "wall of the rim", length(1'000 + off_um, 50, kind), {}, {}};
  wear.limit.from = length(1'000);
  return wear;
}

SmallBicycle with_rules() {
  SmallBicycle small;
  small.catalog.conditions = {{"front",
                               "composite in front",
                               {"lever"},
                               {},
                               {model::Material::composite, model::Material::unknown},
                               true,
                               model::Guards::composite,
                               "Take another one.",
                               {}}};
  return small;
}

Verdict verdict_of(const SmallBicycle& small, const std::string& finding) {
  const model::Plan plan = small.plan();
  return finding_in(plan, finding).verdict;
}

TEST(UsedParts, NewPartsAreNotAskedFor) {
  const model::Plan plan = with_rules().plan();
  EXPECT_THROW(finding_in(plan, "used_part@"), std::out_of_range);
}

TEST(UsedParts, WithoutARecordIsMeasureOrWhereTheCatalogSaysSoStop) {
  SmallBicycle small = with_rules();
  for (const char* place : {"frame", "lever"}) small.part(place).used = true;
  small.part("lever").material = model::Material::composite;
  EXPECT_EQ(verdict_of(small, "used_part@frame"), Verdict::measure);
  EXPECT_EQ(verdict_of(small, "used_part@lever"), Verdict::stop);
  const model::Plan plan = small.plan();
  EXPECT_EQ(finding_in(plan, "used_part@lever").may_pass, model::MayPass::nobody);
  EXPECT_EQ(finding_in(plan, "used_part@lever").guards, model::Guards::composite);
  EXPECT_EQ(finding_in(plan, "used_part@lever").advice, "Take another one.");
}

TEST(UsedParts, AMaterialThatNobodyStatesIsNotTakenForMetal) {
  SmallBicycle small = with_rules();
  small.part("lever").used = true;
  EXPECT_EQ(verdict_of(small, "used_part@lever"), Verdict::stop);
  small.part("lever").material = model::Material::steel;
  EXPECT_EQ(verdict_of(small, "used_part@lever"), Verdict::measure);
}

TEST(UsedParts, APlaceMayCallAPartUsedAndCarryItsRecord) {
  SmallBicycle small = with_rules();
  for (model::Place& place : small.job.sheet.places) {
    if (place.id != "lever") continue;
    place.used = true;
    EXPECT_EQ(verdict_of(small, "used_part@lever"), Verdict::stop);
    place.condition = record(true);
    EXPECT_EQ(verdict_of(small, "used_part@lever"), Verdict::ok);
    place.condition = record(false);
    EXPECT_EQ(verdict_of(small, "used_part@lever"), Verdict::stop);
  }
}

TEST(UsedParts, AUsedLineIsAskedForToo) {
  SmallBicycle small = with_rules();
  for (model::Part& part : small.job.sheet.parts) part.used = part.id == "hose";
  EXPECT_EQ(verdict_of(small, "used_part@hose"), Verdict::measure);
}

TEST(UsedParts, NoDecisionPassesAStop) {
  SmallBicycle small = with_rules();
  small.part("lever").used = true;
  small.job.decisions = {{"used_part@lever", "A. Builder", "2026-05-02", "it looked fine", 0}};
  const model::Plan plan = small.plan();
  EXPECT_EQ(finding_in(plan, "used_part@lever").verdict, Verdict::stop);
  EXPECT_EQ(finding_in(plan, "used_part@lever").accepted_by, "");
}

/// 1 mm less the ±0.05 mm of the reading: 10 um to either side of each edge flips the verdict.
TEST(UsedParts, WearIsDecidedByTheWholeReading) {
  const std::vector<std::pair<std::int64_t, Verdict>> cases = {{60, Verdict::ok},       {50, Verdict::ok},
                                                               {40, Verdict::measure},  {0, Verdict::measure},
                                                               {-50, Verdict::measure}, {-60, Verdict::stop}};
  for (const auto& [off, verdict] : cases) {
    SmallBicycle small = with_rules();
    small.part("brake").used = true;
    small.part("brake").condition = record(true, {wall(off)});
    EXPECT_EQ(verdict_of(small, "used_wear@brake.wall"), verdict) << off;
  }
}

TEST(UsedParts, WearThatNobodyReadOrVouchesForIsMeasure) {
  SmallBicycle small = with_rules();
  small.part("brake").used = true;
  small.part("brake").condition = record(true, {wall(500, OriginKind::assumed)});
  EXPECT_EQ(verdict_of(small, "used_wear@brake.wall"), Verdict::measure);
  small.part("brake").condition->wear[0].value.reset();
  EXPECT_EQ(verdict_of(small, "used_wear@brake.wall"), Verdict::measure);
}

RC_GTEST_PROP(UsedParts, EveryUsedPartHasAFinding, ()) {
  SmallBicycle small = with_rules();
  std::vector<std::string> used;
  for (const char* place : {"frame", "bracket", "crank", "lever", "brake"}) {
    model::Part& part = small.part(place);
    part.used = *rc::gen::arbitrary<bool>();
    part.material = static_cast<model::Material>(*rc::gen::inRange(0, 7));
    if (*rc::gen::arbitrary<bool>()) part.condition = record(*rc::gen::arbitrary<bool>());
    if (part.used) used.emplace_back(place);
  }
  const model::Plan plan = small.plan();
  for (const std::string& place : used) {
    const model::Part& part = small.part(place);
    const Verdict verdict = finding_in(plan, "used_part@" + place).verdict;
    RC_ASSERT((verdict == Verdict::ok) == (part.condition && part.condition->sound));
  }
}

}  // namespace
}  // namespace cotter::plan
