#include "engine/route/entrants.hpp"

#include <algorithm>

namespace cotter::engine::route {

namespace {

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

bool is_captive_to(const Line& line, int device) {
  return line.captive_end && line.ends[index(*line.captive_end)].device == device;
}

/// Lines at the entries that may be in before the device: taken in the order of pulling as long as it still passes.
class Room {
 public:
  Room(const Problem& problem, Apertures& apertures, const std::vector<LineSet>& users, const std::vector<int>& steps,
       const Entrant& entrant)
      : body_(*problem.devices[index(entrant.device)].body),
        apertures_(apertures),
        users_(users),
        steps_(steps),
        entrant_(entrant) {}

  bool is_left_with(LineSet inside) {
    return std::all_of(entrant_.entries.begin(), entrant_.entries.end(), [&](int a) {
      return apertures_.passes_beside(body_, users_[index(a)] & inside, a, steps_[index(a)]);
    });
  }

 private:
  const Connector& body_;
  Apertures& apertures_;
  const std::vector<LineSet>& users_;
  const std::vector<int>& steps_;
  const Entrant& entrant_;
};

}  // namespace

std::vector<Entrant> entrants(const Problem& problem, const std::vector<int>& seats, LineSet lines) {
  std::vector<Entrant> found;
  for (std::size_t d = 0; d < problem.devices.size(); ++d) {
    const Device& device = problem.devices[d];
    const Seat& seat = device.seats[index(seats[d])];
    if (!device.body || seat.entries.empty()) continue;
    Entrant entrant{static_cast<int>(d), 0, seat.entries};
    for (const int line : listed(lines))
      if (is_captive_to(problem.lines[index(line)], entrant.device)) entrant.leads |= only(line);
    found.push_back(std::move(entrant));
  }
  return found;
}

std::vector<DeviceEntry> device_entries(const Problem& problem, Apertures& apertures, const std::vector<LineSet>& users,
                                        const std::vector<int>& seats, const std::vector<int>& steps,
                                        const std::vector<int>& pull_order) {
  std::vector<DeviceEntry> entries;
  for (const Entrant& entrant : entrants(problem, seats, all_lines(problem.lines.size()))) {
    Room room(problem, apertures, users, steps, entrant);
    DeviceEntry entry{entrant.device, entrant.entries, listed(entrant.leads), {}};
    LineSet inside = entrant.leads;
    for (const int line : pull_order) {
      if (has(inside, line)) continue;
      if (room.is_left_with(inside | only(line))) {
        inside |= only(line);
      } else {
        entry.before.push_back(line);
      }
    }
    std::sort(entry.before.begin(), entry.before.end());
    entries.push_back(std::move(entry));
  }
  return entries;
}

}  // namespace cotter::engine::route
