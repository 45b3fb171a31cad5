#include "engine/route/demands.hpp"

#include <algorithm>

#include "engine/route/apertures.hpp"
#include "geometry/bend.hpp"

namespace cotter::engine::route {

namespace {

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

}  // namespace

bool may_lie_in(const Problem& problem, int line, int node) {
  const Line& body = problem.lines[index(line)];
  return std::all_of(problem.cell_rules.begin(), problem.cell_rules.end(), [&](const CellRule& rule) {
    if (rule.cell != node) return true;
    return (!rule.room || body.diameter <= *rule.room) && (rule.bare_cable || !body.bare_cable);
  });
}

std::vector<char> apertures_left_to(const Problem& problem, int line) {
  std::vector<char> left;
  for (const Aperture& aperture : problem.apertures) {
    const bool open = !aperture.taken && may_lie_in(problem, line, aperture.a) && may_lie_in(problem, line, aperture.b);
    left.push_back(open ? 1 : 0);
  }
  for (const int a : problem.lines[index(line)].avoids) left[index(a)] = 0;
  return left;
}

bool suits(const Problem& problem, int line, const std::vector<int>& path,
           const std::vector<geometry::GridPoint>& marks) {
  const Line& body = problem.lines[index(line)];
  const bool through = std::all_of(body.through.begin(), body.through.end(),
                                   [&](int a) { return std::find(path.begin(), path.end(), a) != path.end(); });
  return through && geometry::corners_take_radius(marks, body.bend_radius);
}

bool reaches(const Problem& problem, int device, int seat) {
  const Device& body = problem.devices[index(device)];
  const Seat& target = body.seats[index(seat)];
  if (target.aperture && problem.apertures[index(*target.aperture)].taken) return false;
  if (!body.body) return true;
  return std::all_of(target.entries.begin(), target.entries.end(), [&](int a) {
    const Aperture& aperture = problem.apertures[index(a)];
    return !aperture.taken && passes(*body.body, enlarged(aperture, aperture.enlarge_max));
  });
}

}  // namespace cotter::engine::route
