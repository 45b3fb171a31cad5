// One number for each example's whole plan: SHA-256 of `plan --json`. Any change of engine, words of the data, catalog
// or example changes it (the hashes of job and catalog are inside); a commit that changes it says so and why, and
// script/approve writes the new ones.
#include <gtest/gtest.h>
#include <map>

#include "program.hpp"

namespace cotter::cli {
namespace {

std::string sha256(const std::string& text) {
  const TemporaryFolder folder;
  const auto path = folder.write("plan.json", text);
  return run_program("/usr/bin/sha256sum", {path.string()}).output.substr(0, 64);
}

std::map<std::string, std::string> approved() {
  std::map<std::string, std::string> out;
  for (const std::string& line : lines_of(text_of(COTTER_SOURCE_DIR "/tests/golden/fingerprints.txt")))
    if (line.size() > 66 && line[0] != '#') out[line.substr(66)] = line.substr(0, 64);
  return out;
}

TEST(Fingerprint, OfEveryExampleIsTheApprovedOne) {
  const auto fingerprints = approved();
  std::size_t examples = 0;
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(COTTER_SOURCE_DIR) / "examples")) {
    if (entry.path().extension() != ".yaml") continue;
    ++examples;
    const std::string name = entry.path().stem();
    ASSERT_TRUE(fingerprints.contains(name)) << name << ": script/approve";
    EXPECT_EQ(sha256(run({"plan", entry.path().string(), "--json"}).output), fingerprints.at(name))
        << "the plan of " << name << " has changed; if this is meant: script/approve, and say why in the commit";
  }
  EXPECT_EQ(examples, fingerprints.size());
}

}  // namespace
}  // namespace cotter::cli
