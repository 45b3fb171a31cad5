#include "engine/stack/search.hpp"

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <numeric>
#include <tuple>

#include "engine/stack/assess.hpp"

namespace cotter::engine::stack {
namespace {

using Whole = std::int64_t;
constexpr Whole k_no_miss = std::numeric_limits<Whole>::max();

/// A set as the search meets it, with what it is ranked by. `counts` has one place for each variable, by slot and
/// piece: of two sets the one with more of the first piece that differs comes first.
struct Candidate {
  std::size_t outside_wish = 0;
  Whole off_target = 0;  ///< half nanometres
  std::vector<std::uint8_t> counts;
};

bool ranks_before(const Candidate& a, const Candidate& b) {
  if (a.outside_wish != b.outside_wish) return a.outside_wish < b.outside_wish;
  if (a.off_target != b.off_target) return a.off_target < b.off_target;
  return a.counts > b.counts;
}

/// The best ranked candidates, and how many were met. A heap with the worst on top: most sets are let go at a glance.
class Shortlist {
 public:
  explicit Shortlist(std::size_t most) : most_(std::max<std::size_t>(most, 1)) {}

  void add(const Candidate& candidate) {
    ++seen_;
    if (heap_.size() == most_) {
      if (!ranks_before(candidate, heap_.front())) return;
      std::pop_heap(heap_.begin(), heap_.end(), ranks_before);
      heap_.back() = candidate;
    } else {
      heap_.push_back(candidate);
    }
    std::push_heap(heap_.begin(), heap_.end(), ranks_before);
  }
  bool empty() const { return seen_ == 0; }
  std::size_t seen() const { return seen_; }
  std::vector<Candidate> ranked() const {
    std::vector<Candidate> list = heap_;
    std::sort(list.begin(), list.end(), ranks_before);
    return list;
  }

 private:
  std::size_t most_;
  std::size_t seen_ = 0;
  std::vector<Candidate> heap_;
};

/// What the search needs of a form, in plain numbers: undivided, pieces not counted.
struct Ends {
  Whole low = 0, high = 0, nominal = 0;
  Whole window_low = 0, window_high = 0;
  std::optional<Interval<Length>> wish;
  std::optional<Whole> target;
  Whole scale = 1;  ///< half nanometres in one of the form's own
};

/// Least and greatest that exactly r more pieces, taken from the variables from v on, can add to each window form.
/// Pieces shared between slots are counted for each, so the bounds are wide rather than wrong.
class Bounds {
 public:
  Bounds(const std::vector<std::vector<Whole>>& gains, const std::vector<Variable>& variables, std::size_t forms,
         int most_pieces)
      : forms_(forms), stride_(static_cast<std::size_t>(most_pieces) + 1) {
    const std::size_t rows = variables.size() + 1;
    available_.assign(rows, 0);
    least_.assign(rows * stride_ * forms_, 0);
    greatest_ = least_;
    std::vector<std::vector<std::pair<Whole, int>>> suffix(forms_);
    for (std::size_t v = variables.size(); v-- > 0;) {
      available_[v] = available_[v + 1] + variables[v].most;
      for (std::size_t f = 0; f < forms_; ++f) {
        const std::pair<Whole, int> entry{gains[v][f], variables[v].most};
        suffix[f].insert(std::upper_bound(suffix[f].begin(), suffix[f].end(), entry), entry);
        fill(v, f, suffix[f]);
      }
    }
  }

  bool enough(std::size_t v, int left) const { return available_[v] >= left; }
  Whole least(std::size_t v, int left, std::size_t f) const { return least_[at(v, left, f)]; }
  Whole greatest(std::size_t v, int left, std::size_t f) const { return greatest_[at(v, left, f)]; }

 private:
  std::size_t at(std::size_t v, int left, std::size_t f) const {
    return (v * stride_ + static_cast<std::size_t>(left)) * forms_ + f;
  }

