#include "engine/route/frame_map.hpp"

#include <utility>

namespace cotter::engine::route {

namespace {

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

}  // namespace

FrameMap::FrameMap(const Problem& problem)
    : problem_(problem), distances_(problem.apertures.size() * problem.apertures.size(), -1) {
  for (std::size_t a = 0; a < problem.apertures.size(); ++a) {
    for (const int node : {problem.apertures[a].a, problem.apertures[a].b})
      doors_[index(node + 1)].push_back(static_cast<int>(a));
  }
}

std::int64_t FrameMap::distance(int from, int to) {
  std::int64_t& known = distances_[index(from) * problem_.apertures.size() + index(to)];
  if (known < 0) known = geometry::rounded_distance_mm(position(from), position(to));
  return known;
}

std::vector<FrameMap::Rest> FrameMap::rest_to(const Seat& seat, const std::vector<char>& open) {
  std::vector<Rest> rest(problem_.apertures.size(), Rest{k_far, k_far});
  std::vector<std::pair<int, int>> queue;  // aperture, node behind it
  for (const int last : doors(seat.node)) {
    if (open[index(last)] == 0) continue;
    rest[index(last)][side(last, seat.node)] = geometry::rounded_distance_mm(position(last), seat.position);
    queue.emplace_back(last, seat.node);
  }
  for (std::size_t next = 0; next < queue.size(); ++next) {
    const auto [aperture, node] = queue[next];
    const std::int64_t length = rest[index(aperture)][side(aperture, node)];
    const int before = beyond(aperture, node);
    for (const int door : doors(before)) {
      if (door == aperture || open[index(door)] == 0) continue;
      std::int64_t& known = rest[index(door)][side(door, before)];
      const std::int64_t found = length + distance(aperture, door);
      if (found >= known) continue;
      known = found;
      queue.emplace_back(door, before);
    }
  }
  return rest;
}

}  // namespace cotter::engine::route
