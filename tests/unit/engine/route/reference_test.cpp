// The eight reference instances, under both limits of pulling.
#include "reference.hpp"

#include <cstdlib>
#include <gtest/gtest.h>
#include <sstream>

#include "engine/route/solve.hpp"

namespace cotter::engine::route {
namespace {

std::optional<std::string> folder() {
  const char* root = std::getenv("COTTER_REFERENCE_DATA");
  return root == nullptr ? std::nullopt : std::optional(std::string(root) + "/route/");
}

bool must_run() {
  const char* ci = std::getenv("CI");
  return ci != nullptr && std::string(ci) == "true";
}

std::vector<std::vector<std::string>> rows(const std::string& path) {
  std::ifstream file(path);
  std::vector<std::vector<std::string>> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.ends_with('\r')) line.pop_back();
    std::istringstream cells(line);
    rows.emplace_back();
    for (std::string cell; std::getline(cells, cell, ',');) rows.back().push_back(cell);
    rows.back().resize(8);
  }
  return rows;
}

void expect(const std::string& name, int pull_permille, const std::string& verdict, const std::string& optimum) {
  SCOPED_TRACE(name + " pull " + std::to_string(pull_permille));
  Problem problem = reference::read(*folder() + name + ".json");
  problem.rules.pull_permille = pull_permille;
  const Result result = solve(problem);
  EXPECT_EQ(word_for(result.status), verdict);
  EXPECT_EQ(result.objective ? std::to_string(*result.objective) : "", optimum);
  EXPECT_EQ(result.bound, result.objective);
  if (result.objective) {
    EXPECT_EQ(violations(problem, result), std::vector<std::string>{});
  } else {
    ASSERT_TRUE(result.conflict);
    EXPECT_TRUE(result.conflict->irreducible);
    EXPECT_FALSE(result.conflict->lines.empty());
  }
}

// Source: eight routing instances with verified optima, optima.csv beside them; columns instance, size, verdict,
// optimum, two of relaxations, and verdict and optimum with pull_permille 500.
TEST(RouteReference, EightInstancesUnderBothLimitsOfPulling) {
  if (!folder()) {
    if (must_run()) FAIL() << "no reference data";
    GTEST_SKIP() << "skipped: no reference data";
  }
  const auto table = rows(*folder() + "optima.csv");
  ASSERT_EQ(table.size(), 9U);
  for (std::size_t i = 1; i < table.size(); ++i) {
    expect(table[i][0], 600, table[i][2], table[i][3]);
    expect(table[i][0], 500, table[i][6], table[i][7]);
  }
}

// Source: the same table, columns least_relax_cost and objective_after_relax; pulling share 600.
TEST(RouteReference, ImpossibleInstancesGiveWayAtTheLeastCost) {
  if (!folder()) {
    if (must_run()) FAIL() << "no reference data";
    GTEST_SKIP() << "skipped: no reference data";
  }
  int impossible = 0;
  for (const auto& row : rows(*folder() + "optima.csv")) {
    if (row[2] != "infeasible") continue;
    SCOPED_TRACE(row[0]);
    ++impossible;
    const std::string path = *folder() + row[0] + ".json";
    const RelaxedResult result = solve_relaxed(reference::read(path), reference::relief(path));
    ASSERT_EQ(result.status, Status::optimal);
    EXPECT_EQ(std::to_string(*result.relax_cost), row[4]);
    EXPECT_EQ(std::to_string(*result.plan.objective), row[5]);
    EXPECT_EQ(violations(result.granted, result.plan), std::vector<std::string>{});
  }
  EXPECT_EQ(impossible, 4);
}

}  // namespace
}  // namespace cotter::engine::route