  void fill(std::size_t v, std::size_t f, const std::vector<std::pair<Whole, int>>& suffix) {
    const int most = static_cast<int>(std::min<std::size_t>(stride_ - 1, static_cast<std::size_t>(available_[v])));
    add_up(v, f, most, suffix.begin(), suffix.end(), least_);
    add_up(v, f, most, suffix.rbegin(), suffix.rend(), greatest_);
  }

  template <class Iterator>
  void add_up(std::size_t v, std::size_t f, int most, Iterator entry, Iterator end, std::vector<Whole>& table) {
    Whole sum = 0;
    int used = 0;
    for (; entry != end && used < most; ++entry) {
      for (int i = 0; i < entry->second && used < most; ++i) {
        sum += entry->first;
        table[at(v, ++used, f)] = sum;
      }
    }
  }

  std::size_t forms_;
  std::size_t stride_;
  std::vector<int> available_;
  std::vector<Whole> least_, greatest_;
};

class Search {
 public:
  Search(const Linear& linear, const Problem& problem, const Options& options)
      : linear_(linear),
        problem_(problem),
        options_(options),
        most_pieces_(most_pieces()),
        windowed_(windowed_forms()),
        ends_(ends()),
        gains_(gains()),
        bounds_(gains_, linear.variables, windows_, most_pieces_),
        sums_(ends_.size(), 0),
        places_(places()),
        certain_(options.most_sets),
        open_(options.most_sets) {}

  Found run() {
    for (int pieces = 0; pieces <= most_pieces_ && certain_.empty() && !cut_; ++pieces) {
      goal_ = open_.empty() ? Goal::possible : Goal::certain;
      if (out_of_reach(goal_)) break;
      if (open_.empty()) open_pieces_ = pieces;
      pieces_ = pieces;
      descend_from_root();
    }
    Found found;
    found.complete = !cut_;
    append(certain_, pieces_, Certainty::holds, found);
    append(open_, open_pieces_, Certainty::open, found);
    found.none = found.sets.empty() && !cut_;
    if (found.none) look_for_nearest_miss(found);
    found.nodes = nodes_;
    return found;
  }

 private:
  enum class Goal { possible, certain, nearest };

  int most_pieces() const {
    Whole slots = 0, kit = 0;
    for (const Slot& slot : problem_.slots) slots += slot.most_pieces;
    for (const Piece& piece : problem_.kit) kit += piece.count;
    return linear_.variables.empty() ? 0 : static_cast<int>(std::min(slots, kit));
  }

  /// Forms with a window first, then those that only rank.
  std::vector<std::size_t> windowed_forms() {
    std::vector<std::size_t> list;
    for (std::size_t form = 0; form < linear_.forms.size(); ++form)
      if (linear_.forms[form].window) list.push_back(form);
    windows_ = list.size();
    for (std::size_t form = 0; form < linear_.forms.size(); ++form) {
      const LinearForm& one = linear_.forms[form];
      if (!one.window && (one.wish || one.target)) list.push_back(form);
    }
    return list;
  }

  std::vector<Ends> ends() const {
    std::vector<Ends> list;
    for (const std::size_t index : windowed_) {
      const LinearForm& form = linear_.forms[index];
      Ends& end = list.emplace_back();
      end.low = in_nanometres(form.range.low());
      end.high = in_nanometres(form.range.high());
      end.nominal = in_nanometres(form.nominal);
      if (form.window) end.window_low = in_nanometres(form.window->low());
      if (form.window) end.window_high = in_nanometres(form.window->high());
      end.wish = form.wish;
      if (form.target) end.target = in_nanometres(*form.target);
      end.scale = 2 / form.divisor;
    }
    return list;
  }

  /// Where each variable stands among the counts of a candidate.
  std::vector<std::size_t> places() {
    const auto& variables = linear_.variables;
    order_.resize(variables.size());
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    std::sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
      return std::tuple(variables[a].slot, variables[a].piece) < std::tuple(variables[b].slot, variables[b].piece);
    });
    std::vector<std::size_t> list(variables.size());
    for (std::size_t i = 0; i < order_.size(); ++i) list[order_[i]] = i;
    candidate_.counts.assign(variables.size(), 0);
    return list;
  }

