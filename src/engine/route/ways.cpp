#include "engine/route/ways.hpp"

#include <algorithm>
#include <limits>

#include "engine/route/demands.hpp"

namespace cotter::engine::route {

namespace {

using geometry::GridPoint;

constexpr std::int64_t k_far = std::numeric_limits<std::int64_t>::max() / 4;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

const Seat& seat_of(const Problem& problem, const Way& way, std::size_t end) {
  const int device = problem.lines[index(way.line)].ends[end].device;
  return problem.devices[index(device)].seats[index(way.seats[end])];
}

std::vector<GridPoint> marks_of(const Problem& problem, const Way& way) {
  std::vector<GridPoint> marks{seat_of(problem, way, 0).position};
  for (const int aperture : way.path) marks.push_back(problem.apertures[index(aperture)].position);
  marks.push_back(seat_of(problem, way, 1).position);
  return marks;
}

std::int64_t longest_way(const Line& line) {
  if (line.lengths.empty()) return line.cut_max - line.min_slack;
  return *std::max_element(line.lengths.begin(), line.lengths.end()) - line.min_slack;
}

int other_side(const Aperture& aperture, int node) {
  return aperture.a == node ? aperture.b : aperture.a;
}

/// Lists the ways of one line between two seats.
class Walker {
 public:
  Walker(const Problem& problem, const Way& blank, const std::vector<char>& open, std::int64_t longest, bool demanding,
         std::int64_t& effort)
      : problem_(problem),
        line_(problem.lines[index(blank.line)]),
        from_(seat_of(problem, blank, 0)),
        to_(seat_of(problem, blank, 1)),
        open_(open),
        longest_(longest),
        demanding_(demanding),
        effort_(effort),
        way_(blank) {
    for (std::size_t a = 0; a < problem.apertures.size(); ++a) {
      if (open[a] == 0) continue;
      for (const int node : {problem.apertures[a].a, problem.apertures[a].b})
        doors_[index(node + 1)].push_back(static_cast<int>(a));
    }
  }

  std::vector<Way> list() {
    if (from_.node == to_.node && from_.node != k_outside) {
      finish(geometry::rounded_distance_mm(from_.position, to_.position));
    } else {
      measure_rest();
      step(from_.node, from_.position, 0, line_.surface);
    }
    return std::move(found_);
  }

 private:
  using Rest = std::array<std::int64_t, 2>;

  int node_behind(int aperture, std::size_t side) const {
    const Aperture& door = problem_.apertures[index(aperture)];
    return side == 0 ? door.a : door.b;
  }
  GridPoint position(int aperture) const { return problem_.apertures[index(aperture)].position; }

  /// Least length from an aperture to the end once a side of it is reached, whatever was passed before.
  void measure_rest() {
    rest_.assign(problem_.apertures.size(), Rest{k_far, k_far});
    for (bool changed = true; changed;) {
      changed = false;
      for (std::size_t a = 0; a < rest_.size(); ++a) {
        if (open_[a] == 0) continue;
        for (std::size_t side = 0; side < 2; ++side) {
          const std::int64_t best = rest_from(static_cast<int>(a), side);
          changed = changed || best < rest_[a][side];
          rest_[a][side] = std::min(rest_[a][side], best);
        }
      }
    }
  }

  std::int64_t rest_from(int aperture, std::size_t side) const {
    const int node = node_behind(aperture, side);
    std::int64_t best = node == to_.node ? geometry::rounded_distance_mm(position(aperture), to_.position) : k_far;
    for (const int next : doors_[index(node + 1)]) {
      const std::size_t beyond = node_behind(next, 0) == node ? 1 : 0;
      if (next == aperture || rest_[index(next)][beyond] >= k_far) continue;
      best = std::min(best,
                      geometry::rounded_distance_mm(position(aperture), position(next)) + rest_[index(next)][beyond]);
    }
    return best;
  }

  void step(int node, GridPoint at, std::int64_t length, int surface) {
    if (node != k_outside) seen_ |= std::uint64_t{1} << node;
    for (const int aperture : doors_[index(node + 1)]) {
      if (effort_ <= 0) break;
      if (way_.apertures[index(aperture)]) continue;
      const int next = other_side(problem_.apertures[index(aperture)], node);
      if (next != k_outside && (seen_ >> next & 1U) != 0) continue;
      pass(aperture, next, length + geometry::rounded_distance_mm(at, position(aperture)), surface);
    }
    if (node != k_outside) seen_ &= ~(std::uint64_t{1} << node);
  }

  void pass(int aperture, int next, std::int64_t length, int surface) {
    const std::size_t side = node_behind(aperture, 0) == next ? 0 : 1;
    const std::int64_t rest = rest_[index(aperture)][side];
    if (rest >= k_far || length + rest > longest_) return;
    --effort_;
    way_.path.push_back(aperture);
    way_.apertures.set(index(aperture));
    if (next == to_.node) finish(length + geometry::rounded_distance_mm(position(aperture), to_.position));
    if (next == k_outside ? surface > 0 : next != to_.node)
      step(next, position(aperture), length, next == k_outside ? surface - 1 : surface);
    way_.apertures.reset(index(aperture));
    way_.path.pop_back();
  }

  void finish(std::int64_t length) {
    if (length > longest_) return;
    if (longest_ < k_far && !length_for(line_, length)) return;
    if (demanding_ && !suits(problem_, way_.line, way_.path, marks_of(problem_, way_))) return;
    found_.push_back(way_);
    Way& way = found_.back();
    way.length = length;
    way.cost =
        length + problem_.rules.per_aperture * static_cast<std::int64_t>(way.path.size()) + turn_cost(problem_, way);
  }

