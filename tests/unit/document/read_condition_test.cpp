// Records of used parts, in a part and in a place; the catalog's own rules on them.
#include <algorithm>

#include "read_support.hpp"

namespace cotter::document {
namespace {

const std::string k_part = "bottom_bracket: {part: cups_46, at_hand: true, values: {cup_right.diameter: 46.08 mm}}";
const std::string k_record = "inspected: bare, by: A. Builder, on: 2026-05-02, result: sound, found: nothing";

std::string place_with(const std::string& condition) {
  return "bottom_bracket: {part: cups_46, at_hand: true, condition: {" + condition + "}}";
}
std::string wear(const std::string& fields) {
  return k_record + ", wear: [{id: cup, what: outside of the cup, source: {common_practice: true}, " + fields + "}]";
}

const model::Place& bottom_bracket(const model::Job& job) {
  return *std::find_if(job.sheet.places.begin(), job.sheet.places.end(),
                       [](const model::Place& place) { return place.id == "bottom_bracket"; });
}

TEST(ReadCondition, APlaceWithARecordIsUsed) {
  const auto job =
      read_job_text(changed(k_job_text, k_part,
                            place_with(wear("value: {value: 46.02 mm, measured: {by: B. Builder, with: gauge_1, on: "
                                            "2026-05-03}}, limit: {from: 46.0 mm}"))));
  ASSERT_TRUE(job);
  const model::Place& place = bottom_bracket(*job);
  EXPECT_TRUE(place.used);
  ASSERT_TRUE(place.condition);
  EXPECT_TRUE(place.condition->sound);
  EXPECT_EQ(place.condition->inspected, "bare");
  EXPECT_EQ(place.condition->by, "A. Builder");
  EXPECT_EQ(place.condition->found, "nothing");
  ASSERT_EQ(place.condition->wear.size(), 1u);
  const model::Wear& cup = place.condition->wear[0];
  EXPECT_EQ(cup.value->origin.by, "B. Builder");
  EXPECT_EQ(cup.value->upper, 5'000);  // what gauge_1 resolves
  EXPECT_EQ(cup.limit.from->nominal, 46'000'000);
}

TEST(ReadCondition, AReadingIsMeasuredByTheOneWhoInspected) {
  const auto job =
      read_job_text(changed(k_job_text, k_part, place_with(wear("value: 46.02 ±0.01 mm, limit: {from: 46.0 mm}"))));
  ASSERT_TRUE(job);
  const model::Wear& cup = bottom_bracket(*job).condition->wear.at(0);
  EXPECT_EQ(cup.value->origin.kind, quantity::OriginKind::measured);
  EXPECT_EQ(cup.value->origin.by, "A. Builder");
  EXPECT_EQ(cup.value->origin.when, "2026-05-02");
}

TEST(ReadCondition, AnAssumedReadingStaysAssumedAndAQuestionMarkIsNoReading) {
  const auto assumed = read_job_text(changed(
      k_job_text, k_part, place_with(wear("value: {value: 46.02 ±0.01 mm, assumed: by eye}, limit: {from: 46.0 mm}"))));
  ASSERT_TRUE(assumed);
  EXPECT_EQ(bottom_bracket(*assumed).condition->wear.at(0).value->origin.kind, quantity::OriginKind::assumed);
  const auto unread =
      read_job_text(changed(k_job_text, k_part, place_with(wear("value: \"?\", limit: {from: 46.0 mm}"))));
  ASSERT_TRUE(unread);
  EXPECT_FALSE(bottom_bracket(*unread).condition->wear.at(0).value);
}

TEST(ReadCondition, TheWordUsedAloneIsEnough) {
  const auto job = read_job_text(changed(k_job_text, k_part, "bottom_bracket: {part: cups_46, used: true}"));
  ASSERT_TRUE(job);
  EXPECT_TRUE(bottom_bracket(*job).used);
  EXPECT_FALSE(bottom_bracket(*job).condition);
}

std::vector<std::string> said_by_job(const std::string& from, const std::string& to) {
  const auto read = read_job_text(changed(k_job_text, from, to));
  return read ? std::vector<std::string>{} : lines_of(read.error());
}

TEST(ReadCondition, SaysWhatIsWrong) {
  using Lines = std::vector<std::string>;
  EXPECT_EQ(said_by_job(k_part, place_with("inspected: bare, by: A. Builder, on: 2026-05-02")),
            (Lines{"job.yaml:26:61: places.bottom_bracket.condition.result: A condition needs the field `result`; "
                   "accepted: one of: sound, damaged"}));
  EXPECT_EQ(
      said_by_job(k_part, place_with(wear("value: 46.02 mm, limit: {from: 46.0 mm}"))),
      (Lines{"job.yaml:26:225: places.bottom_bracket.condition.wear[0].value: A reading of wear needs its deviations; "
             "found \"46.02 mm\"; accepted: deviations such as `1.2 ±0.05 mm`, or the shop's tool it was read with"}));
  EXPECT_EQ(said_by_job(k_part, place_with(wear("value: 4 bar, limit: {from: 46.0 mm}"))),
            (Lines{"job.yaml:26:225: places.bottom_bracket.condition.wear[0].value: The unit is one of another kind of "
                   "quantity; found \"4 bar\"; accepted: mm, cm, m, µm, nm, in or tpi, a unit of length"}));
  EXPECT_EQ(said_by_job(k_part, place_with(wear("value: 46.02 ±0.01 mm, limit: {}"))),
            (Lines{"job.yaml:26:248: places.bottom_bracket.condition.wear[0].limit: A limit has at least one end; "
                   "accepted: `from`, `to`, or both"}));
  EXPECT_EQ(said_by_job("my_saddle: {is: saddle}", "my_saddle: {is: saddle, used: true}"),
            (Lines{"job.yaml:27:33: places.my_saddle.used: A place without a part has nothing in it that was used; "
                   "found \"true\"; accepted: a part beside it"}));
  EXPECT_EQ(
      said_by_job("material: composite\n", "material: composite\n    used: false\n    condition: {" + k_record + "}\n"),
      (Lines{"job.yaml:12:11: parts[0].used: A part with a record of its condition is a used part; found \"false\"; "
             "accepted: `true`, or no `condition`"}));
}

const std::string k_rules = R"(cotter: conditions 1
used:
  - {id: front, label: composite in front, families: [fork], materials: [composite], without: stop, guards: composite, advice: Have it inspected., source: {common_practice: true}}
  - {id: rest, label: all forks, families: [fork], without: measure, source: {common_practice: true}}
)";

TEST(ReadConditionRules, KeepTheirOrder) {
  Texts texts = small_catalog_texts();
  texts.emplace_back("conditions.yaml", k_rules);
  const auto catalog = read_catalog_texts(texts);
  ASSERT_TRUE(catalog);
  ASSERT_EQ(catalog->conditions.size(), 2u);
  EXPECT_EQ(catalog->conditions[0].id, "front");
  EXPECT_TRUE(catalog->conditions[0].stop);
  EXPECT_EQ(catalog->conditions[0].guards, model::Guards::composite);
  EXPECT_EQ(catalog->conditions[0].materials, std::vector{model::Material::composite});
  EXPECT_FALSE(catalog->conditions[1].stop);
  EXPECT_TRUE(catalog->conditions[1].materials.empty());
}

TEST(ReadConditionRules, SameIdTwice) {
  Texts texts = small_catalog_texts();
  texts.emplace_back("conditions.yaml", changed(k_rules, "id: rest", "id: front"));
  const auto catalog = read_catalog_texts(texts);
  ASSERT_FALSE(catalog);
  EXPECT_EQ(
      lines_of(catalog.error()),
      (std::vector<std::string>{"conditions.yaml:4:10: used[1].id: This rule on used parts is given twice, first at "
                                "conditions.yaml:3:10; found \"front\"; accepted: a name that is not used yet"}));
}

}  // namespace
}  // namespace cotter::document
