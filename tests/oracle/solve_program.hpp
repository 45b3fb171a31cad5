#pragma once
// Runs the real program on a problem, as a user would.

#include <nlohmann/json.hpp>
#include <string>

namespace cotter::oracle {

struct Solved {
  int exit_code = -1;
  std::string output;
  std::string trouble;
};

/// `cotter solve ENGINE FILE` with the problem written to a file of its own in the test's temporary folder.
/// `name` is a file name that no other test uses.
Solved solve(const std::string& engine, const nlohmann::json& problem, const std::string& name);

}  // namespace cotter::oracle
