#pragma once
// The problem of one aperture alone: which of the lines that offer a price for passing it should pass, so that the
// prices less the cost of its size are most.
//
// Density rules: exactly, by dynamic programming over the sums of squares in the fixed order of pulling, for each size
// that pays. Real packing: exactly by trying subsets when few lines offer a price, else by the areas alone, which never
// refuses a set that packs. Either way the answer is at least the best that the rules allow.

#include <cstdint>
#include <optional>
#include <vector>

#include "engine/route/apertures.hpp"
#include "engine/route/density_table.hpp"
#include "engine/route/line_set.hpp"
#include "engine/route/opening_costs.hpp"

namespace cotter::engine::route {

struct Chosen {
  std::int64_t profit = 0;  ///< prices less costs, in price units
  LineSet lines = 0;
};

/// One question: lines that pass in any case, lines that may, and what each offers.
struct Offers {
  int aperture = 0;
  LineSet certain = 0;
  LineSet others = 0;
  const std::int64_t* price = nullptr;  ///< by line
};

class ApertureChoice {
 public:
  /// `unit` price units make one unit of cost; 0 = sizes are free.
  ApertureChoice(const Problem& problem, Apertures& apertures, const OpeningCosts& costs, std::int64_t unit);

  std::optional<int> least_steps(LineSet lines, int aperture);
  /// Cost of the least size that takes the lines; none when no permitted one does.
  std::optional<std::int64_t> cost(LineSet lines, int aperture);
  /// The most profitable set. Requires that the certain lines fit.
  Chosen best(const Offers& offers);

 private:
  struct State {
    std::int64_t sum;
    std::int64_t value;
    LineSet lines;
  };

  Chosen worth(const Offers& offers, LineSet lines);
  Chosen best_single(const Offers& offers);
  Chosen best_by_subsets(const Offers& offers);
  void try_subsets(const Offers& offers, const std::vector<int>& order, std::size_t next, LineSet chosen,
                   std::int64_t rest, Chosen& best);
  Chosen best_by_sums(const Offers& offers);
  std::optional<State> best_at(const Offers& offers, int steps);
  std::optional<State> best_of_equals(const Offers& offers, int steps, std::int64_t diameter);
  bool pays_for_equals(const Offers& offers, int steps, std::int64_t diameter) const;

  const Problem& problem_;
  Apertures& apertures_;
  const OpeningCosts& costs_;
  std::int64_t unit_;
  DensityTable table_;
  std::vector<std::int64_t> diameters_;  ///< each once, of those that several lines have
  std::vector<State> states_;
  std::vector<State> grown_;
};

}  // namespace cotter::engine::route
