#pragma once
// Devices that are put into the frame through an aperture, some with lines that cannot be parted from them.

#include <vector>

#include "engine/route/apertures.hpp"
#include "engine/route/line_set.hpp"
#include "engine/route/result.hpp"

namespace cotter::engine::route {

/// A device with a body, on a seat that it reaches through apertures.
struct Entrant {
  int device = 0;
  LineSet leads = 0;  ///< lines captive to it
  std::vector<int> entries;
};

/// By device, at most k_most_bodies; `lines` are the ones that are routed.
std::vector<Entrant> entrants(const Problem& problem, const std::vector<int>& seats, LineSet lines);

/// When each entrant goes in, for a plan whose order holds: which lines come before it, which after.
/// A line is put after a device when it would leave no room for it, alone or with those pulled before it.
std::vector<DeviceEntry> device_entries(const Problem& problem, Apertures& apertures, const std::vector<LineSet>& users,
                                        const std::vector<int>& seats, const std::vector<int>& steps,
                                        const std::vector<int>& pull_order);

}  // namespace cotter::engine::route
