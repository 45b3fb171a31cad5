// Every case of tests/oracle/cases through the real program.
#include <cstdlib>
#include <fstream>
#include <gtest/gtest.h>
#include <ostream>

#include "cases.hpp"
#include "solve_program.hpp"

namespace cotter::oracle {

void PrintTo(const Case& one, std::ostream* stream) {
  *stream << one.file << "/" << one.id << ": " << one.what << " (" << one.source << ")";
}

namespace {

using nlohmann::json;

json parsed_file(const std::filesystem::path& path) {
  std::ifstream stream(path);
  return json::parse(stream);
}

class Oracle : public testing::TestWithParam<Case> {
 protected:
  /// The problem of the case; nothing when it needs reference data that is not there.
  std::optional<json> problem() const {
    const Case& one = GetParam();
    if (one.reference.empty())
      return one.problem.is_string() ? parsed_file(problem_folder() / one.problem.get<std::string>()) : one.problem;
    const char* folder = std::getenv("COTTER_REFERENCE_DATA");
    const auto path = std::filesystem::path(folder ? folder : "") / one.reference;
    if (folder == nullptr || !std::filesystem::exists(path)) return std::nullopt;
    return parsed_file(path);
  }
};

bool on_build_server() {
  const char* ci = std::getenv("CI");
  return ci != nullptr && std::string(ci) == "true";
}

TEST_P(Oracle, Solves) {
  const Case& one = GetParam();
  const auto given = problem();
  if (!given && on_build_server()) FAIL() << "no reference data: set COTTER_REFERENCE_DATA";
  if (!given) GTEST_SKIP() << "skipped: no reference data";
  for (std::size_t i = 0; i < one.trials.size(); ++i) {
    const Trial& trial = one.trials[i];
    json problem = *given;
    for (const auto& [place, value] : trial.set.items()) problem[json::json_pointer(place)] = value;
    SCOPED_TRACE("trial " + std::to_string(i) + " with " + trial.set.dump());
    const Solved solved = solve(one.engine, problem, one.file + "_" + one.id);
    ASSERT_EQ(solved.exit_code, 0) << solved.trouble;
    EXPECT_EQ(solved.trouble, "");
    const json output = json::parse(solved.output, nullptr, false);
    ASSERT_FALSE(output.is_discarded()) << solved.output;
    for (const Expectation& expectation : trial.expect) EXPECT_EQ(unmet(output, expectation), "");
    EXPECT_NE(solved.output.find(one.named), std::string::npos) << "the output does not name its source: " << one.named;
  }
}

INSTANTIATE_TEST_SUITE_P(Case, Oracle, testing::ValuesIn(load_cases()),
                         [](const auto& test) { return test.param.file + "__" + test.param.id; });

}  // namespace
}  // namespace cotter::oracle
