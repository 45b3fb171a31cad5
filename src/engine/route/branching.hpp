#pragma once
// Which question the search asks next, and which answer it tries first.

#include <optional>
#include <vector>

#include "engine/route/columns.hpp"
#include "engine/route/domains.hpp"
#include "engine/route/literals.hpp"
#include "engine/route/multipliers.hpp"

namespace cotter::engine::route {

class Branching {
 public:
  Branching(const Columns& columns, const Variables& variables);

  /// The question with most trouble for its answers, disputed ones first; none when every line has one way left and
  /// every device one seat. The answer is that of the cheapest priced way or seat.
  std::optional<Literal> next(const Domains& domains, const Multipliers& multipliers) const;

  /// Questions of a nogood have made trouble; older trouble counts less.
  void blame(const std::vector<Literal>& nogood);

 private:
  struct Best {
    double score = 0;
    std::optional<Literal> literal;
  };

  void look_at_line(const Domains& domains, const Multipliers& multipliers, int line, Best& best) const;
  void look_at_seats(const Domains& domains, const Multipliers& multipliers, int device, Best& best) const;

  const Columns& columns_;
  const Variables& variables_;
  std::vector<double> trouble_;  ///< by variable
  double blame_ = 1;
};

}  // namespace cotter::engine::route
