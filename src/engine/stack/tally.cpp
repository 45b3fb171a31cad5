#include "engine/stack/tally.hpp"

#include <array>
#include <cmath>
#include <numeric>

namespace cotter::engine::stack {
namespace {

constexpr std::size_t k_slots = 2;

using Pair = std::array<Whole, k_slots>;

// The sum of a slot is written as the steps its pieces are thicker than as many of the thinnest kind: 0.1, 0.16,
// 0.22 ... mm go in steps of 0.06 mm that way.

/// Sums of the slots, from `low` to `high`, ends included; their counts stand from `first` on, the second
/// slot running fastest.
struct Grid {
  Pair low{0, 0}, high{-1, -1};
  std::size_t first = 0;

  bool empty() const { return high[0] < low[0] || high[1] < low[1]; }
  Whole width() const { return high[1] - low[1] + 1; }
  /// Capped where it would pass 64 bits; far more than is ever laid out.
  Whole size() const {
    constexpr Whole k_cap = Whole{1} << 30;
    return empty() ? 0 : std::min(high[0] - low[0] + 1, k_cap) * std::min(width(), k_cap);
  }
  bool contains(const Pair& at) const {
    return low[0] <= at[0] && at[0] <= high[0] && low[1] <= at[1] && at[1] <= high[1];
  }
  std::size_t index(const Pair& at) const {
    return first + static_cast<std::size_t>((at[0] - low[0]) * width() + at[1] - low[1]);
  }
};

/// A kind of piece: steps it is thicker than the thinnest, how many the kit holds, most for each slot and the variable
/// that says so.
struct Kind {
  Whole excess = 0;
  Whole in_kit = 0;
  std::size_t first_variable = 0;
  Pair most{0, 0};
  std::array<std::size_t, k_slots> variable{0, 0};
};

/// Where a whole set ends up.
struct End {
  Rank rank;
  Pair pieces, sums;
};

Whole divided_down(Whole a, Whole b) {
  return a / b - (a % b != 0 && (a < 0) != (b < 0) ? 1 : 0);
}
Whole divided_up(Whole a, Whole b) {
  return -divided_down(-a, b);
}

/// Calls `visit` with each way to put pieces of a kind into slots that hold `pieces`: fewer in the last slot first.
template <class Visit>
void each_use(const Kind& kind, const Pair& pieces, Visit visit) {
  Pair use;
  for (use[1] = 0; use[1] <= std::min({kind.most[1], pieces[1], kind.in_kit}); ++use[1])
    for (use[0] = 0; use[0] <= std::min({kind.most[0], pieces[0], kind.in_kit - use[1]}); ++use[0]) visit(use);
}

class Counter {
 public:
  Counter(const Tables& tables, Goal goal, int pieces) : tables_(tables), goal_(goal), pieces_(pieces) {
    for (std::size_t s = 0; s < tables.slots().size(); ++s) room_[s] = tables.slots()[s].most_pieces;
    thinnest_ = in_nanometres(tables.kit()[tables.variables().back().piece].thickness);
    for (const Variable& variable : tables.variables()) step_ = std::gcd(step_, excess(variable));
    if (step_ == 0) step_ = 1;  // all kinds equally thick
    for (std::size_t v = 0; v < tables.variables().size(); ++v) add_variable(v);
    for (std::size_t f = 0; f < tables.forms(); ++f) factors_.push_back(tables.slot_factors(f));
  }

  /// No more sets than this, however the windows lie: multisets of variables.
  double most_sets() const {
    const double n = pieces_, v = static_cast<double>(tables_.variables().size());
    return std::exp(std::lgamma(v + n) - std::lgamma(v) - std::lgamma(n + 1));
  }

  /// Lays the grids out; false when they would have more places than `most`.
  bool lay_out(std::int64_t most) {
    grids_.resize((kinds_.size() + 1) * rows());
    Whole total = 0;
    for (std::size_t k = 0; k <= kinds_.size(); ++k) {
      each_filling([&](const Pair& pieces) {
        if (total > most) return;
        Grid& grid = at(k, pieces);
        grid = sums_left(k, pieces);
        grid.first = static_cast<std::size_t>(total);
        total += std::min(grid.size(), most + 1);
      });
    }
    sums_ = total;
    return total <= most;
  }

  void count() {
    ways_.assign(static_cast<std::size_t>(sums_), 0);
    const Grid& start = at(0, {0, 0});
    if (!start.contains({0, 0})) return;
    ways_[start.index({0, 0})] = 1;
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      each_filling([&](const Pair& pieces) {
        const Grid& to = at(k + 1, pieces);
        if (to.empty()) return;
        each_use(kinds_[k], pieces, [&](const Pair& use) {
          const Grid& from = at(k, {pieces[0] - use[0], pieces[1] - use[1]});
          if (!from.empty()) add(from, to, use, kinds_[k].excess);
        });
      });
    }
  }

