#pragma once
// The plainest solver of tiny routing problems: every seat, every sequence of apertures, every order of pulling.
// Written apart from the engine, to be held against it; it shares only the judgement of circles in a circle.

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <optional>

#include "engine/route/problem.hpp"
#include "geometry/packing.hpp"

namespace cotter::engine::route::enumeration {

using Path = std::vector<int>;

/// Diameters in whole micrometres: the tiny problems have no finer ones, but for enclosing circles rounded up.
inline double um(quantity::Length length) {
  return static_cast<double>(length.base()) / 1000;
}

inline std::int64_t distance(geometry::GridPoint p, geometry::GridPoint q) {
  return std::llround(
      std::hypot(static_cast<double>(p.x - q.x), static_cast<double>(p.y - q.y), static_cast<double>(p.z - q.z)));
}

inline std::int64_t turn(const Problem& problem, geometry::GridPoint u, geometry::GridPoint v) {
  const double size = std::sqrt(static_cast<double>(dot(u, u)) * static_cast<double>(dot(v, v)));
  if (size == 0) return 0;
  const double cosine = static_cast<double>(dot(u, v)) / size;
  const double limits[] = {std::sqrt(0.75), 0.5, 0, -0.5};
  std::size_t i = 0;
  while (i < 4 && cosine < limits[i] - 1e-12) ++i;
  return problem.rules.turn_costs[i];
}

struct Priced {
  Path path;
  std::int64_t cost;
};

/// Do arcs of the radius round the corners of a polygon without meeting? The angles are halved by bisecting directions:
/// a circle that touches both sides leaves r / tan(b) of each, b the half of the angle between the sides.
inline bool bends(const std::vector<geometry::GridPoint>& marks, std::int64_t radius) {
  double before = 0;
  for (std::size_t i = 1; i < marks.size(); ++i) {
    const geometry::GridPoint in = marks[i] - marks[i - 1];
    const double length = std::sqrt(static_cast<double>(dot(in, in)));
    double after = 0;
    if (i + 1 < marks.size()) {
      const geometry::GridPoint out = marks[i + 1] - marks[i];
      const double both = length * std::sqrt(static_cast<double>(dot(out, out)));
      if (both > 0) {
        const double between = std::acos(std::clamp(-static_cast<double>(dot(in, out)) / both, -1.0, 1.0));
        after = static_cast<double>(radius) / std::tan(between / 2);
      }
    }
    if (before + after > length + 1e-6) return false;
    before = after;
  }
  return true;
}

/// What a line demands of a path beyond room and length.
inline bool pleases(const Problem& problem, const Line& line, const Path& path, const std::vector<int>& nodes,
                    const std::vector<geometry::GridPoint>& marks) {
  for (const int a : path)
    if (problem.apertures[a].taken || std::count(line.avoids.begin(), line.avoids.end(), a)) return false;
  for (const int a : line.through)
    if (!std::count(path.begin(), path.end(), a)) return false;
  for (const CellRule& rule : problem.cell_rules) {
    if (!std::count(nodes.begin(), nodes.end(), rule.cell)) continue;
    if (line.bare_cable && !rule.bare_cable) return false;
    if (rule.room && *rule.room < line.diameter) return false;
  }
  return line.bend_radius == 0 || bends(marks, line.bend_radius);
}

/// Cost of a path, if it is one.
inline std::optional<std::int64_t> cost_of(const Problem& problem, const Line& line, const Seat& from, const Seat& to,
                                           const Path& path) {
  std::vector<int> nodes{from.node};
  for (const int a : path) {
    const Aperture& hole = problem.apertures[a];
    if (hole.a != nodes.back() && hole.b != nodes.back()) return std::nullopt;
    nodes.push_back(hole.a == nodes.back() ? hole.b : hole.a);
  }
  if (nodes.back() != to.node) return std::nullopt;
  for (int cell = 0; cell < static_cast<int>(problem.cells.size()); ++cell)
    if (std::count(nodes.begin(), nodes.end(), cell) > 1) return std::nullopt;
  if (std::count(nodes.begin(), nodes.end(), k_outside) == static_cast<int>(nodes.size())) return std::nullopt;
  int outside = 0;
  for (std::size_t i = 1; i + 1 < nodes.size(); ++i) outside += nodes[i] == k_outside;
  if (outside > line.surface) return std::nullopt;
  std::vector<geometry::GridPoint> marks{from.position};
  for (const int a : path) marks.push_back(problem.apertures[a].position);
  marks.push_back(to.position);
  if (!pleases(problem, line, path, nodes, marks)) return std::nullopt;
  std::int64_t length = 0;
  for (std::size_t i = 1; i < marks.size(); ++i) length += distance(marks[i - 1], marks[i]);
  bool suits = line.lengths.empty() && length + line.min_slack <= line.cut_max;
  for (const auto l : line.lengths) suits = suits || (l - length >= line.min_slack && l - length <= line.max_stow);
  if (!suits) return std::nullopt;
  std::int64_t cost = length + problem.rules.per_aperture * static_cast<std::int64_t>(path.size());
  for (std::size_t i = 1; i + 1 < marks.size(); ++i)
    cost += turn(problem, marks[i] - marks[i - 1], marks[i + 1] - marks[i]);
  return cost;
}

/// All sequences of apertures without repetition.
inline std::vector<Path> all_sequences(int apertures) {
  std::vector<Path> all{{}};
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (int a = 0; a < apertures; ++a) {
      if (std::count(all[i].begin(), all[i].end(), a) != 0) continue;
      Path longer = all[i];
      longer.push_back(a);
      all.push_back(longer);
    }
  }
  return all;
}

