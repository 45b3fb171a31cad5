#include "engine/sequence/resolve.hpp"

#include <algorithm>
#include <map>

namespace cotter::engine::sequence {
namespace {

using Index = std::map<std::string, std::size_t>;
using Indices = std::vector<std::size_t>;

void sort_and_thin(Indices& list) {
  std::sort(list.begin(), list.end());
  list.erase(std::unique(list.begin(), list.end()), list.end());
}

class Resolver {
 public:
  explicit Resolver(const Problem& problem) : problem_(problem) {}

  tl::expected<Steps, std::vector<Fault>> resolve() {
    operations_ = index_of(problem_.operations);
    accesses_ = index_of(problem_.accesses);
    index_of(problem_.choices);
    Steps steps;
    for (const Access& access : problem_.accesses) steps.open_at_start.push_back(access.open_at_start);
    for (const Operation& operation : problem_.operations) steps.steps.push_back(step(operation));
    for (const Choice& choice : problem_.choices) look_up(choice.used_by, choice.id, operations_, k_operation);
    if (!faults_.empty()) return tl::unexpected(faults_);
    return steps;
  }

 private:
  static constexpr Fault::Kind k_operation = Fault::Kind::unknown_operation;
  static constexpr Fault::Kind k_access = Fault::Kind::unknown_access;

  template <class T>
  Index index_of(const std::vector<T>& list) {
    Index index;
    for (std::size_t i = 0; i < list.size(); ++i) {
      if (!index.emplace(list[i].id, i).second) faults_.push_back({Fault::Kind::double_id, list[i].id, list[i].id});
    }
    return index;
  }

  Indices look_up(const std::vector<std::string>& names, const std::string& where, const Index& index,
                  Fault::Kind kind) {
    Indices found;
    for (const std::string& name : names) {
      const auto entry = index.find(name);
      if (entry == index.end()) {
        faults_.push_back({kind, where, name});
      } else {
        found.push_back(entry->second);
      }
    }
    sort_and_thin(found);
    return found;
  }

  Step step(const Operation& operation) {
    Step step;
    step.after = look_up(operation.after, operation.id, operations_, k_operation);
    for (const std::vector<std::string>& group : operation.needs_open) {
      if (group.empty()) faults_.push_back({Fault::Kind::empty_group, operation.id, operation.id});
      step.needs.push_back(look_up(group, operation.id, accesses_, k_access));
    }
    step.opens = look_up(operation.opens, operation.id, accesses_, k_access);
    for (const std::size_t access : look_up(operation.closes, operation.id, accesses_, k_access)) {
      if (!std::binary_search(step.opens.begin(), step.opens.end(), access)) step.closes.push_back(access);
    }
    if (operation.hundredths_of_minute < 0) {
      faults_.push_back({Fault::Kind::negative_minutes, operation.id, operation.id});
    }
    return step;
  }

  const Problem& problem_;
  Index operations_, accesses_;
  std::vector<Fault> faults_;
};

}  // namespace

tl::expected<Steps, std::vector<Fault>> resolve(const Problem& problem) {
  return Resolver(problem).resolve();
}

}  // namespace cotter::engine::sequence
