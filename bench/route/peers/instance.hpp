#pragma once
// A routing instance as plain whole numbers, read from the same file as ours. The peers share no code with the engine,
// so that an equal answer means something.

#include <array>
#include <cstdint>
#include <string>
#include <vector>

namespace route_peers {

constexpr int k_outside = -1;
using Point = std::array<std::int64_t, 3>;

struct Rules {
  std::int64_t pack_permille, pull_permille, per_aperture;
  std::array<std::int64_t, 5> turn_costs;
  std::array<std::int64_t, 7> equal_table;
};

struct Aperture {
  int a, b;
  bool exclusive;
  std::int64_t width;  ///< 0.1 mm
  Point place;
  int enlarge_max;
  std::int64_t enlarge_cost;
};

struct Seat {
  int node;
  Point position;
  int aperture;  ///< -1 = none
  int place;     ///< -1 = none
  std::int64_t cost;
};

struct Line {
  std::int64_t diameter;
  std::array<int, 2> devices;
  std::int64_t lead;  ///< the smaller of its two connectors
  std::vector<std::int64_t> lengths;
  std::int64_t cut_max, min_slack, max_stow;
  int surface;

  /// Longest way for which a length suits; less than 0 when there is none.
  std::int64_t longest_way() const;
  bool suits(std::int64_t way) const;
};

struct Instance {
  std::string name, size;
  Rules rules;
  int cells;
  std::vector<Aperture> apertures;
  std::vector<std::vector<Seat>> devices;
  std::vector<Line> lines;
};

Instance read_instance(const std::string& path);

/// The same with one line left out; its devices stay.
Instance without_lines(const Instance& instance, const std::vector<int>& kept);

}  // namespace route_peers
