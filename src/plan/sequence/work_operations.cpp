#include "plan/sequence/work_operations.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "model/words.hpp"

namespace cotter::plan {
namespace {

/// Everything an operation's condition can name.
std::set<std::string> facts_of(const Assembly& assembly, const PullPlan& pulls) {
  std::set<std::string> facts = assembly.facts();
  for (const model::LineWish& wish : assembly.job().sheet.lines)
    if (const model::LineForm* form = assembly.line_of(wish).form; form != nullptr)
      facts.insert("line:" + std::string(model::word_for(form->kind)));
  for (const model::StackDefinition& stack : assembly.stacks())
    for (const model::StackForm& form : stack.forms)
      if (form.cut) facts.insert("cut:" + form.id);
  for (const std::string& operation : pulls.rework) facts.insert("rework:" + operation);
  if (pulls.lines_cross_shell) facts.insert("shell_lines");
  if (std::any_of(pulls.runs.begin(), pulls.runs.end(),
                  [](const model::Run& run) { return run.kind != model::LineForm::Kind::housing; }))
    facts.insert("pulled_lines");
  if (std::any_of(assembly.places().begin(), assembly.places().end(),
                  [](const Seated& seated) { return seated.part && seated.part->used; }))
    facts.insert("used_parts");
  return facts;
}

/// `after` with every dropped operation replaced by what it waited for itself.
std::vector<std::string> inherited(const std::vector<std::string>& after,
                                   const std::map<std::string, const model::Operation*>& all,
                                   const std::set<std::string>& kept) {
  std::vector<std::string> out;
  std::set<std::string> seen;
  std::vector<std::string> open(after.rbegin(), after.rend());
  while (!open.empty()) {
    const std::string id = open.back();
    open.pop_back();
    if (!seen.insert(id).second) continue;
    const auto found = all.find(id);
    if (kept.contains(id) || found == all.end())
      out.push_back(id);
    else
      open.insert(open.end(), found->second->after.rbegin(), found->second->after.rend());
  }
  return out;
}

const model::Run* run_of(const PullPlan& pulls, const std::string& line) {
  const auto found =
      std::find_if(pulls.runs.begin(), pulls.runs.end(), [&](const model::Run& run) { return run.line == line; });
  return found == pulls.runs.end() ? nullptr : &*found;
}

std::string_view pattern_of(const model::Run& run, const std::map<std::string, const model::Operation*>& all) {
  const bool housing = run.kind == model::LineForm::Kind::housing && all.contains(std::string(k_housing_pattern));
  return housing ? k_housing_pattern : k_pull_pattern;
}

/// The pulls of the lines that follow this pattern.
std::vector<model::Operation> pull_operations(const model::Operation& pattern, const PullPlan& pulls,
                                              const std::map<std::string, const model::Operation*>& all) {
  std::vector<model::Operation> out;
  for (const std::string& line : pulls.pulls) {
    const model::Run* run = run_of(pulls, line);
    if (run == nullptr || pattern_of(*run, all) != pattern.id) continue;
    model::Operation pull = pattern;
    pull.id = std::string(k_pull_prefix) + line;
    while (pull.label.ends_with('.')) pull.label.pop_back();
    pull.label += ": " + run->number + ", " + run->label + ", " + run->from + " to " + run->to + ".";
    for (const model::PullOrder& order : pulls.needed)
      if (order.then == run->number)
        for (const model::Run& first : pulls.runs)
          if (first.number == order.first) pull.after.push_back(std::string(k_pull_prefix) + first.line);
    out.push_back(std::move(pull));
  }
  return out;
}

bool is_pattern(const std::string& operation) {
  return operation == k_pull_pattern || operation == k_housing_pattern;
}

/// `after` with each pattern replaced by the pulls made from it.
void name_pulls(std::vector<std::string>& after, const std::map<std::string, std::vector<std::string>>& made) {
  std::vector<std::string> pulls;
  for (const auto& [pattern, ids] : made)
    if (std::erase(after, pattern) > 0) pulls.insert(pulls.end(), ids.begin(), ids.end());
  after.insert(after.end(), pulls.begin(), pulls.end());
}

}  // namespace

std::vector<model::Operation> work_operations(const Assembly& assembly, const PullPlan& pulls) {
  const std::set<std::string> facts = facts_of(assembly, pulls);
  std::map<std::string, const model::Operation*> all;
  for (const model::Operation& operation : assembly.catalog().work.operations) all[operation.id] = &operation;
  std::set<std::string> kept;
  for (const model::Operation& operation : assembly.catalog().work.operations) {
    const bool pattern_without_lines = is_pattern(operation.id) && pull_operations(operation, pulls, all).empty();
    if (all_hold(operation.when, facts) && !pattern_without_lines) kept.insert(operation.id);
  }
  std::vector<model::Operation> out;
  std::map<std::string, std::vector<std::string>> made;
  for (const model::Operation& operation : assembly.catalog().work.operations) {
    if (!kept.contains(operation.id)) continue;
    model::Operation here = operation;
    here.after = inherited(operation.after, all, kept);
    if (!is_pattern(operation.id)) {
      out.push_back(std::move(here));
      continue;
    }
    for (model::Operation& pull : pull_operations(here, pulls, all)) {
      made[operation.id].push_back(pull.id);
      out.push_back(std::move(pull));
    }
  }
  for (model::Operation& operation : out) name_pulls(operation.after, made);
  return out;
}

}  // namespace cotter::plan
