#include "engine/route/ways.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "engine/route/demands.hpp"
#include "engine/route/frame_map.hpp"
#include "engine/route/walker.hpp"

namespace cotter::engine::route {

namespace {

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

const Seat& seat_of(const Problem& problem, const Way& way, std::size_t end) {
  const int device = problem.lines[index(way.line)].ends[end].device;
  return problem.devices[index(device)].seats[index(way.seats[end])];
}

std::int64_t longest_way(const Line& line) {
  const std::int64_t longest =
      line.lengths.empty() ? line.cut_max : *std::max_element(line.lengths.begin(), line.lengths.end());
  return longest - line.min_slack - line.correction;
}

/// Apertures that no fixed device uses up.
std::vector<char> free_apertures(const Problem& problem) {
  std::vector<char> open(problem.apertures.size(), 1);
  for (const Device& device : problem.devices) {
    if (device.seats.size() == 1 && device.seats[0].aperture) open[index(*device.seats[0].aperture)] = 0;
  }
  return open;
}

bool seats_suit(const Problem& problem, const Way& way) {
  for (const std::size_t end : {0U, 1U}) {
    const int device = problem.lines[index(way.line)].ends[end].device;
    if (!reaches(problem, device, way.seats[end])) return false;
    if (!may_lie_in(problem, way.line, seat_of(problem, way, end).node)) return false;
  }
  return true;
}

/// Lists the ways of one line, over all pairs of its seats.
class LineWays {
 public:
  LineWays(const Problem& problem, FrameMap& map, int line, std::vector<char> open, WayLimits limits)
      : problem_(problem),
        map_(map),
        line_(line),
        open_(std::move(open)),
        any_length_(limits == WayLimits::none),
        demanding_(limits == WayLimits::all),
        longest_(any_length_ ? FrameMap::k_far : longest_way(problem.lines[index(line)])) {}

  std::vector<Way> list(std::int64_t& effort) {
    const auto& ends = problem_.lines[index(line_)].ends;
    const auto& from = problem_.devices[index(ends[0].device)].seats;
    const auto& to = problem_.devices[index(ends[1].device)].seats;
    for (std::size_t t = 0; t < to.size(); ++t) {
      const std::vector<FrameMap::Rest> rest = map_.rest_to(to[t], open_);
      for (std::size_t f = 0; f < from.size(); ++f) {
        if (ends[0].device != ends[1].device || f == t) between(static_cast<int>(f), static_cast<int>(t), rest, effort);
      }
    }
    std::sort(ways_.begin(), ways_.end(), [](const Way& x, const Way& y) {
      return x.cost != y.cost ? x.cost < y.cost : x.seats != y.seats ? x.seats < y.seats : x.path < y.path;
    });
    return std::move(ways_);
  }

 private:
  void between(int from, int to, const std::vector<FrameMap::Rest>& rest, std::int64_t& effort) {
    const Way blank{.line = line_, .seats = {from, to}, .path = {}, .apertures = {}};
    if (demanding_ && !seats_suit(problem_, blank)) return;
    std::vector<char> open = open_;
    for (const std::size_t end : {0U, 1U}) {
      if (const auto taken = seat_of(problem_, blank, end).aperture) open[index(*taken)] = 0;
    }
    const WalkLimits limits{longest_, any_length_, demanding_, open};
    for (Way& way : without_pointless(problem_, walks(problem_, map_, blank, limits, rest, effort)))
      ways_.push_back(std::move(way));
  }

  const Problem& problem_;
  FrameMap& map_;
  int line_;
  std::vector<char> open_;
  bool any_length_;
  bool demanding_;
  std::int64_t longest_;
  std::vector<Way> ways_;
};

}  // namespace

std::vector<geometry::GridPoint> marks_of(const Problem& problem, const Way& way) {
  std::vector<geometry::GridPoint> marks{seat_of(problem, way, 0).position};
  for (const int aperture : way.path) marks.push_back(problem.apertures[index(aperture)].position);
  marks.push_back(seat_of(problem, way, 1).position);
  return marks;
}

std::vector<std::int64_t> segments_of(const Problem& problem, const Way& way) {
  const std::vector<geometry::GridPoint> marks = marks_of(problem, way);
  std::vector<std::int64_t> segments;
  for (std::size_t i = 0; i + 1 < marks.size(); ++i)
    segments.push_back(geometry::rounded_distance_mm(marks[i], marks[i + 1]));
  return segments;
}

std::int64_t turn_cost(const Problem& problem, const Way& way) {
  const std::vector<geometry::GridPoint> marks = marks_of(problem, way);
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
  FrameMap map(problem);
  const std::vector<char> free = free_apertures(problem);
  for (const int line : listed(lines)) {
    std::vector<char> open = free;
    const bool demanding = limits == WayLimits::all;
    const std::vector<char> left = demanding ? apertures_left_to(problem, line) : open;
    for (std::size_t a = 0; a < open.size() && demanding; ++a) {
      const int most = problem.apertures[a].enlarge_max;
      if (left[a] == 0 || !apertures.passes_alone(line, static_cast<int>(a), most)) open[a] = 0;
    }
    std::vector<Way> found = LineWays(problem, map, line, std::move(open), limits).list(effort);
    std::move(found.begin(), found.end(), std::back_inserter(ways.list));
  }
  ways.complete = effort > 0;
  return ways;
}

}  // namespace cotter::engine::route