  Tally result(std::size_t most) {
    Tally tally;
    tally.sums = sums_;
    std::vector<End> ends = whole_sets(tally);
    std::sort(ends.begin(), ends.end(), [](const End& a, const End& b) { return a.rank < b.rank; });
    candidate_.counts.assign(tables_.variables().size(), 0);
    for (std::size_t i = 0; i < ends.size() && tally.best.size() < most;) {
      candidate_.rank = ends[i].rank;
      std::vector<End> alike;
      for (; i < ends.size() && ends[i].rank == candidate_.rank; ++i) alike.push_back(ends[i]);
      trace_back(kinds_.size(), alike, most, tally.best);
    }
    return tally;
  }

 private:
  Whole excess(const Variable& variable) const {
    return in_nanometres(tables_.kit()[variable.piece].thickness) - thinnest_;
  }

  void add_variable(std::size_t v) {
    const Variable& variable = tables_.variables()[v];
    const Piece& piece = tables_.kit()[variable.piece];
    if (v == 0 || tables_.variables()[v - 1].piece != variable.piece)
      kinds_.push_back({excess(variable) / step_, std::min(piece.count, pieces_), v, {}, {}});
    kinds_.back().most[variable.slot] = variable.most;
    kinds_.back().variable[variable.slot] = v;
  }

  std::size_t rows() const { return static_cast<std::size_t>((room_[0] + 1) * (room_[1] + 1)); }
  Grid& at(std::size_t k, const Pair& pieces) {
    return grids_[k * rows() + static_cast<std::size_t>(pieces[0] * (room_[1] + 1) + pieces[1])];
  }

  template <class Visit>
  void each_filling(Visit visit) const {
    Pair pieces;
    for (pieces[0] = 0; pieces[0] <= std::min<Whole>(room_[0], pieces_); ++pieces[0])
      for (pieces[1] = 0; pieces[1] <= std::min<Whole>(room_[1], pieces_ - pieces[0]); ++pieces[1]) visit(pieces);
  }

  /// Least and greatest sum, in steps, of so many pieces in a slot from the kinds before k; none: too few.
  std::optional<std::pair<Whole, Whole>> reachable(std::size_t k, std::size_t slot, Whole pieces) const {
    Whole least = 0, greatest = 0, left = pieces;
    for (std::size_t i = 0; i < k && left > 0; ++i) {
      const Whole used = std::min(left, kinds_[i].most[slot]);
      greatest += used * kinds_[i].excess;
      left -= used;
    }
    if (left > 0) return std::nullopt;
    left = pieces;
    for (std::size_t i = k; i-- > 0 && left > 0;) {
      const Whole used = std::min(left, kinds_[i].most[slot]);
      least += used * kinds_[i].excess;
      left -= used;
    }
    return std::pair(least, greatest);
  }

  /// What the slots may add up to before kind k, so that the pieces still to come can bring every window right.
  Grid sums_left(std::size_t k, const Pair& pieces) const {
    Grid grid;
    const std::size_t v = k < kinds_.size() ? kinds_[k].first_variable : tables_.variables().size();
    const int left = pieces_ - static_cast<int>(pieces[0] + pieces[1]);
    if (tables_.too_few(v, left)) return grid;
    for (std::size_t s = 0; s < k_slots; ++s) {
      const auto ends = reachable(k, s, pieces[s]);
      if (!ends) return Grid{};
      grid.low[s] = ends->first;
      grid.high[s] = ends->second;
    }
    for (int round = 0; round < 2; ++round)
      for (std::size_t f = 0; f < tables_.windows() && !grid.empty(); ++f)
        for (std::size_t s = 0; s < k_slots; ++s) narrow(grid, s, f, pieces, tables_.needed(goal_, v, left, f));
    if (grid.empty()) return Grid{};
    return grid;
  }

  /// What form f gets from slots with so many pieces and these sums, in nanometres.
  Whole gain(std::size_t f, const Pair& pieces, const Pair& sums) const {
    Whole gain = 0;
    for (std::size_t s = 0; s < k_slots; ++s) gain += factors_[f][s] * (pieces[s] * thinnest_ + sums[s] * step_);
    return gain;
  }

