#pragma once
// All ways that a line could take between its seats, each with its length and its cost.

#include <array>
#include <cstdint>
#include <vector>

#include "engine/route/apertures.hpp"
#include "engine/route/line_set.hpp"
#include "engine/route/problem.hpp"
#include "engine/route/result.hpp"

namespace cotter::engine::route {

/// A way that asks for no seat: that of a line which is left out.
constexpr int k_any_seat = -1;

struct Way {
  int line = 0;
  std::array<int, 2> seats{};
  std::vector<int> path;
  ApertureSet apertures;
  std::int64_t length = 0;  ///< mm, computed
  std::int64_t cost = 0;    ///< length, apertures and turns
};

/// The marks of a way: seat, apertures, seat.
std::vector<geometry::GridPoint> marks_of(const Problem& problem, const Way& way);
/// Their distances from mark to mark, in mm.
std::vector<std::int64_t> segments_of(const Problem& problem, const Way& way);
/// Cost of the turns of a way.
std::int64_t turn_cost(const Problem& problem, const Way& way);
/// The length to take for a way: the shortest offered one that suits, or way and slack for a line that is cut; none
/// when no length suits.
std::optional<std::int64_t> length_for(const Line& line, std::int64_t way);

/// Which apertures and lengths count while ways are listed.
enum class WayLimits {
  all,      ///< those, and what the line demands of its way
  lengths,  ///< lengths only
  none,
};

struct Ways {
  std::vector<Way> list;  ///< grouped by line, cheapest first within a line
  bool complete = true;   ///< false when the limit of partial ways was reached
};

/// Lists the ways of all lines of `lines`, without those that another way of the same line and seats makes pointless:
/// no dearer, and through no other apertures. At most `way_limit` partial ways are looked at.
Ways list_ways(const Problem& problem, Apertures& apertures, LineSet lines, std::int64_t way_limit,
               WayLimits limits = WayLimits::all);

}  // namespace cotter::engine::route
