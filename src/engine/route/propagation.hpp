#pragma once
// Removes from domains what can no longer be part of a plan: sets that an aperture does not take, seats without ways,
// ways without seats, and what the nogoods forbid.

#include <vector>

#include "engine/route/aperture_choice.hpp"
#include "engine/route/columns.hpp"
#include "engine/route/domains.hpp"
#include "engine/route/nogoods.hpp"

namespace cotter::engine::route {

class Propagation {
 public:
  Propagation(const Columns& columns, ApertureChoice& choice);

  /// All ways and seats, of which nothing was looked at yet: the next `settle` looks at everything.
  Domains everything();

  /// Each of these leaves its consequences to `settle`.
  void assume(Domains& domains, Literal literal);
  void choose_way(Domains& domains, std::size_t way);
  void drop_way(Domains& domains, std::size_t word, int bit, int line);
  void drop_seat(Domains& domains, int device, int seat);

  /// Follows all consequences; false when nothing is left.
  bool settle(Domains& domains);

  const Variables& variables() const { return variables_; }
  Nogoods& nogoods() { return nogoods_; }

 private:
  void keep_seats(Domains& domains, int device, SeatSet seats);
  bool refresh_line(Domains& domains, int line);
  void refresh_ends(Domains& domains, int line);
  bool refresh_device(Domains& domains, int device);
  bool refresh_aperture(Domains& domains, int aperture);
  bool take_seat(Domains& domains, int device);
  void drop_through(Domains& domains, int line, int aperture);
  void drop_unseated(Domains& domains, int line);
  bool settle_sets(Domains& domains);
  bool follow_nogoods(Domains& domains);

  const Columns& columns_;
  const Problem& problem_;
  ApertureChoice& choice_;
  Variables variables_;
  Nogoods nogoods_;
  LineSet stale_lines_ = 0;
  std::vector<int> stale_devices_;
  ApertureSet stale_apertures_;
  std::vector<Literal> news_;  ///< literals that have become true
  std::vector<Literal> forbidden_;
};

}  // namespace cotter::engine::route
