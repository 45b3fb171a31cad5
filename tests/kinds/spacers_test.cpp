// Parts that have no joint of their own: spacers on the steerer, in the example, against what its fork allows.
#include <algorithm>
#include <gtest/gtest.h>

#include "document/parse.hpp"
#include "document/read_job.hpp"
#include "pair.hpp"
#include "plan/make_plan.hpp"

namespace cotter::kinds {
namespace {

model::Verdict verdict_with(const std::string& place, const std::string& part, const std::string& rule) {
  const std::string file = std::string(COTTER_SOURCE_DIR) + "/examples/all_road.yaml";
  document::Node node = *document::parse_file(file);
  *node.find("places")->find(place) = document::Node::text(part);
  const auto job = document::read_job(node, file, shipped_catalog());
  if (!job) throw std::runtime_error(one_line(job.error().list().front()));
  const auto findings = plan::make_plan(*job, shipped_catalog(), {}).findings;
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [&](const model::Finding& finding) { return finding.rule.ends_with("." + rule); });
  if (found == findings.end()) throw std::runtime_error("no finding of " + rule);
  return found->verdict;
}

// The example's fork allows 30 mm below the stem, and 5 to 20 mm above it.
TEST(Spacers, MoreThanTheForkAllowsBelowTheStemStop) {
  EXPECT_EQ(verdict_with("spacers_below", "spacers_28_20", "spacers_below_limit"), model::Verdict::ok);
  EXPECT_EQ(verdict_with("spacers_below", "spacers_28_35", "spacers_below_limit"), model::Verdict::stop);
}

TEST(Spacers, AtTheMostAboveTheStemTheyAreMeasured) {
  EXPECT_EQ(verdict_with("spacers_above", "spacer_28_5", "spacers_above_most"), model::Verdict::ok);
  EXPECT_EQ(verdict_with("spacers_above", "spacer_28_20_above", "spacers_above_most"), model::Verdict::measure);
}

}  // namespace
}  // namespace cotter::kinds
