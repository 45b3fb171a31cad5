#include "engine/sequence/search.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

namespace cotter::engine::sequence {
namespace {

using Indices = std::vector<std::size_t>;

class Search {
 public:
  Search(const Steps& steps, const Precedences& precedences, const std::vector<Operation>& operations,
         std::int64_t node_limit)
      : steps_(steps.steps),
        operations_(operations),
        by_state_(!precedences.by_state.empty()),
        node_limit_(node_limit),
        earlier_(steps_.size()),
        done_(steps_.size(), false),
        open_(steps.open_at_start),
        needers_left_(open_.size()),
        closers_left_(open_.size(), 0),
        openers_left_(open_.size(), 0) {
    for (const Reason& edge : precedences.edges) earlier_[edge.later].push_back(edge.earlier);
    for (std::size_t i = 0; i < steps_.size(); ++i) count_in(i, 1);
  }

  Found run() {
    Found found;
    const bool reached = descend(Bench{});
    found.outcome = reached ? Outcome::found : cut_ ? Outcome::cut : Outcome::none;
    found.order = std::move(order_);
    found.nodes = nodes_;
    return found;
  }

 private:
  using State = std::vector<bool>;

  void count_in(std::size_t operation, int by) {
    const Step& step = steps_[operation];
    for (const Indices& group : step.needs) {
      for (const std::size_t access : group) needers_left_[access][operation] += by;
    }
    for (const std::size_t access : step.closes) closers_left_[access] += by;
    for (const std::size_t access : step.opens) openers_left_[access] += by;
  }

  /// Tries to complete the order from here. When a safe operation fails, everything does.
  bool descend(const Bench& bench) {
    if (order_.size() == steps_.size()) return true;
    if (++nodes_ > node_limit_) cut_ = true;
    if (cut_ || (by_state_ && (some_need_is_lost() || dead_.count(state()) > 0))) return false;
    for (const std::size_t operation : candidates(ready_by_rank(bench))) {
      if (try_next(operation, bench)) return true;
      if (cut_) return false;
    }
    dead_.insert(state());
    return false;
  }

  /// The first by rank, and should it fail the first safe one; everything only when nothing is safe.
  Indices candidates(const Indices& ready) const {
    const auto safe = std::find_if(ready.begin(), ready.end(), [this](std::size_t i) { return is_safe(i); });
    if (safe == ready.end()) return ready;
    return safe == ready.begin() ? Indices{*safe} : Indices{ready.front(), *safe};
  }

  bool try_next(std::size_t operation, Bench bench) {
    const State open_before = open_;
    const Step& step = steps_[operation];
    for (const std::size_t access : step.closes) open_[access] = false;
    for (const std::size_t access : step.opens) open_[access] = true;
    done_[operation] = true;
    order_.push_back(operation);
    count_in(operation, -1);
    bench.take_up(operations_[operation]);
    if (descend(bench)) return true;
    count_in(operation, 1);
    order_.pop_back();
    done_[operation] = false;
    open_ = open_before;
    return false;
  }

  bool is_ready(std::size_t operation) const {
    if (done_[operation]) return false;
    const Indices& earlier = earlier_[operation];
    if (!std::all_of(earlier.begin(), earlier.end(), [this](std::size_t i) { return done_[i]; })) return false;
    const auto& needs = steps_[operation].needs;
    return std::all_of(needs.begin(), needs.end(), [this](const Indices& group) {
      return std::any_of(group.begin(), group.end(), [this](std::size_t access) { return open_[access]; });
    });
  }

  Indices ready_by_rank(const Bench& bench) const {
    Indices ready;
    std::map<std::string, int> at_position;
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      if (!is_ready(i)) continue;
      ready.push_back(i);
      ++at_position[operations_[i].position];
    }
    const auto rank = [&](std::size_t i) {
      const Operation& operation = operations_[i];
      const bool moves = bench.changes_position(operation);
      return std::tuple(operation.reversible == Reversible::no, moves, moves ? -at_position[operation.position] : 0,
                        bench.changes_side(operation), bench.tools_to_fetch(operation),
                        operation.reversible == Reversible::costly, !operation.checks, i);
    };
    std::vector<std::pair<decltype(rank(0)), std::size_t>> ranked;
    for (const std::size_t i : ready) ranked.emplace_back(rank(i), i);
    std::sort(ranked.begin(), ranked.end());
    std::transform(ranked.begin(), ranked.end(), ready.begin(), [](const auto& entry) { return entry.second; });
    return ready;
  }

  /// Whether an operation not yet done, other than this one, names the access.
  bool needed_by_others(std::size_t access, std::size_t operation) const {
    return std::any_of(needers_left_[access].begin(), needers_left_[access].end(),
                       [operation](const auto& entry) { return entry.second > 0 && entry.first != operation; });
  }

  /// Doing it now cannot spoil any order that does it later: it closes nothing that is still needed, and opens nothing
  /// that is still needed and may be closed after it.
  bool is_safe(std::size_t operation) const {
    const Step& step = steps_[operation];
    const auto harmless = [&](std::size_t access) { return !needed_by_others(access, operation); };
    return std::all_of(step.closes.begin(), step.closes.end(),
                       [&](std::size_t access) { return !open_[access] || harmless(access); }) &&
           std::all_of(step.opens.begin(), step.opens.end(),
                       [&](std::size_t access) { return closers_left_[access] == 0 || harmless(access); });
  }

  /// Some operation needs a group that is closed and that nothing will open again.
  bool some_need_is_lost() const {
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      if (done_[i]) continue;
      for (const Indices& group : steps_[i].needs) {
        const bool possible = std::any_of(group.begin(), group.end(), [this](std::size_t access) {
          return open_[access] || openers_left_[access] > 0;
        });
        if (!possible) return true;
      }
    }
    return false;
  }

  State state() const {
    State state = done_;
    state.insert(state.end(), open_.begin(), open_.end());
    return state;
  }

  const std::vector<Step>& steps_;
  const std::vector<Operation>& operations_;
  bool by_state_;
  std::int64_t node_limit_;
  std::vector<Indices> earlier_;
  State done_, open_;
  std::vector<std::map<std::size_t, int>> needers_left_;  ///< by access: operation -> groups that name the access
  std::vector<int> closers_left_, openers_left_;
  Indices order_;
  std::set<State> dead_;
  std::int64_t nodes_ = 0;
  bool cut_ = false;
};

}  // namespace

bool Bench::changes_position(const Operation& operation) const {
  return position_ != nullptr && !operation.position.empty() && operation.position != position_->position;
}

bool Bench::changes_side(const Operation& operation) const {
  return side_ != nullptr && !operation.side.empty() && operation.side != side_->side;
}

int Bench::tools_to_fetch(const Operation& operation) const {
  if (tools_ == nullptr) return 0;
  return static_cast<int>(std::count_if(operation.tools.begin(), operation.tools.end(), [this](const auto& tool) {
    return std::find(tools_->tools.begin(), tools_->tools.end(), tool) == tools_->tools.end();
  }));
}

void Bench::take_up(const Operation& operation) {
  if (!operation.position.empty()) position_ = &operation;
  if (!operation.side.empty()) side_ = &operation;
  if (!operation.tools.empty()) tools_ = &operation;
}

Found find_order(const Steps& steps, const Precedences& precedences, const std::vector<Operation>& operations,
                 std::int64_t node_limit) {
  return Search(steps, precedences, operations, node_limit).run();
}

}  // namespace cotter::engine::sequence
