#include "problem/bridge_problem.hpp"

#include <gtest/gtest.h>

#include "document/parse.hpp"

namespace cotter::problem {
namespace {

using document::Node;

const std::string k_problem = R"({
  "cotter": "bridge_problem 1",
  "kinds": [{"id": "tube", "dimensions": {"bore": "length"}, "words": ["form"]},
            {"id": "post", "dimensions": {"diameter": "length"}, "words": ["form"]}],
  "meetings": [{"own": "tube", "other": "post", "rules": [
    {"law": "bore_on_shaft", "operands": {"bore": "own.bore", "shaft": "other.diameter"},
     "must": {"from": "0.01 mm", "to": "0.25 mm"}},
    {"law": "equal_family", "words": {"family": ["form", "form"]}}]}],
  "pieces": [
    {"id": "sleeve", "cost": 1400, "joins": [["outside", "inside"]], "features": {
      "outside": {"kind": "post", "diameter": "31.55 ±0.02 mm", "form": "round"},
      "inside": {"kind": "tube", "bore": "27.25 ±0.02 mm", "form": "round"}}}],
  "start": {"kind": "tube", "bore": "31.62 ±0.01 mm", "form": "round"},
  "goal": {"kind": "post", "diameter": "27.17 ±0.02 mm", "form": "round"}
})";

std::string changed(const std::string& from, const std::string& to) {
  std::string text = k_problem;
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

document::Read<Node> solved(const std::string& text) {
  const auto node = document::parse(text, "problem.json", document::Format::json);
  if (!node) return tl::unexpected(node.error());
  return solve_bridge(*node, "problem.json");
}

std::string json(const std::string& text) {
  const auto result = solved(text);
  return result ? document::write_json(*result) : document::one_line(result.error().list().front());
}

std::string complaint(const std::string& from, const std::string& to) {
  const auto result = solved(changed(from, to));
  return result ? "nothing" : document::one_line(result.error().list().front());
}

TEST(BridgeProblem, WholeResult) {
  const auto result = solved(k_problem);
  ASSERT_TRUE(result) << json(k_problem);
  EXPECT_EQ(result->find("status")->scalar(), "found");
  const Node& chain = result->find("chains")->items().at(0);
  EXPECT_EQ(chain.find("cost")->scalar(), "1400");
  EXPECT_EQ(chain.find("certain")->scalar(), "true");
  const Node& link = chain.find("links")->items().at(0);
  EXPECT_EQ(link.find("piece")->scalar(), "sleeve");
  EXPECT_EQ(link.find("enters")->scalar(), "outside");
  EXPECT_EQ(link.find("leaves")->scalar(), "inside");
  const Node& rule = chain.find("joints")->items().at(0).find("rules")->items().at(0);
  EXPECT_EQ(rule.find("margin_nm")->scalar(), "30000");  // by hand: 31.61 - 31.57 = 0.04 of clearance, 0.01 asked
}

TEST(BridgeProblem, SaysWhyThereIsNone) {
  const auto result = solved(changed("\"27.17 ±0.02 mm\"", "\"20 mm\""));
  ASSERT_TRUE(result);
  EXPECT_EQ(result->find("status")->scalar(), "none");
  EXPECT_EQ(result->find("reason")->scalar(), "goal_meets_nothing");
}

TEST(BridgeProblem, WhatIsWrongIsSaid) {
  EXPECT_NE(complaint("\"own\": \"tube\"", "\"own\": \"tub\"").find("meetings[0].own"), std::string::npos);
  EXPECT_NE(complaint("\"other\": \"post\"", "\"other\": \"tube\"").find("A kind cannot meet itself here"),
            std::string::npos);
  EXPECT_NE(complaint("own.bore", "own.bor").find("meetings[0].rules[0].operands.bore"), std::string::npos);
  EXPECT_NE(complaint("\"shaft\": \"other.diameter\"", "\"stick\": \"other.diameter\"").find("no operand `stick`"),
            std::string::npos);
  EXPECT_NE(complaint("\"to\": \"0.25 mm\"", "\"to\": \"0.25\"").find("must"), std::string::npos);
  EXPECT_NE(
      complaint("[\"outside\", \"inside\"]", "[\"outside\", \"outside\"]").find("cannot join a feature with itself"),
      std::string::npos);
  EXPECT_NE(complaint("\"cost\": 1400", "\"cost\": -1").find("pieces[0].cost"), std::string::npos);
  EXPECT_NE(complaint("\"31.62 ±0.01 mm\"", "\"31.62 ±0.01 g\"").find("start.bore"), std::string::npos);
  EXPECT_NE(complaint("\"kind\": \"tube\", \"bore\": \"31", "\"bore\": \"31").find("needs the field `kind`"),
            std::string::npos);
}

}  // namespace
}  // namespace cotter::problem
