#include "solve_program.hpp"

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>
#include <sys/wait.h>
#include <unistd.h>

namespace cotter::oracle {
namespace {

std::string quoted(const std::string& text) {
  std::string result = "'";
  for (const char c : text) result += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return result + "'";
}

std::string contents(const std::string& path) {
  std::ifstream stream(path);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

}  // namespace

Solved solve(const std::string& engine, const nlohmann::json& problem, const std::string& name) {
  const std::string base = testing::TempDir() + "cotter_oracle_" + std::to_string(getpid()) + "_" + name;
  const std::string file = base + ".json";
  const std::string output = base + ".out";
  const std::string trouble = base + ".err";
  std::ofstream(file) << problem.dump(2) << "\n";
  const std::string command = quoted(COTTER_PROGRAM) + " solve " + quoted(engine) + " " + quoted(file) + " >" +
                              quoted(output) + " 2>" + quoted(trouble);
  const int status = std::system(command.c_str());
  const Solved solved{WIFEXITED(status) ? WEXITSTATUS(status) : -1, contents(output), contents(trouble)};
  for (const std::string& path : {file, output, trouble}) std::filesystem::remove(path);
  return solved;
}

}  // namespace cotter::oracle