  /// Takes off what slot s cannot be when form f must get what lies in `needed`.
  void narrow(Grid& grid, std::size_t s, std::size_t f, const Pair& pieces, std::pair<Whole, Whole> needed) const {
    const Whole own = factors_[f][s] * step_, other = factors_[f][1 - s] * step_;
    const Whole a = other * grid.low[1 - s], b = other * grid.high[1 - s], sure = gain(f, pieces, {0, 0});
    const Whole low = needed.first - sure - std::max(a, b), high = needed.second - sure - std::min(a, b);
    if (own == 0) {
      if (low > 0 || high < 0) grid.high[s] = grid.low[s] - 1;
      return;
    }
    grid.low[s] = std::max(grid.low[s], divided_up(own > 0 ? low : high, own));
    grid.high[s] = std::min(grid.high[s], divided_down(own > 0 ? high : low, own));
  }

  /// Adds the ways of one grid to those of another, moved by `use` pieces.
  void add(const Grid& from, const Grid& to, const Pair& use, Whole excess) {
    const Pair shift{use[0] * excess, use[1] * excess};
    const Whole first = std::max(to.low[0], from.low[0] + shift[0]);
    const Whole last = std::min(to.high[0], from.high[0] + shift[0]);
    const Whole low = std::max(to.low[1], from.low[1] + shift[1]);
    const Whole width = std::min(to.high[1], from.high[1] + shift[1]) - low + 1;
    for (Whole x = first; x <= last && width > 0; ++x) {
      const Whole* source = &ways_[from.index({x - shift[0], low - shift[1]})];
      Whole* target = &ways_[to.index({x, low})];
      for (Whole i = 0; i < width; ++i) target[i] += source[i];
    }
  }

  std::vector<End> whole_sets(Tally& tally) {
    std::vector<End> ends;
    std::vector<Whole> sums(tables_.forms());
    each_filling([&](const Pair& pieces) {
      const Grid& grid = at(kinds_.size(), pieces);
      if (grid.empty() || pieces[0] + pieces[1] < pieces_) return;
      Pair place;
      for (place[0] = grid.low[0]; place[0] <= grid.high[0]; ++place[0])
        for (place[1] = grid.low[1]; place[1] <= grid.high[1]; ++place[1]) {
          const Whole ways = ways_[grid.index(place)];
          if (ways == 0) continue;
          for (std::size_t f = 0; f < sums.size(); ++f) sums[f] = gain(f, pieces, place);
          if (tables_.hopeless(goal_, tables_.variables().size(), 0, sums.data())) continue;
          ends.push_back({tables_.rank(sums.data()), pieces, place});
          (ends.back().rank.open ? tally.open : tally.certain) += ways;
        }
    });
    return ends;
  }

  /// The sets that end in `ends` with the kinds before k, the first ones in order; every way back comes to the start.
  void trace_back(std::size_t k, const std::vector<End>& ends, std::size_t most, std::vector<Candidate>& list) {
    if (k == 0) {
      list.push_back(candidate_);
      return;
    }
    const Kind& kind = kinds_[k - 1];
    each_use(kind, room_, [&](const Pair& use) {
      if (list.size() >= most) return;
      std::vector<End> before;
      for (const End& end : ends) {
        const Pair pieces{end.pieces[0] - use[0], end.pieces[1] - use[1]};
        if (pieces[0] < 0 || pieces[1] < 0) continue;
        const Grid& grid = at(k - 1, pieces);
        const Pair sums{end.sums[0] - use[0] * kind.excess, end.sums[1] - use[1] * kind.excess};
        if (grid.contains(sums) && ways_[grid.index(sums)] > 0) before.push_back({end.rank, pieces, sums});
      }
      if (before.empty()) return;
      for (std::size_t s = 0; s < k_slots; ++s)
        if (kind.most[s] > 0) candidate_.counts[kind.variable[s]] = static_cast<std::uint8_t>(use[s]);
      trace_back(k - 1, before, most, list);
    });
    for (std::size_t s = 0; s < k_slots; ++s)
      if (kind.most[s] > 0) candidate_.counts[kind.variable[s]] = 0;
  }

  const Tables& tables_;
  Goal goal_;
  int pieces_;
  Pair room_{0, 0};
  Whole thinnest_ = 0, step_ = 0;  ///< nanometres
  std::vector<Kind> kinds_;
  std::vector<Pair> factors_;  ///< by form, for the slots
  std::vector<Grid> grids_;    ///< by number of kinds behind, then by pieces in the slots
  Whole sums_ = 0;
  std::vector<Whole> ways_;  ///< to come to a sum
  Candidate candidate_;
};

}  // namespace

std::optional<Tally> tally(const Tables& tables, Goal goal, int pieces, std::size_t most, std::int64_t most_sums) {
  constexpr double k_most_counted = 1e18;
  if (tables.slots().size() > k_slots || tables.variables().empty()) return std::nullopt;
  Counter counter(tables, goal, pieces);
  if (counter.most_sets() > k_most_counted || !counter.lay_out(most_sums)) return std::nullopt;
  counter.count();
  return counter.result(most);
}

}  // namespace cotter::engine::stack
