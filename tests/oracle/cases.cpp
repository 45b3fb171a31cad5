#include "cases.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <set>
#include <stdexcept>

namespace cotter::oracle {
namespace {

using nlohmann::json;

const std::set<std::string> k_sure = {k_read, k_derived, k_memory, k_practice};

Expectation read_expectation(const json& node) {
  Expectation expectation{node.at("at"), nullptr, 0};
  const int kinds = node.contains("equals") + node.contains("near") + node.contains("text");
  if (kinds != 1) throw std::runtime_error(expectation.at + " needs one of equals, near, text");
  if (node.contains("equals")) expectation.value = node.at("equals");
  if (node.contains("text")) expectation.value = node.at("text").get<std::string>();
  if (node.contains("near")) {
    expectation.value = node.at("near").get<double>();
    expectation.tolerance = node.at("tolerance").get<double>();
  }
  return expectation;
}

Trial read_trial(const json& node) {
  Trial trial;
  trial.set = node.value("set", json::object());
  for (const json& one : node.at("expect")) trial.expect.push_back(read_expectation(one));
  if (trial.expect.empty()) throw std::runtime_error("expects nothing");
  return trial;
}

Case read_case(const json& node) {
  Case one;
  one.id = node.at("id");
  one.what = node.at("what");
  one.engine = node.at("engine");
  one.problem = node.value("problem", json());
  one.reference = node.value("reference", "");
  if (one.problem.is_null() == one.reference.empty()) throw std::runtime_error("needs a problem or a reference");
  one.trials.push_back(read_trial(node));
  for (const json& also : node.value("also", json::array())) one.trials.push_back(read_trial(also));
  one.source = node.at("source");
  one.named = node.value("named", one.source);
  one.trade_case = node.value("trade_case", 0);
  one.table = node.at("table");
  one.sure = node.at("sure");
  one.not_counted_because = node.value("not_counted_because", "");
  if (k_sure.count(one.sure) == 0) throw std::runtime_error("no such degree of sureness: " + one.sure);
  return one;
}

void read_file(const std::filesystem::path& path, std::vector<Case>& cases) {
  std::ifstream stream(path);
  const json file = json::parse(stream);
  for (const json& node : file.at("cases")) {
    try {
      cases.push_back(read_case(node));
    } catch (const std::exception& error) {
      throw std::runtime_error(path.string() + ", " + node.value("id", "a case without id") + ": " + error.what());
    }
    cases.back().file = path.stem().string();
    cases.back().topic = file.at("topic");
    cases.back().counted = file.at("counted");
  }
}

}  // namespace

std::filesystem::path case_folder() {
  return std::filesystem::path(COTTER_SOURCE_DIR) / "tests/oracle/cases";
}

std::filesystem::path problem_folder() {
  return std::filesystem::path(COTTER_SOURCE_DIR) / "tests/oracle/problems";
}

std::vector<Case> load_cases() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(case_folder()))
    if (entry.path().extension() == ".json") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  std::vector<Case> cases;
  for (const auto& file : files) read_file(file, cases);
  return cases;
}

bool counts(const Case& one) {
  return one.counted && one.not_counted_because.empty() && one.sure == k_read;
}

std::string unmet(const json& output, const Expectation& expectation) {
  const json::json_pointer place(expectation.at);
  if (!output.contains(place)) return expectation.at + " is not in the output; expected " + expectation.value.dump();
  const json& found = output.at(place);
  const bool met = expectation.tolerance > 0
                       ? found.is_number() &&
                             std::abs(found.get<double>() - expectation.value.get<double>()) <= expectation.tolerance
                       : found == expectation.value;
  if (met) return "";
  return expectation.at + " is " + found.dump() + "; expected " + in_words(expectation);
}

std::string in_words(const Expectation& expectation) {
  const json& value = expectation.value;
  std::string words = expectation.at + " = " + (value.is_string() ? value.get<std::string>() : value.dump());
  if (expectation.tolerance > 0) words += " ± " + json(expectation.tolerance).dump();
  return words;
}

}  // namespace cotter::oracle
