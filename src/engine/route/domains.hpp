#pragma once
// What is still possible at one node of the search, and what follows from it.

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "engine/route/apertures.hpp"
#include "engine/route/line_set.hpp"
#include "engine/route/prices.hpp"
#include "engine/route/problem.hpp"
#include "engine/route/ways.hpp"

namespace cotter::engine::route {

using SeatSet = std::uint64_t;

/// Copied from node to node, so that a step back is a copy of the node above.
struct Domains {
  std::vector<char> alive;           ///< by way
  std::vector<int> left;             ///< ways left, by line
  std::vector<ApertureSet> certain;  ///< apertures that every way left of a line passes
  std::vector<LineSet> users;        ///< lines certain to pass an aperture
  std::vector<int> steps;            ///< least enlargement for those
  std::vector<SeatSet> seats;        ///< by device
};

/// Cheapest ways left: a certain lower bound, by line and in all.
struct Bound {
  std::vector<std::int64_t> plain;   ///< by line
  std::vector<std::int64_t> priced;  ///< by line, thousandths
  std::int64_t plain_total = 0;
  std::int64_t priced_total = 0;  ///< thousandths

  std::int64_t total() const;
};

/// Removes from domains what can no longer be part of a plan.
class Propagation {
 public:
  Propagation(const Problem& problem, Apertures& apertures, const std::vector<Way>& ways, LineSet lines,
              const Prices& prices);

  Domains everything() const;
  /// Leaves one way to a line, or one seat to a device; takes one way away.
  void choose_way(Domains& domains, std::size_t way);
  void drop_way(Domains& domains, std::size_t way);
  void choose_seat(Domains& domains, int device, int seat);
  void drop_seat(Domains& domains, int device, int seat);

  /// Follows all consequences. `below` = only plans that cost less are wanted.
  /// Returns false when nothing is left; `culprit` is then a line that lost all its ways, if one did.
  bool settle(Domains& domains, std::optional<std::int64_t> below);
  /// Settles domains of which nothing was looked at yet.
  bool settle_all(Domains& domains, std::optional<std::int64_t> below);
  std::optional<int> culprit() const { return culprit_; }

  Bound bound(const Domains& domains) const;

  /// Ways of a line: half-open range of indices.
  std::array<std::size_t, 2> range(int line) const { return range_[static_cast<std::size_t>(line)]; }
  LineSet lines() const { return lines_; }
  LineSet lines_at(int device) const { return lines_at_[static_cast<std::size_t>(device)]; }

 private:
  bool refresh_line(Domains& domains, int line);
  bool refresh_device(Domains& domains, int device);
  bool refresh_aperture(Domains& domains, int aperture);
  bool take_seat(Domains& domains, int device);
  void drop_through(Domains& domains, int line, int aperture);
  void drop_unseated(Domains& domains, int line);
  bool settle_sets(Domains& domains);
  bool drop_dear(Domains& domains, std::int64_t below);

  const Problem& problem_;
  Apertures& apertures_;
  const std::vector<Way>& ways_;
  const Prices& prices_;
  LineSet lines_;
  std::vector<std::array<std::size_t, 2>> range_;           ///< by line
  std::vector<std::vector<std::vector<std::size_t>>> via_;  ///< by aperture and line: ways
  std::vector<LineSet> may_use_;                            ///< by aperture
  std::vector<LineSet> lines_at_;                           ///< by device
  LineSet stale_lines_ = 0;
  std::vector<char> stale_devices_;
  ApertureSet stale_apertures_;
  std::optional<int> culprit_;
};

}  // namespace cotter::engine::route
