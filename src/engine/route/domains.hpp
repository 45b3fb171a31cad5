#pragma once
// What is still possible at one node of the search.

#include <vector>

#include "engine/route/columns.hpp"
#include "engine/route/line_set.hpp"
#include "engine/route/literals.hpp"

namespace cotter::engine::route {

/// Copied from node to node, so that a step back is a copy of the node above.
struct Domains {
  std::vector<Word> alive;            ///< ways left, in the words of the columns
  std::vector<ApertureSet> certain;   ///< by line: apertures that every way left passes
  std::vector<ApertureSet> possible;  ///< by line: apertures that some way left passes
  std::vector<LineSet> users;         ///< by aperture: lines certain to pass
  std::vector<LineSet> may;           ///< by aperture: lines that may pass, the certain ones included
  std::vector<SeatSet> seats;         ///< by device
};

enum class Truth { no, yes, open };

inline Truth truth_of(const Domains& domains, const Variables& variables, Literal literal) {
  bool sure = false;
  bool possible = false;
  if (variables.is_passing(literal)) {
    const auto line = static_cast<std::size_t>(variables.line(literal));
    const auto aperture = static_cast<std::size_t>(variables.aperture(literal));
    sure = domains.certain[line][aperture];
    possible = domains.possible[line][aperture];
  } else {
    const SeatSet seats = domains.seats[static_cast<std::size_t>(variables.device(literal))];
    const SeatSet bit = seat_bit(variables.seat(literal));
    sure = seats == bit;
    possible = (seats & bit) != 0;
  }
  if (sure) return literal.yes() ? Truth::yes : Truth::no;
  if (!possible) return literal.yes() ? Truth::no : Truth::yes;
  return Truth::open;
}

}  // namespace cotter::engine::route
