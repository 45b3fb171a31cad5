#include "engine/route/density_table.hpp"

#include <algorithm>
#include <numbers>
#include <numeric>

#include "engine/route/apertures.hpp"
#include "geometry/wide.hpp"

namespace cotter::engine::route {

namespace {

using geometry::Wide;

constexpr std::int64_t k_table_unit = 10'000;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

std::int64_t square(std::int64_t length) {
  return length * length;
}

std::int64_t share_of(int permille, std::int64_t width) {
  return static_cast<std::int64_t>(permille * static_cast<Wide>(width) * width / 1000);
}

/// Fewest steps at which `takes` holds, which stays true from there on; none when it never does.
template <class Takes>
std::optional<int> fewest(int from, int most, const Takes& takes) {
  if (from > most || !takes(most)) return std::nullopt;
  while (from < most) {
    const int middle = from + (most - from) / 2;
    if (takes(middle)) {
      most = middle;
    } else {
      from = middle + 1;
    }
  }
  return from;
}

/// Area of a connector in units of pi/4, never too large: a rectangular plug takes its own under real packing.
std::int64_t squares_of(const Connector& connector, Packing packing) {
  if (packing == Packing::density || !connector.section) return square(connector.diameter.base());
  const auto& [width, height] = *connector.section;
  const double sides = static_cast<double>(width.base()) * static_cast<double>(height.base());
  return static_cast<std::int64_t>(sides * 4 / std::numbers::pi * (1 - 1e-12));
}

/// Under real packing the whole of a slot counts: the diameter of a circle that is not smaller.
std::int64_t width_for_areas(const geometry::Opening& opening, Packing packing) {
  if (packing == Packing::density || opening.width == opening.length) return opening.width.base();
  return geometry::equal_round(opening).base() + 1;
}

}  // namespace

DensityTable::DensityTable(const Problem& problem, const Apertures& apertures)
    : problem_(problem), pull_order_(problem.lines.size()) {
  for (const Line& line : problem.lines) {
    diameter_.push_back(line.diameter.base());
    body_.push_back(square(line.diameter.base()));
    connector_.push_back(squares_of(line.ends[index(leading_end(line))].connector, problem.rules.packing));
  }
  std::iota(pull_order_.begin(), pull_order_.end(), 0);
  std::stable_sort(pull_order_.begin(), pull_order_.end(),
                   [&](int x, int y) { return connector(x) - body(x) > connector(y) - body(y); });
  for (std::size_t a = 0; a < problem.apertures.size(); ++a) {
    const auto aperture = static_cast<int>(a);
    DensityLimits limits;
    limits.exclusive = problem.apertures[a].kind == ApertureKind::exclusive;
    for (int steps = 0; steps <= problem.apertures[a].enlarge_max; ++steps) {
      const std::int64_t width = width_for_areas(apertures.opening(aperture, steps), problem.rules.packing);
      limits.levels.push_back({share_of(problem.rules.pack_permille, width),
                               std::min(share_of(problem.rules.pull_permille, width), square(width)), width});
    }
    for (int line = 0; line < static_cast<int>(problem.lines.size()); ++line) {
      const auto passes = [&](int steps) { return apertures.passes_alone(line, aperture, steps); };
      limits.alone.push_back(fewest(0, problem.apertures[a].enlarge_max, passes).value_or(-1));
    }
    limits_.push_back(std::move(limits));
  }
}

int DensityTable::most_equals(std::int64_t diameter, int aperture, int steps) const {
  const std::int64_t width = limits(aperture).levels[index(steps)].width;
  const auto& table = problem_.rules.equal_table;
  const auto beyond = std::find_if(table.begin(), table.end(),
                                   [&](std::int64_t ratio) { return k_table_unit * width < ratio * diameter; });
  return static_cast<int>(beyond - table.begin());
}

std::optional<int> DensityTable::least_steps(LineSet lines, int aperture) const {
  const DensityLimits& limits = this->limits(aperture);
  int steps = 0;
  for (LineSet rest = lines; rest != 0; rest = without_first(rest)) {
    const int alone = limits.alone[index(first(rest))];
    if (alone < 0) return std::nullopt;
    steps = std::max(steps, alone);
  }
  const int n = count(lines);
  if (n < 2) return steps;
  if (limits.exclusive) return std::nullopt;
  std::int64_t before = 0;
  std::int64_t pull = 0;
  bool equal = true;
  for (const int line : pull_order_) {
    if (!has(lines, line)) continue;
    if (before > 0) pull = std::max(pull, connector(line) + before);
    equal = equal && diameter(line) == diameter(first(lines));
    before += body(line);
  }
  const auto takes = [&](int at) {
    const DensityLimits::Level& level = limits.levels[index(at)];
    if (pull > level.pull) return false;
    return before <= level.pack || (equal && n <= most_equals(diameter(first(lines)), aperture, at));
  };
  return fewest(steps, static_cast<int>(limits.levels.size()) - 1, takes);
}

}  // namespace cotter::engine::route
