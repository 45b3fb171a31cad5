#include "engine/route/order.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace cotter::engine::route {

namespace {

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

/// Takes lines from the back as long as one can go in last.
struct Unpulled {
  LineSet left = 0;         ///< lines of which none can go in last; empty when an order was found
  std::vector<int> pulled;  ///< the others, last first
};

bool passes_everywhere(Apertures& apertures, const std::vector<LineSet>& users, const std::vector<int>& steps, int line,
                       LineSet left) {
  for (std::size_t a = 0; a < users.size(); ++a) {
    if (has(users[a], line) &&
        !apertures.passes_last(line, users[a] & left & ~only(line), static_cast<int>(a), steps[a]))
      return false;
  }
  return true;
}

/// Lines from thin to thick; of equals the later first.
std::vector<int> thin_first(const Problem& problem, LineSet lines) {
  std::vector<int> order = listed(lines);
  std::sort(order.begin(), order.end(), [&](int x, int y) {
    const auto& dx = problem.lines[index(x)].diameter;
    const auto& dy = problem.lines[index(y)].diameter;
    return dx != dy ? dx < dy : x > y;
  });
  return order;
}

Unpulled unpull(const Problem& problem, Apertures& apertures, const std::vector<LineSet>& users,
                const std::vector<int>& steps, LineSet lines) {
  Unpulled result{lines, {}};
  std::vector<int> candidates = thin_first(problem, lines);
  for (bool found = true; found;) {
    found = false;
    for (std::size_t i = 0; i < candidates.size() && !found; ++i) {
      const int line = candidates[i];
      if (!passes_everywhere(apertures, users, steps, line, result.left)) continue;
      found = true;
      result.left &= ~only(line);
      result.pulled.push_back(line);
      candidates.erase(candidates.begin() + static_cast<std::ptrdiff_t>(i));
    }
  }
  return result;
}

std::int64_t cost_of(const Problem& problem, const std::vector<int>& steps) {
  std::int64_t cost = 0;
  for (std::size_t a = 0; a < steps.size(); ++a) cost += problem.apertures[a].enlarge_cost * steps[a];
  return cost;
}

/// Raises the steps until `line` can go in last; false when no permitted ones will do.
bool raise_for(const Problem& problem, Apertures& apertures, const std::vector<LineSet>& users, std::vector<int>& steps,
               int line, LineSet left) {
  for (std::size_t a = 0; a < users.size(); ++a) {
    if (!has(users[a], line)) continue;
    const LineSet others = users[a] & left & ~only(line);
    while (!apertures.passes_last(line, others, static_cast<int>(a), steps[a])) {
      if (++steps[a] > problem.apertures[a].enlarge_max) return false;
    }
  }
  return true;
}

void try_orders(const Problem& problem, Apertures& apertures, const std::vector<LineSet>& users,
                const std::vector<int>& steps, LineSet lines, std::optional<Order>& best) {
  if (best && cost_of(problem, steps) >= cost_of(problem, best->steps)) return;
  const Unpulled unpulled = unpull(problem, apertures, users, steps, lines);
  if (unpulled.left == 0) {
    best = Order{steps, {unpulled.pulled.rbegin(), unpulled.pulled.rend()}};
    return;
  }
  for (const int line : listed(unpulled.left)) {
    std::vector<int> raised = steps;
    if (raise_for(problem, apertures, users, raised, line, unpulled.left))
      try_orders(problem, apertures, users, raised, lines, best);
  }
}

/// Pairs collected so far, with what follows from them.
class Followers {
 public:
  void add(const Precedence& pair) {
    pairs_.push_back(pair);
    after_[index(pair.before)] |= only(pair.after);
    for (bool changed = true; changed;) {
      changed = false;
      for (LineSet& after : after_) {
        LineSet reach = after;
        for (LineSet rest = after; rest != 0; rest = without_first(rest)) reach |= after_[index(first(rest))];
        changed = changed || reach != after;
        after = reach;
      }
    }
  }
  LineSet after(int line) const { return after_[index(line)]; }
  std::vector<Precedence> pairs() && { return std::move(pairs_); }

 private:
  std::vector<Precedence> pairs_;
  std::array<LineSet, k_most_lines> after_{};
};

}  // namespace

std::optional<Order> cheapest_order(const Problem& problem, Apertures& apertures, const std::vector<LineSet>& users,
                                    const std::vector<int>& steps, LineSet lines) {
  std::optional<Order> best;
  try_orders(problem, apertures, users, steps, lines, best);
  return best;
}

std::vector<Precedence> precedences(Apertures& apertures, const std::vector<LineSet>& users,
                                    const std::vector<int>& steps, const std::vector<int>& pull_order) {
  Followers followers;
  for (std::size_t a = 0; a < users.size(); ++a) {
    const auto aperture = static_cast<int>(a);
    for (const int before : listed(users[a])) {
      for (const int after : listed(users[a] & ~only(before))) {
        if (!apertures.has_order(users[a], aperture, steps[a], Sooner{after, before}))
          followers.add({before, after, aperture, Precedence::Because::needed});
      }
    }
  }
  // What no pair forces may still need an order: a line that would not pass behind all that may precede it is put
  // before those that come after it in the order found.
  for (std::size_t a = 0; a < users.size(); ++a) {
    const auto aperture = static_cast<int>(a);
    for (auto line = pull_order.begin(); line != pull_order.end(); ++line) {
      if (!has(users[a], *line)) continue;
      const auto may_precede = [&] { return users[a] & ~only(*line) & ~followers.after(*line); };
      for (auto later = pull_order.end(); later-- != line + 1;) {
        if (apertures.passes_last(*line, may_precede(), aperture, steps[a])) break;
        if (has(may_precede(), *later)) followers.add({*line, *later, aperture, Precedence::Because::chosen});
      }
    }
  }
  return std::move(followers).pairs();
}

}  // namespace cotter::engine::route
