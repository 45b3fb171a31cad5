// Names are names: other names for all places and parts of the example change no verdict, and where the order of a
// document has no meaning, another order changes no byte of the plan.
#include <algorithm>
#include <gtest/gtest.h>
#include <random>
#include <rapidcheck/gtest.h>

#include "document/parse.hpp"
#include "document/write_plan.hpp"
#include "examples.hpp"

namespace cotter::session {
namespace {

using document::Node;
using Names = std::map<std::string, std::string>;

std::string renamed(const std::string& ref, const Names& names) {
  const std::size_t dot = std::min(ref.find('.'), ref.size());
  const auto found = names.find(ref.substr(0, dot));
  return found == names.end() ? ref : found->second + ref.substr(dot);
}

std::string renamed_finding(const std::string& id, const Names& names) {
  const std::size_t at = id.find('@') + 1;
  std::string out = id.substr(0, at);
  for (std::size_t start = at; start <= id.size();) {
    const std::size_t end = std::min(id.find(',', start), id.size());
    out += (start == at ? "" : ",") + renamed(id.substr(start, end - start), names);
    start = end + 1;
  }
  return out;
}

void rename_entry(Node& map, const std::string& key, const Names& names) {
  if (Node* entry = map.find(key)) *entry = Node::text(renamed(entry->scalar(), names));
}

/// Every place under its new name, `is` telling which place of the template it is; every part of the job likewise.
Node with_new_names(Node job, const Names& places, const Names& parts) {
  for (Node& part : job.find("parts")->items()) rename_entry(part, "id", parts);
  for (Node::Entry& entry : job.find("places")->entries()) {
    Node& filled = entry.value;
    if (!filled.is_map()) filled = Node::map().set("part", filled);
    if (filled.find("is") == nullptr) filled.set("is", Node::text(entry.key));
    rename_entry(filled, "part", parts);
    entry.key = places.at(entry.key);
  }
  for (Node& line : job.find("lines")->items())
    for (const char* key : {"from", "to"}) rename_entry(line, key, places);
  for (Node& decision : job.find("decisions")->items())
    put(decision, "finding", Node::text(renamed_finding(decision.find("finding")->scalar(), places)));
  return job;
}

Names new_names(const Node& list, const std::string& prefix) {
  Names names;
  for (const Node::Entry& entry : list.entries())
    names[entry.key] = prefix + std::to_string((names.size() * 7 + 3) % 101) + "_" + entry.key.substr(0, 3);
  return names;
}

void expect_same_verdicts(const std::string& name, const Names& places, const Names& parts) {
  const Node job = example(name);
  const auto before = verdicts(plan_of(job));
  const auto after = verdicts(plan_of(with_new_names(job, places, parts)));
  std::map<std::string, std::string> expected;
  for (const auto& [id, verdict] : before) expected[renamed_finding(id, places)] = verdict;
  EXPECT_EQ(after, expected);
}

TEST(Renaming, AllPlacesAndPartsChangesNoVerdict) {
  for (const char* name : {"all_road", "all_road_short_spindle", "all_road_hose_end"}) {
    const Node job = example(name);
    Names parts;
    for (const Node& part : job.find("parts")->items())
      parts[part.find("id")->scalar()] = "own_" + std::to_string(parts.size());
    expect_same_verdicts(name, new_names(*job.find("places"), "z"), parts);
    expect_same_verdicts(name, new_names(*job.find("places"), "a"), parts);
  }
}

TEST(Renaming, PlacesToEachOthersNamesChangesNoVerdict) {
  // The worst names there are: each place bears the template's name of another one.
  const Node job = example("all_road");
  const auto& entries = job.find("places")->entries();
  Names places;
  for (std::size_t i = 0; i < entries.size(); ++i) places[entries[i].key] = entries[(i + 5) % entries.size()].key;
  expect_same_verdicts("all_road", places, {});
}

TEST(Renaming, APlaceToTheNameOfOneThatIsEmptyChangesNoVerdict) {
  // Went wrong: the empty place took its name back, and the line that ends there was left without an end.
  const Node job = example("all_road");
  Names places;
  for (const Node::Entry& entry : job.find("places")->entries()) places[entry.key] = entry.key;
  ASSERT_FALSE(places.contains("pedals"));
  places["left_lever"] = "pedals";
  expect_same_verdicts("all_road", places, {});
}

TEST(Renaming, AnAliasKeepsTheAcceptanceAndWithoutItItIsAskedAgain) {
  const std::string old_id = "ring_swing@outer_ring.teeth,front_derailleur.cage";
  const std::string new_id = "ring_swing@large_ring.teeth,front_derailleur.cage";
  Node job = example("all_road");
  ASSERT_NE(find(plan_of(job), old_id), nullptr);
  ASSERT_EQ(find(plan_of(job), old_id)->accepted_by, "A. Builder");
  for (Node::Entry& entry : job.find("places")->entries())
    if (entry.key == "outer_ring") {
      entry.value = Node::map().set("part", entry.value).set("is", Node::text("outer_ring"));
      entry.key = "large_ring";
    }
  Node with_alias = job;
  put(with_alias, "aliases", Node::map().set("outer_ring", Node::text("large_ring")));
  const model::Plan kept = plan_of(with_alias);
  ASSERT_NE(find(kept, new_id), nullptr);
  EXPECT_EQ(find(kept, new_id)->accepted_by, "A. Builder");
  const std::string refusal = refusal_of(job);
  if (refusal.empty()) {
    EXPECT_EQ(find(plan_of(job), new_id)->accepted_by, "");
  } else {
    EXPECT_NE(refusal.find("outer_ring"), std::string::npos) << refusal;
  }
}

void shuffle_entries(Node& map, std::mt19937& dice) {
  std::shuffle(map.entries().begin(), map.entries().end(), dice);
}

/// Another order of everything whose order has no meaning. Lines, openings, tools and pieces of the kit keep theirs:
/// lines and openings are numbered in it, and the first tool that will do is named.
Node in_another_order(Node job, unsigned seed) {
  std::mt19937 dice(seed);
  shuffle_entries(job, dice);
  auto& parts = job.find("parts")->items();
  std::shuffle(parts.begin(), parts.end(), dice);
  for (Node& part : parts) {
    shuffle_entries(part, dice);
    for (const char* key : {"interfaces", "geometry"})
      if (Node* map = part.find(key)) shuffle_entries(*map, dice);
    for (Node::Entry& feature : part.find("interfaces")->entries()) shuffle_entries(feature.value, dice);
  }
  shuffle_entries(*job.find("places"), dice);
  for (Node::Entry& entry : job.find("places")->entries()) {
    if (!entry.value.is_map()) continue;
    shuffle_entries(entry.value, dice);
    if (Node* values = entry.value.find("values")) shuffle_entries(*values, dice);
  }
  return job;
}

TEST(Order, ThatHasNoMeaningChangesNoByteOfThePlan) {
  for (const char* name : {"all_road", "all_road_short_spindle", "all_road_hose_end"}) {
    const Node job = example(name);
    const std::string before = document::write_json(document::plan_node(plan_of(job)));
    for (const unsigned seed : {1u, 2u, 3u})
      EXPECT_TRUE(document::write_json(document::plan_node(plan_of(in_another_order(job, seed)))) == before)
          << name << " with seed " << seed;
  }
}

TEST(Order, AJointThatTheTemplateHasAlreadyMakesNoTwinOfAFinding) {
  // Went wrong: the same pair joined again in the job, either way round, gave two findings of one name.
  const Node job = example("all_road");
  for (const bool turned : {false, true}) {
    Node again = job;
    const std::string shell = "frame.shell_right", cup = "bottom_bracket.cup_right";
    const Node joint = Node::map()
                           .set("id", Node::text("again"))
                           .set("label", Node::text("the right cup again"))
                           .set("a", Node::text(turned ? cup : shell))
                           .set("b", Node::text(turned ? shell : cup));
    put(again, "joints", Node::list_of({joint}));
    ASSERT_EQ(refusal_of(again), "");
    EXPECT_EQ(plan_of(again).findings.size(), plan_of(job).findings.size());
    EXPECT_EQ(verdicts(plan_of(again)), verdicts(plan_of(job)));
  }
}

TEST(Order, ThePlanIsTheSameEveryTime) {
  const Node job = example("all_road");
  EXPECT_TRUE(document::write_json(document::plan_node(plan_of(job))) ==
              document::write_json(document::plan_node(plan_of(job))));
}

}  // namespace
}  // namespace cotter::session
