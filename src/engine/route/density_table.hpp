#pragma once
// The density rules of all apertures as limits to sums of squared diameters, so that a set is judged by a few sums.
//
// Lines are pulled by descending excess of the connector's square over the body's; when any order passes an aperture,
// this one does. (The first line is alone; for the others "square of my connector + squares before me <= limit" is one
// machine with due dates, and earliest due date first is best whatever the limit is.)

#include <cstdint>
#include <optional>
#include <vector>

#include "engine/route/line_set.hpp"
#include "engine/route/problem.hpp"

namespace cotter::engine::route {

class Apertures;

/// What one aperture asks of lines, at each of its sizes.
struct DensityLimits {
  struct Level {
    std::int64_t pack = 0;  ///< nm2: most that the bodies may add up to, when there are two or more
    std::int64_t pull = 0;  ///< nm2: most that a connector and the bodies before it may add up to
    std::int64_t width = 0;
  };
  bool exclusive = false;
  std::vector<Level> levels;  ///< by steps of enlargement
  std::vector<int> alone;     ///< by line: fewest steps with which it passes alone; -1 = none
};

class DensityTable {
 public:
  DensityTable(const Problem& problem, const Apertures& apertures);

  /// The same answer as Apertures::least_steps, from the sums.
  std::optional<int> least_steps(LineSet lines, int aperture) const;

  const DensityLimits& limits(int aperture) const { return limits_[static_cast<std::size_t>(aperture)]; }
  /// Most lines of equal diameter that the table of equal lines permits at a size.
  int most_equals(std::int64_t diameter, int aperture, int steps) const;

  const std::vector<int>& pull_order() const { return pull_order_; }
  std::int64_t body(int line) const { return body_[static_cast<std::size_t>(line)]; }
  std::int64_t connector(int line) const { return connector_[static_cast<std::size_t>(line)]; }
  std::int64_t diameter(int line) const { return diameter_[static_cast<std::size_t>(line)]; }

 private:
  const Problem& problem_;
  std::vector<DensityLimits> limits_;
  std::vector<int> pull_order_;
  std::vector<std::int64_t> body_;       ///< nm2
  std::vector<std::int64_t> connector_;  ///< nm2
  std::vector<std::int64_t> diameter_;   ///< nm
};

}  // namespace cotter::engine::route