  std::vector<std::vector<Whole>> gains() const {
    std::vector<std::vector<Whole>> table;
    for (const Variable& variable : linear_.variables) {
      std::vector<Whole>& row = table.emplace_back();
      for (const std::size_t form : windowed_) {
        const Length thickness = problem_.kit[variable.piece].thickness;
        row.push_back(in_nanometres(thickness * linear_.forms[form].slot_factors[variable.slot]));
      }
    }
    return table;
  }

  /// No sum of pieces, however many, puts some form where the goal wants it: the form is wider than its window, or
  /// every sum is a multiple of one thickness and none of these multiples lands there.
  bool out_of_reach(Goal goal) const {
    for (std::size_t f = 0; f < windows_; ++f) {
      const LinearForm& form = linear_.forms[windowed_[f]];
      const Length low = form.window->low() - (goal == Goal::certain ? form.range.low() : form.range.high());
      const Length high = form.window->high() - (goal == Goal::certain ? form.range.high() : form.range.low());
      Whole step = 0;
      for (const std::vector<Whole>& row : gains_) step = std::gcd(step, row[f]);
      const Whole last = step == 0 ? 0 : in_nanometres(divided_down(high, step)) * step;
      if (last < in_nanometres(low) || last > in_nanometres(high)) return true;
    }
    return false;
  }

  void descend_from_root() {
    slot_left_.clear();
    for (const Slot& slot : problem_.slots) slot_left_.push_back(slot.most_pieces);
    kit_left_.clear();
    for (const Piece& piece : problem_.kit) kit_left_.push_back(piece.count);
    descend(0, pieces_);
  }

  /// Puts `left` more pieces into the variables from v on.
  void descend(std::size_t v, int left) {
    if (++nodes_ > options_.node_limit) cut_ = true;
    if (cut_) return;
    if (left == 0) {
      if (!hopeless(v, 0)) take();
      return;
    }
    for (; v < linear_.variables.size() && !cut_; ++v) {
      // Fewer variables can only do less: when these cannot, none after them can.
      if (!bounds_.enough(v, left) || hopeless(v, left)) return;
      const Variable& variable = linear_.variables[v];
      int& slot_left = slot_left_[variable.slot];
      int& kit_left = kit_left_[variable.piece];
      for (int count = std::min({variable.most, left, slot_left, kit_left}); count > 0; --count) {
        use(v, count);
        slot_left -= count;
        kit_left -= count;
        descend(v + 1, left - count);
        slot_left += count;
        kit_left += count;
        use(v, -count);
      }
    }
  }

  void use(std::size_t v, int count) {
    std::uint8_t& counted = candidate_.counts[places_[v]];
    counted = static_cast<std::uint8_t>(counted + count);
    for (std::size_t f = 0; f < sums_.size(); ++f) sums_[f] += gains_[v][f] * count;
  }

  bool hopeless(std::size_t v, int left) const {
    for (std::size_t f = 0; f < windows_; ++f) {
      const Ends& form = ends_[f];
      const Whole at_least = sums_[f] + bounds_.least(v, left, f);
      const Whole at_most = sums_[f] + bounds_.greatest(v, left, f);
      if (goal_ == Goal::certain) {
        if (form.low + at_most < form.window_low || form.high + at_least > form.window_high) return true;
      } else {
        const Whole below = form.window_low - (form.high + at_most);
        const Whole above = (form.low + at_least) - form.window_high;
        const Whole miss = std::max(below, above) * form.scale;
        if (goal_ == Goal::possible ? miss > 0 : miss >= best_miss_) return true;
      }
    }
    return false;
  }

