#include "engine/route/order.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "engine/route/entrants.hpp"

namespace cotter::engine::route {

namespace {

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

/// What waits to be pulled or put in.
struct Waiting {
  LineSet lines = 0;
  std::uint64_t bodies = 0;  ///< bits of the entrants
};

/// Takes lines and devices from the back as long as one can go in last.
struct Unpulled {
  Waiting left;             ///< of which none can go in last; empty when an order was found
  std::vector<int> pulled;  ///< the lines taken, last first
};

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

std::int64_t cost_of(const OpeningCosts& costs, const std::vector<int>& steps) {
  std::int64_t cost = 0;
  for (std::size_t a = 0; a < steps.size(); ++a) cost += costs.of(static_cast<int>(a), steps[a], 1);
  return cost;
}

class Orders {
 public:
  Orders(const Problem& problem, Apertures& apertures, const OpeningCosts& costs, const std::vector<LineSet>& users,
         const std::vector<int>& seats, LineSet lines)
      : problem_(problem),
        apertures_(apertures),
        costs_(costs),
        users_(users),
        entrants_(entrants(problem, seats, lines)),
        lines_(thin_first(problem, lines)) {
    all_.lines = lines;
    all_.bodies = entrants_.empty() ? 0 : ~std::uint64_t{0} >> (64 - entrants_.size());
  }

  std::optional<Order> cheapest(const std::vector<int>& steps) {
    try_orders(steps);
    return std::move(best_);
  }

 private:
  /// One body that must pass one aperture beside those lines.
  template <class Check>
  bool for_line(int line, const Waiting& left, const Check& check) {
    for (std::size_t a = 0; a < users_.size(); ++a)
      if (has(users_[a], line) && !check(static_cast<int>(a), users_[a] & left.lines & ~only(line))) return false;
    return true;
  }

  /// A device follows the lines that are captive to it.
  bool is_ahead_of_its_device(int line, const Waiting& left) const {
    for (std::size_t e = 0; e < entrants_.size(); ++e)
      if ((left.bodies >> e & 1U) != 0 && has(entrants_[e].leads, line)) return true;
    return false;
  }

  bool line_last(int line, const Waiting& left, const std::vector<int>& steps) {
    return !is_ahead_of_its_device(line, left) && for_line(line, left, [&](int a, LineSet others) {
      return apertures_.passes_last(line, others, a, steps[index(a)]);
    });
  }

  bool body_last(std::size_t e, const Waiting& left, const std::vector<int>& steps) {
    const auto& entries = entrants_[e].entries;
    return std::all_of(entries.begin(), entries.end(), [&](int a) { return enters(e, a, left, steps[index(a)]); });
  }

  bool enters(std::size_t e, int aperture, const Waiting& left, int steps) {
    return apertures_.passes_beside(*problem_.devices[index(entrants_[e].device)].body,
                                    users_[index(aperture)] & left.lines, aperture, steps);
  }

  /// Lines are taken before devices, so that a device goes in as early as it can.
  bool take_one(Unpulled& state, const std::vector<int>& steps) {
    for (const int line : lines_) {
      if (!has(state.left.lines, line) || !line_last(line, state.left, steps)) continue;
      state.left.lines &= ~only(line);
      state.pulled.push_back(line);
      return true;
    }
    for (std::size_t e = 0; e < entrants_.size(); ++e) {
      if ((state.left.bodies >> e & 1U) == 0 || !body_last(e, state.left, steps)) continue;
      state.left.bodies &= ~(std::uint64_t{1} << e);
      return true;
    }
    return false;
  }

  bool raise(std::vector<int>& steps, int aperture, const auto& passes) {
    while (!passes(steps[index(aperture)]))
      if (++steps[index(aperture)] > problem_.apertures[index(aperture)].enlarge_max) return false;
    return true;
  }

  /// Raises the steps until `line` can go in last; false when no permitted ones will do.
  bool raise_for_line(std::vector<int>& steps, int line, const Waiting& left) {
    return !is_ahead_of_its_device(line, left) && for_line(line, left, [&](int a, LineSet others) {
      return raise(steps, a, [&](int n) { return apertures_.passes_last(line, others, a, n); });
    });
  }

  bool raise_for_body(std::vector<int>& steps, std::size_t e, const Waiting& left) {
    const auto& entries = entrants_[e].entries;
    return std::all_of(entries.begin(), entries.end(),
                       [&](int a) { return raise(steps, a, [&](int n) { return enters(e, a, left, n); }); });
  }

  void try_orders(const std::vector<int>& steps) {
    if (best_ && cost_of(costs_, steps) >= cost_of(costs_, best_->steps)) return;
    Unpulled state{all_, {}};
    while (take_one(state, steps)) {
    }
    if (state.left.lines == 0 && state.left.bodies == 0) {
      best_ = Order{steps, {state.pulled.rbegin(), state.pulled.rend()}};
      return;
    }
    for (const int line : listed(state.left.lines)) {
      std::vector<int> raised = steps;
      if (raise_for_line(raised, line, state.left)) try_orders(raised);
    }
    for (std::size_t e = 0; e < entrants_.size(); ++e) {
      std::vector<int> raised = steps;
      if ((state.left.bodies >> e & 1U) != 0 && raise_for_body(raised, e, state.left)) try_orders(raised);
    }
  }

  const Problem& problem_;
  Apertures& apertures_;
  const OpeningCosts& costs_;
  const std::vector<LineSet>& users_;
  std::vector<Entrant> entrants_;
  std::vector<int> lines_;
  Waiting all_;
  std::optional<Order> best_;
};

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

std::optional<Order> cheapest_order(const Problem& problem, Apertures& apertures, const OpeningCosts& costs,
                                    const std::vector<LineSet>& users, const std::vector<int>& seats,
                                    const std::vector<int>& steps, LineSet lines) {
  return Orders(problem, apertures, costs, users, seats, lines).cheapest(steps);
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
