#include "engine/stack/tables.hpp"

#include <algorithm>
#include <cstdlib>
#include <numeric>

#include "engine/stack/assess.hpp"

namespace cotter::engine::stack {
namespace {

/// What one piece adds, and how many such pieces there are.
struct Stock {
  Whole gain = 0;
  int most = 0;
};

/// The variables from v to the end of their kind: the best first, no more than the kit holds of the kind.
template <class Before>
std::vector<Stock> of_one_kind(const Gains& gains, const std::vector<Variable>& variables, int in_kit, std::size_t v,
                               std::size_t f, Before before) {
  std::vector<Stock> list;
  for (std::size_t u = v; u < variables.size() && variables[u].piece == variables[v].piece; ++u)
    list.push_back({gains.at(u, f), variables[u].most});
  std::stable_sort(list.begin(), list.end(), [&](const Stock& a, const Stock& b) { return before(a.gain, b.gain); });
  for (Stock& stock : list) {
    stock.most = std::min(stock.most, in_kit);
    in_kit -= stock.most;
  }
  return list;
}

/// Adds up the best pieces of `own` and `later`, both with the best first, into `sums` from its second place on.
template <class Before>
void add_up(const std::vector<Stock>& own, const std::vector<Stock>& later, int most, std::size_t step, Whole* sums,
            Before before) {
  std::size_t i = 0, j = 0;
  Whole sum = 0;
  for (int used = 0; used < most && (i < own.size() || j < later.size());) {
    const bool from_own = j == later.size() || (i < own.size() && !before(later[j].gain, own[i].gain));
    const Stock& stock = from_own ? own[i++] : later[j++];
    for (int n = 0; n < stock.most && used < most; ++n) {
      sum += stock.gain;
      sums[static_cast<std::size_t>(++used) * step] = sum;
    }
  }
}

template <class Before>
void merge_in(const std::vector<Stock>& own, std::vector<Stock>& later, Before before) {
  for (const Stock& stock : own) {
    const auto place = std::upper_bound(later.begin(), later.end(), stock,
                                        [&](const Stock& a, const Stock& b) { return before(a.gain, b.gain); });
    later.insert(place, stock);
  }
}

/// Fills one table of bounds, the best being what `before` puts first.
template <class Before>
void fill(const Gains& gains, const std::vector<Variable>& variables, const std::vector<Piece>& kit, std::size_t forms,
          int most_pieces, std::vector<Whole>& table, Before before) {
  const std::size_t row = (static_cast<std::size_t>(most_pieces) + 1) * forms;
  table.assign((variables.size() + 1) * row, 0);
  for (std::size_t f = 0; f < forms; ++f) {
    std::vector<Stock> later;  // kinds after the variable's own
    for (std::size_t v = variables.size(); v-- > 0;) {
      const std::vector<Stock> own = of_one_kind(gains, variables, kit[variables[v].piece].count, v, f, before);
      add_up(own, later, most_pieces, forms, &table[v * row + f], before);
      if (v == 0 || variables[v - 1].piece != variables[v].piece) merge_in(own, later, before);
    }
  }
}

int most_pieces_of(const Linear& linear, const Problem& problem) {
  Whole slots = 0, kit = 0;
  for (const Slot& slot : problem.slots) slots += slot.most_pieces;
  for (const Piece& piece : problem.kit) kit += piece.count;
  return linear.variables.empty() ? 0 : static_cast<int>(std::min(slots, kit));
}

}  // namespace

Bounds::Bounds(const Gains& gains, const Linear& linear, const std::vector<Piece>& kit, std::size_t forms,
               int most_pieces)
    : forms_(forms), stride_(static_cast<std::size_t>(most_pieces) + 1) {
  const std::vector<Variable>& variables = linear.variables;
  fill(gains, variables, kit, forms, most_pieces, least_, std::less<Whole>());
  fill(gains, variables, kit, forms, most_pieces, greatest_, std::greater<Whole>());
  available_.assign(variables.size() + 1, 0);
  int later = 0, own = 0;
  for (std::size_t v = variables.size(); v-- > 0;) {
    own += variables[v].most;
    const int in_kit = std::min(own, kit[variables[v].piece].count);
    available_[v] = later + in_kit;
    if (v > 0 && variables[v - 1].piece == variables[v].piece) continue;
    later += in_kit;
    own = 0;
  }
}

Tables::Tables(const Linear& linear, const Problem& problem)
    : linear_(linear),
      problem_(problem),
      most_pieces_(most_pieces_of(linear, problem)),
      forms_(ordered_forms()),
      ends_(ends()),
      gains_(gains()),
      bounds_(gains_, linear, problem.kit, windows_, most_pieces_) {}

/// Forms with a window first, then those that only rank.
std::vector<std::size_t> Tables::ordered_forms() {
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

std::vector<Ends> Tables::ends() const {
  std::vector<Ends> list;
  for (const std::size_t index : forms_) {
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

Gains Tables::gains() const {
  Gains gains{forms_.size()};
  for (const Variable& variable : linear_.variables) {
    for (const std::size_t form : forms_) {
      const Length thickness = problem_.kit[variable.piece].thickness;
      gains.list.push_back(in_nanometres(thickness * linear_.forms[form].slot_factors[variable.slot]));
    }
  }
  return gains;
}

std::array<Whole, 2> Tables::slot_factors(std::size_t f) const {
  std::array<Whole, 2> factors{0, 0};
  const std::vector<Whole>& row = linear_.forms[forms_[f]].slot_factors;
  std::copy_n(row.begin(), std::min<std::size_t>(row.size(), 2), factors.begin());
  return factors;
}

bool Tables::out_of_reach(Goal goal) const {
  for (std::size_t f = 0; f < windows_; ++f) {
    const LinearForm& form = linear_.forms[forms_[f]];
    const Length low = form.window->low() - (goal == Goal::certain ? form.range.low() : form.range.high());
    const Length high = form.window->high() - (goal == Goal::certain ? form.range.high() : form.range.low());
    Whole step = 0;
    for (std::size_t v = 0; v < variables().size(); ++v) step = std::gcd(step, gain(v, f));
    const Whole last = step == 0 ? 0 : in_nanometres(divided_down(high, step)) * step;
    if (last < in_nanometres(low) || last > in_nanometres(high)) return true;
  }
  return false;
}

}  // namespace cotter::engine::stack