  /// No piece is left to place and no bound objects: a set, or a nearer miss.
  void take() {
    if (goal_ == Goal::nearest) return take_miss();
    bool certain = true;
    candidate_.outside_wish = 0;
    candidate_.off_target = 0;
    for (std::size_t f = 0; f < ends_.size(); ++f) {
      const Ends& form = ends_[f];
      const Whole low = form.low + sums_[f], high = form.high + sums_[f];
      if (f < windows_) certain = certain && low >= form.window_low && high <= form.window_high;
      if (form.wish && (low < in_nanometres(form.wish->low()) || high > in_nanometres(form.wish->high())))
        ++candidate_.outside_wish;
      if (form.target) candidate_.off_target += std::abs(form.nominal + sums_[f] - *form.target) * form.scale;
    }
    (certain ? certain_ : open_).add(candidate_);
  }

  void take_miss() {
    Whole worst = std::numeric_limits<Whole>::min();
    for (std::size_t f = 0; f < windows_; ++f) {
      const LinearForm& form = linear_.forms[windowed_[f]];
      const Length below = form.window->low() - (form.range.high() + quantity::nanometres(sums_[f]));
      const Length above = (form.range.low() + quantity::nanometres(sums_[f])) - form.window->high();
      const Whole miss = std::max(in_nanometres(below), in_nanometres(above)) * (2 / form.divisor);
      if (miss <= worst) continue;
      worst = miss;
      miss_.form = windowed_[f];
      miss_.off = below > above ? -divided_up(below, form.divisor) : divided_up(above, form.divisor);
    }
    best_miss_ = worst;
    miss_.uses = uses(candidate_.counts);
  }

  std::vector<Use> uses(const std::vector<std::uint8_t>& counts) const {
    std::vector<Use> list;
    for (std::size_t i = 0; i < counts.size(); ++i) {
      const Variable& variable = linear_.variables[order_[i]];
      if (counts[i] > 0) list.push_back({variable.slot, variable.piece, counts[i]});
    }
    return list;
  }

  void look_for_nearest_miss(Found& found) {
    goal_ = Goal::nearest;
    best_miss_ = k_no_miss;
    for (pieces_ = 0; pieces_ <= most_pieces_ && !cut_; ++pieces_) descend_from_root();
    if (best_miss_ != k_no_miss) found.nearest_miss = miss_;
    found.complete = !cut_;
  }

  void append(Shortlist& list, int pieces, Certainty status, Found& found) {
    std::size_t kept = 0;
    for (const Candidate& candidate : list.ranked()) {
      if (found.sets.size() >= std::max<std::size_t>(options_.most_sets, 1)) break;
      SpacerSet& set = found.sets.emplace_back();
      set.uses = uses(candidate.counts);
      set.pieces = pieces;
      set.status = status;
      set.off_target = divided_up(quantity::nanometres(candidate.off_target), 2);
      ++kept;
    }
    found.left_out += list.seen() - kept;
  }

  const Linear& linear_;
  const Problem& problem_;
  const Options& options_;
  int most_pieces_;
  std::size_t windows_ = 0;                ///< forms with a window; they stand first
  std::vector<std::size_t> windowed_;      ///< forms that decide or rank
  std::vector<Ends> ends_;                 ///< of those
  std::vector<std::vector<Whole>> gains_;  ///< by variable, then by window form: what one piece adds
  Bounds bounds_;
  Goal goal_ = Goal::possible;
  int pieces_ = 0;
  int open_pieces_ = 0;
  bool cut_ = false;
  std::int64_t nodes_ = 0;
  std::vector<Whole> sums_;
  std::vector<std::size_t> order_;  ///< variables by slot and piece
  Candidate candidate_;             ///< the set in hand
  std::vector<std::size_t> places_;
  std::vector<int> slot_left_, kit_left_;
  Shortlist certain_, open_;
  Whole best_miss_ = 0;  ///< half nanometres
  NearestMiss miss_;
};

}  // namespace

Found search(const Linear& linear, const Problem& problem, const Options& options) {
  return Search(linear, problem, options).run();
}

}  // namespace cotter::engine::stack
