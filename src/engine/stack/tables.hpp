#pragma once
// What the search and the count read over and over, in plain numbers: windows, what one piece adds to each form, and
// how far the pieces that are left can go.

#include <algorithm>
#include <array>
#include <compare>
#include <cstdlib>

#include "engine/stack/linear.hpp"

namespace cotter::engine::stack {

using Whole = std::int64_t;

/// A form that decides or ranks: undivided, in nanometres, pieces not counted.
struct Ends {
  Whole low = 0, high = 0, nominal = 0;
  Whole window_low = 0, window_high = 0;
  std::optional<Interval<Length>> wish;
  std::optional<Whole> target;
  Whole scale = 1;  ///< half nanometres in one of the form's own
};

enum class Goal { possible, certain };

/// What sets of equally many pieces are ranked by, before the tie is broken by their pieces.
struct Rank {
  bool open = false;
  std::size_t outside_wish = 0;
  Whole off_target = 0;  ///< half nanometres
  auto operator<=>(const Rank&) const = default;
};

/// A set as the search meets it. `counts` has one place for each variable, thick kinds first: of two sets that rank the
/// same, the one with fewer of the last variable that differs comes first, so thin pieces are avoided.
struct Candidate {
  Rank rank;
  std::vector<std::uint8_t> counts;
};

inline bool ranks_before(const Candidate& a, const Candidate& b) {
  if (a.rank != b.rank) return a.rank < b.rank;
  return std::lexicographical_compare(a.counts.rbegin(), a.counts.rend(), b.counts.rbegin(), b.counts.rend());
}

/// What one piece of a variable adds to each form that decides or ranks.
struct Gains {
  std::size_t forms = 0;
  std::vector<Whole> list{};
  Whole at(std::size_t v, std::size_t f) const { return list[v * forms + f]; }
};

/// Least and greatest that exactly r more pieces, taken from the variables from v on, can add to each window form.
/// Slots are taken to have room, so the bounds are wide rather than wrong.
class Bounds {
 public:
  Bounds(const Gains& gains, const Linear& linear, const std::vector<Piece>& kit, std::size_t forms, int most_pieces);

  bool enough(std::size_t v, int left) const { return available_[v] >= left; }
  Whole least(std::size_t v, int left, std::size_t f) const { return least_[at(v, left, f)]; }
  Whole greatest(std::size_t v, int left, std::size_t f) const { return greatest_[at(v, left, f)]; }

 private:
  std::size_t at(std::size_t v, int left, std::size_t f) const {
    return (v * stride_ + static_cast<std::size_t>(left)) * forms_ + f;
  }

  std::size_t forms_;
  std::size_t stride_;
  std::vector<int> available_;
  std::vector<Whole> least_, greatest_;
};

class Tables {
 public:
  Tables(const Linear& linear, const Problem& problem);

  const std::vector<Variable>& variables() const { return linear_.variables; }
  const std::vector<Piece>& kit() const { return problem_.kit; }
  const std::vector<Slot>& slots() const { return problem_.slots; }
  int most_pieces() const { return most_pieces_; }
  std::size_t forms() const { return ends_.size(); }           ///< that decide or rank
  std::size_t windows() const { return windows_; }             ///< of these, those with a window; they stand first
  std::size_t form(std::size_t f) const { return forms_[f]; }  ///< its index in the problem
  Whole gain(std::size_t v, std::size_t f) const { return gains_.at(v, f); }

  /// What one nanometre in the first slot and in the second adds to a form; for no more than two slots.
  std::array<Whole, 2> slot_factors(std::size_t f) const;

  /// What the pieces so far must add to form f, from least to greatest, so that `left` more can bring it to the goal.
  std::pair<Whole, Whole> needed(Goal goal, std::size_t v, int left, std::size_t f) const {
    const Ends& form = ends_[f];
    const bool certain = goal == Goal::certain;
    return {form.window_low - (certain ? form.low : form.high) - bounds_.greatest(v, left, f),
            form.window_high - (certain ? form.high : form.low) - bounds_.least(v, left, f)};
  }

  /// Whether fewer than `left` pieces remain from v on.
  bool too_few(std::size_t v, int left) const { return !bounds_.enough(v, left); }

  /// Whether no `left` more pieces from v on bring the forms, which have `sums` from pieces so far, to the goal.
  bool hopeless(Goal goal, std::size_t v, int left, const Whole* sums) const;

  /// Whether some window is missed by more than `miss` half nanometres whatever `left` more pieces are taken.
  bool misses_by_more(Whole miss, std::size_t v, int left, const Whole* sums) const;

  /// No sum of pieces, however many, puts some form where the goal wants it: the form is wider than its window, or
  /// every sum is a multiple of one thickness and none of these multiples lands there.
  bool out_of_reach(Goal goal) const;

  /// Of a set that misses no window.
  Rank rank(const Whole* sums) const;

 private:
  std::vector<std::size_t> ordered_forms();
  std::vector<Ends> ends() const;
  Gains gains() const;

  const Linear& linear_;
  const Problem& problem_;
  int most_pieces_;
  std::size_t windows_ = 0;
  std::vector<std::size_t> forms_;
  std::vector<Ends> ends_;
  Gains gains_;
  Bounds bounds_;
};

// Bodies: read in the innermost loops.

inline bool Tables::hopeless(Goal goal, std::size_t v, int left, const Whole* sums) const {
  if (goal == Goal::possible) return misses_by_more(0, v, left, sums);
  for (std::size_t f = 0; f < windows_; ++f) {
    const Ends& form = ends_[f];
    if (form.low + sums[f] + bounds_.greatest(v, left, f) < form.window_low) return true;
    if (form.high + sums[f] + bounds_.least(v, left, f) > form.window_high) return true;
  }
  return false;
}

inline bool Tables::misses_by_more(Whole miss, std::size_t v, int left, const Whole* sums) const {
  for (std::size_t f = 0; f < windows_; ++f) {
    const Ends& form = ends_[f];
    const Whole below = form.window_low - (form.high + sums[f] + bounds_.greatest(v, left, f));
    const Whole above = (form.low + sums[f] + bounds_.least(v, left, f)) - form.window_high;
    if (std::max(below, above) * form.scale > miss) return true;
  }
  return false;
}

inline Rank Tables::rank(const Whole* sums) const {
  Rank rank;
  for (std::size_t f = 0; f < ends_.size(); ++f) {
    const Ends& form = ends_[f];
    const Whole low = form.low + sums[f], high = form.high + sums[f];
    if (f < windows_) rank.open = rank.open || low < form.window_low || high > form.window_high;
    if (form.wish && (low < in_nanometres(form.wish->low()) || high > in_nanometres(form.wish->high())))
      ++rank.outside_wish;
    if (form.target) rank.off_target += std::abs(form.nominal + sums[f] - *form.target) * form.scale;
  }
  return rank;
}

}  // namespace cotter::engine::stack
