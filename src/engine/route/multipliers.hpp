#pragma once
// Prices for passing an aperture, by line: a lower bound on the cost of any plan that sees lines compete for room.
//
// The problem is taken apart (Lagrangian decomposition): each line picks its cheapest way and pays for every aperture
// on it and for its seats; each device picks a seat and is paid by its lines; each aperture and each place lets pass
// what pays most, by all of its own rules. With any prices >= 0 the sum is a lower bound. Prices are raised where a
// line passes that the aperture does not let pass, and lowered where it lets pass a line that stays away.
// All in whole numbers, so that the bound is certain.

#include <array>
#include <cstdint>
#include <vector>

#include "engine/route/aperture_choice.hpp"
#include "engine/route/columns.hpp"
#include "engine/route/domains.hpp"

namespace cotter::engine::route {

/// Costs are counted in thousandths here, so that small prices can be told apart.
constexpr std::int64_t k_price_unit = 1000;

class Propagation;

class Multipliers {
 public:
  /// `unit` is k_price_unit, or 0 when nothing costs anything and only the question whether there is a plan counts:
  /// then a bound above 0 says that there is none.
  Multipliers(const Columns& columns, ApertureChoice& choice, std::int64_t unit);

  /// Solves all parts for these domains, which must be settled. The bound in thousandths.
  std::int64_t bound(const Domains& domains);
  /// Moves the prices in at most `rounds` steps towards a bound of `target` (thousandths); stops when it is reached.
  /// Ends at the best prices met, or where nothing costs anything at the last ones. Returns the bound there.
  std::int64_t tune(const Domains& domains, int rounds, std::int64_t target);
  /// Drops the ways and seats with which the bound of the last call of `bound` would reach `target`.
  bool drop_dear(Domains& domains, Propagation& propagation, std::int64_t target) const;

  /// Cost of a way with the prices of what it passes, in thousandths.
  std::int64_t priced(std::size_t way) const;
  /// As of the last call of `bound`:
  std::size_t cheapest_way(int line) const { return best_way_[static_cast<std::size_t>(line)]; }
  /// Lines whose cheapest way and the choice of the aperture differ.
  LineSet disputed(int aperture) const {
    return passing_[static_cast<std::size_t>(aperture)] ^ chosen_[static_cast<std::size_t>(aperture)];
  }
  const std::vector<LineSet>& passing() const { return passing_; }
  int cheapest_seat(int device) const { return best_seat_[static_cast<std::size_t>(device)]; }

 private:
  /// A seat whose device uses up an aperture, or takes a place.
  struct Taker {
    int device;
    int seat;
    std::size_t price;
  };
  struct Slope {
    std::size_t price;
    int direction;  ///< +1 = asked for and not given, -1 = given and not asked for
  };

  std::size_t at(std::size_t aperture, int line) const {
    return aperture * line_count_ + static_cast<std::size_t>(line);
  }
  std::int64_t seat_priced(int device, int seat) const;
  void add_takers();
  std::int64_t lines_part(const Domains& domains);
  std::int64_t devices_part(const Domains& domains);
  std::int64_t apertures_part(const Domains& domains);
  std::int64_t places_part(const Domains& domains);
  const Taker* best_taker(const Domains& domains, const std::vector<Taker>& takers) const;
  void find_slope();
  void add_seat_slope(int line, std::size_t end);
  void add_taker_slope(const std::vector<Taker>& takers, const Taker* winner);
  void move(double stride);

  const Columns& columns_;
  const Problem& problem_;
  ApertureChoice& choice_;
  std::int64_t unit_;
  std::size_t line_count_;
  std::vector<std::int64_t> prices_;  ///< of lines in apertures, of lines on seats, of takers
  /// By line and end: price of the line on the first seat there; none when the device has one seat.
  std::vector<std::array<std::size_t, 2>> on_seat_;
  std::vector<std::vector<Taker>> at_aperture_;
  std::vector<std::vector<Taker>> at_place_;
  std::vector<std::vector<std::vector<std::size_t>>> taking_;  ///< by device and seat: prices as a taker
  std::vector<std::size_t> best_way_;                          ///< by line
  std::vector<std::int64_t> least_;                            ///< by line
  std::vector<int> best_seat_;                                 ///< by device
  std::vector<std::int64_t> least_seat_;                       ///< by device
  std::vector<LineSet> passing_;                               ///< by aperture
  std::vector<LineSet> chosen_;                                ///< by aperture
  std::vector<const Taker*> aperture_winner_;
  std::vector<const Taker*> place_winner_;
  std::vector<Slope> slope_;
  std::vector<std::int64_t> best_prices_;
  std::int64_t bound_ = 0;
};

}  // namespace cotter::engine::route