  const Problem& problem_;
  const Line& line_;
  const Seat& from_;
  const Seat& to_;
  const std::vector<char>& open_;
  std::int64_t longest_;
  bool demanding_;  ///< whether bends and pins count
  std::int64_t& effort_;
  Way way_;
  std::array<std::vector<int>, k_most_cells + 1> doors_;  ///< apertures at each node, the outside first
  std::vector<Rest> rest_;
  std::uint64_t seen_ = 0;
  std::vector<Way> found_;
};

/// Keeps the ways that no other makes pointless, cheapest first.
std::vector<Way> without_pointless(std::vector<Way> ways) {
  std::sort(ways.begin(), ways.end(), [](const Way& x, const Way& y) {
    if (x.cost != y.cost) return x.cost < y.cost;
    if (x.path.size() != y.path.size()) return x.path.size() < y.path.size();
    return x.path < y.path;
  });
  std::vector<Way> kept;
  for (Way& way : ways) {
    const bool pointless =
        std::any_of(kept.begin(), kept.end(), [&](const Way& k) { return (k.apertures & ~way.apertures).none(); });
    if (!pointless) kept.push_back(std::move(way));
  }
  return kept;
}

/// Apertures that no fixed device uses up.
std::vector<char> free_apertures(const Problem& problem) {
  std::vector<char> open(problem.apertures.size(), 1);
  for (const Device& device : problem.devices) {
    if (device.seats.size() == 1 && device.seats[0].aperture) open[index(*device.seats[0].aperture)] = 0;
  }
  return open;
}

std::vector<Way> ways_between(const Problem& problem, const Way& blank, std::vector<char> open, std::int64_t longest,
                              bool demanding, std::int64_t& effort) {
  for (const std::size_t end : {0U, 1U}) {
    if (const auto taken = seat_of(problem, blank, end).aperture) open[index(*taken)] = 0;
  }
  return without_pointless(Walker(problem, blank, open, longest, demanding, effort).list());
}

bool seats_suit(const Problem& problem, const Way& way) {
  for (const std::size_t end : {0U, 1U}) {
    const int device = problem.lines[index(way.line)].ends[end].device;
    if (!reaches(problem, device, way.seats[end])) return false;
    if (!may_lie_in(problem, way.line, seat_of(problem, way, end).node)) return false;
  }
  return true;
}

std::vector<Way> ways_of(const Problem& problem, int line, const std::vector<char>& open, std::int64_t longest,
                         bool demanding, std::int64_t& effort) {
  std::vector<Way> ways;
  const auto& ends = problem.lines[index(line)].ends;
  const auto seats = [&](std::size_t end) {
    return static_cast<int>(problem.devices[index(ends[end].device)].seats.size());
  };
  for (int from = 0; from < seats(0); ++from) {
    for (int to = 0; to < seats(1); ++to) {
      if (ends[0].device == ends[1].device && from != to) continue;
      const Way blank{.line = line, .seats = {from, to}, .path = {}, .apertures = {}};
      if (demanding && !seats_suit(problem, blank)) continue;
      for (Way& way : ways_between(problem, blank, open, longest, demanding, effort)) ways.push_back(std::move(way));
    }
  }
  std::stable_sort(ways.begin(), ways.end(), [](const Way& x, const Way& y) { return x.cost < y.cost; });
  return ways;
}

}  // namespace

std::vector<std::int64_t> segments_of(const Problem& problem, const Way& way) {
  const std::vector<GridPoint> marks = marks_of(problem, way);
  std::vector<std::int64_t> segments;
  for (std::size_t i = 0; i + 1 < marks.size(); ++i)
    segments.push_back(geometry::rounded_distance_mm(marks[i], marks[i + 1]));
  return segments;
}

std::int64_t turn_cost(const Problem& problem, const Way& way) {
  const std::vector<GridPoint> marks = marks_of(problem, way);
  std::int64_t cost = 0;
  for (std::size_t i = 1; i + 1 < marks.size(); ++i) {
    const geometry::Turn turn = geometry::turn_between(marks[i] - marks[i - 1], marks[i + 1] - marks[i]);
    cost += problem.rules.turn_costs[static_cast<std::size_t>(turn)];
  }
  return cost;
}

std::optional<std::int64_t> length_for(const Line& line, std::int64_t way) {
  if (line.lengths.empty()) {
    if (way + line.min_slack > line.cut_max) return std::nullopt;
    return way + line.min_slack;
  }
  std::optional<std::int64_t> best;
  for (const std::int64_t length : line.lengths) {
    const std::int64_t spare = length - way;
    if (spare >= line.min_slack && spare <= line.max_stow && (!best || length < *best)) best = length;
  }
  return best;
}

Ways list_ways(const Problem& problem, Apertures& apertures, LineSet lines, std::int64_t way_limit, WayLimits limits) {
  Ways ways;
  std::int64_t effort = way_limit;
  for (const int line : listed(lines)) {
    std::vector<char> open = free_apertures(problem);
    const bool demanding = limits == WayLimits::all;
    const std::vector<char> left = demanding ? apertures_left_to(problem, line) : open;
    for (std::size_t a = 0; a < open.size() && demanding; ++a) {
      if (left[a] == 0 || !apertures.least_steps(only(line), static_cast<int>(a))) open[a] = 0;
    }
    const std::int64_t longest = limits == WayLimits::none ? k_far : longest_way(problem.lines[index(line)]);
    for (Way& way : ways_of(problem, line, open, longest, demanding, effort)) ways.list.push_back(std::move(way));
  }
  ways.complete = effort > 0;
  return ways;
}

}  // namespace cotter::engine::route
