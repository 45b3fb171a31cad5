#include "engine/sequence/check.hpp"

#include <algorithm>
#include <set>

namespace cotter::engine::sequence {
namespace {

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : "|") + name;
  return text;
}

}  // namespace

std::vector<Violation> violations(const Problem& problem, const std::vector<std::size_t>& order) {
  using Kind = Violation::Kind;
  std::vector<Violation> list;
  std::set<std::string> open, done;
  for (const Access& access : problem.accesses) {
    if (access.open_at_start) open.insert(access.id);
  }
  for (const std::size_t index : order) {
    if (index >= problem.operations.size()) {
      list.push_back({Kind::not_an_operation, index});
      continue;
    }
    const Operation& operation = problem.operations[index];
    for (const std::string& earlier : operation.after) {
      if (done.count(earlier) == 0) list.push_back({Kind::too_early, index, earlier});
    }
    for (const std::vector<std::string>& group : operation.needs_open) {
      const bool one_open =
          std::any_of(group.begin(), group.end(), [&](const std::string& id) { return open.count(id); });
      if (!one_open) list.push_back({Kind::access_closed, index, joined(group)});
    }
    for (const std::string& access : operation.closes) open.erase(access);
    open.insert(operation.opens.begin(), operation.opens.end());
    if (!done.insert(operation.id).second) list.push_back({Kind::twice, index});
  }
  for (std::size_t index = 0; index < problem.operations.size(); ++index) {
    if (done.count(problem.operations[index].id) == 0) list.push_back({Kind::missing, index});
  }
  return list;
}

}  // namespace cotter::engine::sequence