inline const Connector& lead(const Line& line) {
  if (line.captive_end) return line.ends[*line.captive_end == 0 ? 1 : 0].connector;
  return line.ends[0].connector.diameter <= line.ends[1].connector.diameter ? line.ends[0].connector
                                                                            : line.ends[1].connector;
}

/// Do the bodies lie in the hole, really?
inline bool really_lie(const geometry::Opening& hole, const geometry::Bodies& bodies) {
  return geometry::judge_packing(hole, bodies).answer == geometry::PackingAnswer::fits;
}

/// Do the circles lie in the hole by the density rule of the problem?
inline bool circles_lie(const Problem& problem, const std::vector<quantity::Length>& circles, quantity::Length width,
                        int permille, bool bodies) {
  double area = 0;
  for (const auto c : circles) {
    if (c > width) return false;
    area += um(c) * um(c);
  }
  if (bodies && circles.size() == 1) return true;
  if (1000 * area <= permille * um(width) * um(width)) return true;
  return bodies && circles.size() <= 7 && *std::min_element(circles.begin(), circles.end()) == circles[0] &&
         *std::max_element(circles.begin(), circles.end()) == circles[0] &&
         10000 * um(width) >= static_cast<double>(problem.rules.equal_table[circles.size() - 1]) * um(circles[0]);
}

inline bool plug_passes(const Connector& plug, geometry::Opening hole) {
  if (!plug.section) return plug.diameter <= hole.width;
  const auto fits = [&](quantity::Length along, quantity::Length across) {
    if (across > hole.width) return false;
    const double flat = um(hole.length) - um(hole.width);
    return um(along) <= flat + std::sqrt(um(hole.width) * um(hole.width) - um(across) * um(across)) + 1e-9;
  };
  return fits(plug.section->width, plug.section->height) || fits(plug.section->height, plug.section->width);
}

/// A device in a sequence of lines.
inline int device_item(std::size_t device) {
  return -1 - static_cast<int>(device);
}

/// Can `sequence` be pulled through an aperture, one after the other, at `steps`? Devices pass and leave it free.
inline bool pulls(const Problem& problem, const Path& sequence, int aperture, int steps) {
  const Aperture& hole = problem.apertures[aperture];
  const auto more = quantity::micrometres(100 * steps);
  const geometry::Opening clear{hole.opening.width + more, hole.opening.length + more};
  std::vector<quantity::Length> inside;
  for (const int item : sequence) {
    const Connector& first = item < 0 ? *problem.devices[-1 - item].body : lead(problem.lines[item]);
    std::vector<quantity::Length> with_plug = inside;
    with_plug.push_back(first.diameter);
    const bool exact = problem.rules.packing == Packing::exact;
    if (inside.empty()) {
      if (!plug_passes(first, clear)) return false;
    } else if (exact ? !really_lie(clear, first.section ? geometry::Bodies{inside, first.section}
                                                        : geometry::Bodies{with_plug, {}})
                     : !circles_lie(problem, with_plug, clear.width, problem.rules.pull_permille, false)) {
      return false;
    }
    if (item >= 0) inside.push_back(problem.lines[item].diameter);
  }
  if (hole.kind == ApertureKind::exclusive && inside.size() > 1) return false;
  for (const auto body : inside)
    if (body > clear.width) return false;
  if (inside.empty()) return true;
  return problem.rules.packing == Packing::exact
             ? really_lie(clear, {inside, {}})
             : circles_lie(problem, inside, clear.width, problem.rules.pack_permille, true);
}

