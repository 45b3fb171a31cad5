#pragma once
// Prices on the room in the apertures: a lower bound on the cost of any plan that sees lines competing for an aperture.
//
// Every line takes up a weight in an aperture (a share of its area, or 1 of 1 where it is exclusive). No set that the
// rules allow weighs more than the aperture's capacity at that enlargement. With any prices >= 0 per unit of weight,
// the cheapest priced way of every line, less what the capacities are worth, is a lower bound (Lagrangian relaxation).
// All in whole numbers, so the bound is certain.

#include <cstdint>
#include <vector>

#include "engine/route/line_set.hpp"
#include "engine/route/problem.hpp"
#include "engine/route/ways.hpp"

namespace cotter::engine::route {

/// Costs are counted in thousandths here, so that small prices can be told apart.
constexpr std::int64_t k_price_unit = 1000;

class Prices {
 public:
  /// `lines` are the ones that are routed.
  Prices(const Problem& problem, const std::vector<Way>& ways, LineSet lines);

  /// Tunes the prices on the ways with `alive` set, starting from the present ones.
  /// **Method** subgradient steps of falling length, each shorter series from the best prices met so far.
  void tune(const std::vector<Way>& ways, const std::vector<char>& alive, int rounds);

  /// Cost of a way in thousandths, with the prices of the room it takes.
  std::int64_t priced(std::size_t way) const { return priced_[way]; }
  /// What the capacities are worth at these prices, in thousandths.
  std::int64_t worth() const { return worth_; }

 private:
  struct Level {
    std::int64_t capacity;
    std::int64_t cost;  ///< thousandths
  };
  struct Room {
    std::vector<std::int64_t> weights;  ///< by line
    std::vector<Level> levels;          ///< by steps of enlargement
  };

  const Level& dearest_level(std::size_t aperture) const;
  void apply(const std::vector<Way>& ways);
  /// Bound in thousandths; fills `use` with the weight that the cheapest ways put into each aperture.
  std::int64_t bound(const std::vector<Way>& ways, const std::vector<char>& alive,
                     std::vector<std::int64_t>& use) const;

  std::size_t lines_;
  std::vector<Room> rooms_;
  std::vector<std::int64_t> price_;
  std::vector<std::int64_t> priced_;
  std::int64_t worth_ = 0;
};

}  // namespace cotter::engine::route
