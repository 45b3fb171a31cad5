#include <algorithm>
#include <deque>
#include <set>

#include "engine/sequence/resolve.hpp"

namespace cotter::engine::sequence {
namespace {

using Indices = std::vector<std::size_t>;
using Kind = Reason::Kind;

/// Derives the precedences access by access.
class Derivation {
 public:
  explicit Derivation(const Steps& steps)
      : steps_(steps), openers_(steps.open_at_start.size()), closers_(steps.open_at_start.size()) {}

  Precedences derive() {
    for (std::size_t i = 0; i < steps_.steps.size(); ++i) {
      for (const std::size_t access : steps_.steps[i].opens) openers_[access].push_back(i);
      for (const std::size_t access : steps_.steps[i].closes) closers_[access].push_back(i);
      for (const std::size_t earlier : steps_.steps[i].after) add({Kind::after, earlier, i});
    }
    for (std::size_t i = 0; i < steps_.steps.size(); ++i) {
      for (const Indices& group : steps_.steps[i].needs) split_up(i, group);
    }
    find_what_comes_before();
    for (const auto& [operation, access] : reopened_) cover_reopened(operation, access);
    return std::move(result_);
  }

 private:
  void add(Reason edge) {
    if (pairs_.emplace(edge.earlier, edge.later).second) result_.edges.push_back(std::move(edge));
  }

  /// A demand on one access that can be open becomes edges; a demand with a real alternative stays.
  void split_up(std::size_t operation, const Indices& group) {
    Indices possible;
    for (const std::size_t access : group) {
      if (steps_.open_at_start[access] && closers_[access].empty()) return;
      if (steps_.open_at_start[access] || !openers_[access].empty()) possible.push_back(access);
    }
    const Reason demand{Kind::needs_one_of, operation, operation, group};
    if (possible.empty()) {
      result_.hopeless.push_back(demand);
    } else if (possible.size() > 1) {
      result_.by_state.push_back(demand);
    } else {
      single(operation, possible.front(), demand);
    }
  }

  void single(std::size_t operation, std::size_t access, const Reason& demand) {
    const Indices& openers = openers_[access];
    if (steps_.open_at_start[access]) {
      if (!openers.empty()) return result_.by_state.push_back(demand);
      for (const std::size_t closer : closers_[access]) before_close(operation, access, closer);
    } else if (openers.size() > 1) {
      result_.by_state.push_back(demand);
    } else {
      add({Kind::opens_before_need, openers.front(), operation, {access}});
      if (!closers_[access].empty()) reopened_.emplace_back(operation, access);
    }
  }

  void before_close(std::size_t operation, std::size_t access, std::size_t closer) {
    if (closer != operation) add({Kind::needs_before_close, operation, closer, {access}});
  }

  /// Closed at first, opened once: a closer that comes after the opener comes after the need too; one that comes
  /// before the opener does not matter; any other leaves it to the moment.
  void cover_reopened(std::size_t operation, std::size_t access) {
    const std::size_t opener = openers_[access].front();
    for (const std::size_t closer : closers_[access]) {
      if (before_[closer][opener]) {
        before_close(operation, access, closer);
      } else if (!before_[opener][closer] && closer != operation) {
        result_.by_state.push_back({Kind::needs_one_of, operation, operation, {access}});
        return;
      }
    }
  }

  /// before_[b][a]: the edges so far put a before b.
  void find_what_comes_before() {
    const std::size_t count = steps_.steps.size();
    std::vector<Indices> earlier(count);
    for (const Reason& edge : result_.edges) earlier[edge.later].push_back(edge.earlier);
    before_.assign(count, std::vector<bool>(count, false));
    if (reopened_.empty()) return;
    for (std::size_t start = 0; start < count; ++start) {
      Indices open = earlier[start];
      while (!open.empty()) {
        const std::size_t operation = open.back();
        open.pop_back();
        if (before_[start][operation]) continue;
        before_[start][operation] = true;
        open.insert(open.end(), earlier[operation].begin(), earlier[operation].end());
      }
    }
  }

  const Steps& steps_;
  std::vector<Indices> openers_, closers_;
  std::set<std::pair<std::size_t, std::size_t>> pairs_;
  std::vector<std::pair<std::size_t, std::size_t>> reopened_;  ///< operation and access
  std::vector<std::vector<bool>> before_;
  Precedences result_;
};

/// The shortest way along edges from `start` back to itself, shorter than `limit` edges; empty when there is none.
std::vector<Reason> shortest_way_back(std::size_t start, const std::vector<Indices>& leaving,
                                      const std::vector<Reason>& edges, std::size_t limit) {
  const std::size_t none = edges.size();
  Indices arrived_by(leaving.size(), none), depth(leaving.size(), 0);
  std::deque<std::size_t> queue{start};
  while (!queue.empty()) {
    const std::size_t operation = queue.front();
    queue.pop_front();
    if (depth[operation] + 1 >= limit) return {};
    for (const std::size_t edge : leaving[operation]) {
      const std::size_t next = edges[edge].later;
      if (next == start) {
        std::vector<Reason> circle{edges[edge]};
        for (std::size_t at = operation; at != start; at = edges[arrived_by[at]].earlier) {
          circle.push_back(edges[arrived_by[at]]);
        }
        std::reverse(circle.begin(), circle.end());
        return circle;
      }
      if (arrived_by[next] != none) continue;
      arrived_by[next] = edge;
      depth[next] = depth[operation] + 1;
      queue.push_back(next);
    }
  }
  return {};
}

/// Operations on a circle or after one: what is left when whatever has nothing before it is taken away, again and
/// again.
Indices never_free(const std::vector<Indices>& leaving, const std::vector<Reason>& edges) {
  std::vector<std::size_t> before(leaving.size(), 0);
  for (const Reason& edge : edges) ++before[edge.later];
  Indices free;
  for (std::size_t i = 0; i < leaving.size(); ++i) {
    if (before[i] == 0) free.push_back(i);
  }
  while (!free.empty()) {
    const std::size_t operation = free.back();
    free.pop_back();
    for (const std::size_t edge : leaving[operation]) {
      if (--before[edges[edge].later] == 0) free.push_back(edges[edge].later);
    }
  }
  Indices left;
  for (std::size_t i = 0; i < leaving.size(); ++i) {
    if (before[i] > 0) left.push_back(i);
  }
  return left;
}

}  // namespace

Precedences precedences(const Steps& steps) {
  return Derivation(steps).derive();
}

std::vector<Reason> shortest_circle(std::size_t operations, const std::vector<Reason>& edges) {
  std::vector<Indices> leaving(operations);
  for (std::size_t edge = 0; edge < edges.size(); ++edge) leaving[edges[edge].earlier].push_back(edge);
  std::vector<Reason> best;
  for (const std::size_t start : never_free(leaving, edges)) {
    const std::size_t limit = best.empty() ? operations + 1 : best.size();
    std::vector<Reason> circle = shortest_way_back(start, leaving, edges, limit);
    if (!circle.empty()) best = std::move(circle);
  }
  return best;
}

}  // namespace cotter::engine::sequence