class Enumeration {
 public:
  explicit Enumeration(const Problem& problem)
      : problem_(problem), sequences_(all_sequences(static_cast<int>(problem.apertures.size()))) {}

  std::optional<std::int64_t> least_cost() {
    seats_.assign(problem_.devices.size(), 0);
    choose_seats(0);
    return best_;
  }

 private:
  void choose_seats(std::size_t device) {
    if (device < problem_.devices.size()) {
      for (seats_[device] = 0; seats_[device] < problem_.devices[device].seats.size(); ++seats_[device])
        choose_seats(device + 1);
      return;
    }
    std::vector<int> places;
    taken_.clear();
    std::int64_t cost = 0;
    for (std::size_t d = 0; d < seats_.size(); ++d) {
      const Seat& seat = problem_.devices[d].seats[seats_[d]];
      cost += seat.cost;
      if (seat.place && std::count(places.begin(), places.end(), *seat.place)) return;
      if (seat.place) places.push_back(*seat.place);
      if (seat.aperture && std::count(taken_.begin(), taken_.end(), *seat.aperture)) return;
      if (seat.aperture && problem_.apertures[*seat.aperture].taken) return;
      if (seat.aperture) taken_.push_back(*seat.aperture);
      for (const int a : seat.entries)
        if (problem_.devices[d].body && problem_.apertures[a].taken) return;
    }
    list_paths();
    chosen_.assign(problem_.lines.size(), nullptr);
    choose_paths(0, cost);
  }

  const Seat& seat(int device) const { return problem_.devices[device].seats[seats_[device]]; }

  void list_paths() {
    paths_.assign(problem_.lines.size(), {});
    for (std::size_t k = 0; k < problem_.lines.size(); ++k) {
      const Line& line = problem_.lines[k];
      for (const Path& path : sequences_) {
        if (std::any_of(path.begin(), path.end(),
                        [&](int a) { return std::count(taken_.begin(), taken_.end(), a) != 0; }))
          continue;
        if (const auto c = cost_of(problem_, line, seat(line.ends[0].device), seat(line.ends[1].device), path))
          paths_[k].push_back({path, *c});
      }
    }
  }

  void choose_paths(std::size_t k, std::int64_t cost) {
    if (best_ && cost >= *best_) return;
    if (k == paths_.size()) return choose_order(cost);
    for (const Priced& path : paths_[k]) {
      chosen_[k] = &path.path;
      choose_paths(k + 1, cost + path.cost);
    }
  }

  void choose_order(std::int64_t cost) {
    Path order(chosen_.size());
    std::iota(order.begin(), order.end(), 0);
    for (std::size_t d = 0; d < seats_.size(); ++d)
      if (problem_.devices[d].body && !seat(static_cast<int>(d)).entries.empty()) order.push_back(device_item(d));
    std::sort(order.begin(), order.end());
    do {
      std::int64_t total = cost;
      bool works = leads_first(order);
      for (int a = 0; a < static_cast<int>(problem_.apertures.size()) && works; ++a) {
        Path through;
        for (const int k : order)
          if (passes_by(k, a)) through.push_back(k);
        int steps = 0;
        while (steps <= problem_.apertures[a].enlarge_max && !pulls(problem_, through, a, steps)) ++steps;
        works = steps <= problem_.apertures[a].enlarge_max;
        total += problem_.apertures[a].enlarge_cost * steps;
      }
      if (works && (!best_ || total < *best_)) best_ = total;
    } while (std::next_permutation(order.begin(), order.end()));
  }

  bool passes_by(int item, int aperture) const {
    const Path& path = item < 0 ? seat(-1 - item).entries : *chosen_[item];
    return std::count(path.begin(), path.end(), aperture) != 0;
  }

  bool leads_first(const Path& order) const {
    for (std::size_t i = 0; i < order.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        if (order[j] >= 0 || order[i] < 0) continue;
        const Line& line = problem_.lines[order[i]];
        if (line.captive_end && line.ends[*line.captive_end].device == -1 - order[j]) return false;
      }
    return true;
  }

  const Problem& problem_;
  std::vector<Path> sequences_;
  std::vector<std::size_t> seats_;
  std::vector<int> taken_;
  std::vector<std::vector<Priced>> paths_;
  std::vector<const Path*> chosen_;
  std::optional<std::int64_t> best_;
};

}  // namespace cotter::engine::route::enumeration
