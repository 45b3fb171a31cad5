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
    if (const model::Part* part = assembly.find_part(wish.part); part != nullptr && part->line)
      facts.insert("line:" + std::string(model::word_for(part->line->kind)));
  for (const model::StackDefinition& stack : assembly.stacks())
    for (const model::StackForm& form : stack.forms)
      if (form.cut) facts.insert("cut:" + form.id);
  for (const std::string& operation : pulls.rework) facts.insert("rework:" + operation);
  if (pulls.lines_cross_shell) facts.insert("shell_lines");
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

std::vector<model::Operation> pull_operations(const model::Operation& pattern, const PullPlan& pulls) {
  std::vector<model::Operation> out;
  for (const std::string& line : pulls.pulls) {
    const model::Run* run = run_of(pulls, line);
    if (run == nullptr) continue;
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

}  // namespace

std::vector<model::Operation> work_operations(const Assembly& assembly, const PullPlan& pulls) {
  const std::set<std::string> facts = facts_of(assembly, pulls);
  std::map<std::string, const model::Operation*> all;
  std::set<std::string> kept;
  for (const model::Operation& operation : assembly.catalog().work.operations) {
    all[operation.id] = &operation;
    const bool pattern_without_lines = operation.id == k_pull_pattern && pulls.pulls.empty();
    if (all_hold(operation.when, facts) && !pattern_without_lines) kept.insert(operation.id);
  }
  std::vector<model::Operation> out;
  std::vector<std::string> pull_ids;
  for (const model::Operation& operation : assembly.catalog().work.operations) {
    if (!kept.contains(operation.id)) continue;
    model::Operation here = operation;
    here.after = inherited(operation.after, all, kept);
    if (operation.id != k_pull_pattern) {
      out.push_back(std::move(here));
      continue;
    }
    for (model::Operation& pull : pull_operations(here, pulls)) {
      pull_ids.push_back(pull.id);
      out.push_back(std::move(pull));
    }
  }
  for (model::Operation& operation : out) {
    const auto pattern = std::find(operation.after.begin(), operation.after.end(), k_pull_pattern);
    if (pattern == operation.after.end()) continue;
    operation.after.erase(pattern);
    operation.after.insert(operation.after.end(), pull_ids.begin(), pull_ids.end());
  }
  return out;
}

}  // namespace cotter::plan
