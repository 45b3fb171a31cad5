#pragma once
// Checks whose answers were printed somewhere else, kept as data: tests/oracle/cases/*.json, one file a topic.
//
// A case is a problem for one engine, what must stand at which place of the output (JSON pointers), and where that
// comes from. `also` runs the same problem again with some values set anew: the limit, and just beyond it.

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace cotter::oracle {

/// What must stand at a place of the output: the same value, or a number within a tolerance.
struct Expectation {
  std::string at;
  nlohmann::json value;
  double tolerance = 0;
};

/// One trial of the program.
struct Trial {
  nlohmann::json set = nlohmann::json::object();  ///< JSON pointer into the problem -> value
  std::vector<Expectation> expect;
};

struct Case {
  std::string file;   ///< name of the case file without its ending
  std::string topic;  ///< heading of the file
  bool counted = false;
  std::string id;
  std::string what;
  std::string engine;
  nlohmann::json problem;  ///< the problem itself, or the name of a file in tests/oracle/problems
  std::string reference;   ///< path below COTTER_REFERENCE_DATA instead of `problem`; others' data stays out of here
  std::vector<Trial> trials;
  std::string source;               ///< document, clause or table
  std::string named;                ///< words of the output that name the source
  int trade_case = 0;               ///< number of the trade's problem case it asserts; 0: none
  std::string table;                ///< what at most ten counted checks may come from
  std::string sure;                 ///< one of k_sure
  std::string not_counted_because;  ///< say, when the program's own table came from this very place
};

/// How sure a source is. Only the first is counted.
inline constexpr const char* k_read = "read in source";
inline constexpr const char* k_derived = "derived (closed form)";
inline constexpr const char* k_memory = "from memory";
inline constexpr const char* k_practice = "common practice, no source";

std::filesystem::path case_folder();
std::filesystem::path problem_folder();

/// All cases, by file name and then in the order of the file. **Fails with** std::runtime_error naming file and case.
std::vector<Case> load_cases();

/// Whether a case is one of the outside checks that count.
bool counts(const Case& one);

/// Why the output does not meet the expectation; empty when it does.
std::string unmet(const nlohmann::json& output, const Expectation& expectation);

/// `/checks/0/certainty = holds`, for the reader of docs/checks.md.
std::string in_words(const Expectation& expectation);

}  // namespace cotter::oracle
