#include "engine/route/walker.hpp"

#include <algorithm>
#include <unordered_set>

#include "engine/route/demands.hpp"

namespace cotter::engine::route {

namespace {

using geometry::GridPoint;

/// More excursions than this are not told apart: then nothing is dropped.
constexpr std::size_t k_most_excursions = 8;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

const Seat& seat_of(const Problem& problem, const Way& way, std::size_t end) {
  const int device = problem.lines[index(way.line)].ends[end].device;
  return problem.devices[index(device)].seats[index(way.seats[end])];
}

class Walker {
 public:
  Walker(const Problem& problem, FrameMap& map, const Way& blank, const WalkLimits& limits,
         const std::vector<FrameMap::Rest>& rest, std::int64_t& effort)
      : problem_(problem),
        map_(map),
        line_(problem.lines[index(blank.line)]),
        from_(seat_of(problem, blank, 0)),
        to_(seat_of(problem, blank, 1)),
        limits_(limits),
        rest_(rest),
        effort_(effort),
        way_(blank) {}

  std::vector<Way> list() {
    if (from_.node == to_.node && from_.node != k_outside) {
      finish(geometry::rounded_distance_mm(from_.position, to_.position), 0);
    } else {
      step({from_.node, from_.position, from_.position, 0, 0, line_.surface});
    }
    return std::move(found_);
  }

 private:
  struct Head {
    int node;
    GridPoint before;  ///< the mark before `at`; the same for the seat
    GridPoint at;
    std::int64_t length;
    std::int64_t turns;
    int surface;  ///< visits to the outside left
  };

  void step(const Head& head) {
    if (head.node != k_outside) seen_ |= std::uint64_t{1} << head.node;
    for (const int aperture : map_.doors(head.node)) {
      if (effort_ <= 0) break;
      if (limits_.open[index(aperture)] == 0 || way_.apertures[index(aperture)]) continue;
      const int next = map_.beyond(aperture, head.node);
      if (next != k_outside && (seen_ >> next & 1U) != 0) continue;
      pass(head, aperture, next);
    }
    if (head.node != k_outside) seen_ &= ~(std::uint64_t{1} << head.node);
  }

  void pass(const Head& head, int aperture, int next) {
    const std::int64_t rest = rest_[index(aperture)][map_.side(aperture, next)];
    if (rest >= FrameMap::k_far || head.length + rest > limits_.longest) return;
    const GridPoint at = map_.position(aperture);
    const std::int64_t length = head.length + (way_.path.empty() ? geometry::rounded_distance_mm(head.at, at)
                                                                 : map_.distance(way_.path.back(), aperture));
    if (length + rest > limits_.longest) return;
    --effort_;
    const std::int64_t turns = head.turns + (way_.path.empty() ? 0 : turn(head.at - head.before, at - head.at));
    way_.path.push_back(aperture);
    way_.apertures.set(index(aperture));
    if (next == to_.node)
      finish(length + geometry::rounded_distance_mm(at, to_.position), turns + turn(at - head.at, to_.position - at));
    if (next == k_outside ? head.surface > 0 : next != to_.node)
      step({next, head.at, at, length, turns, next == k_outside ? head.surface - 1 : head.surface});
    way_.apertures.reset(index(aperture));
    way_.path.pop_back();
  }

  std::int64_t turn(GridPoint u, GridPoint v) const {
    return problem_.rules.turn_costs[static_cast<std::size_t>(geometry::turn_between(u, v))];
  }

  void finish(std::int64_t length, std::int64_t turns) {
    if (length > limits_.longest) return;
    length = std::max<std::int64_t>(0, length + line_.correction);
    if (!limits_.any_length && !length_for(line_, length)) return;
    if (limits_.demanding && !suits(problem_, way_.line, way_.path, marks_of(problem_, way_))) return;
    found_.push_back(way_);
    found_.back().length = length;
    found_.back().cost = length + problem_.rules.per_aperture * static_cast<std::int64_t>(way_.path.size()) + turns;
  }

  const Problem& problem_;
  FrameMap& map_;
  const Line& line_;
  const Seat& from_;
  const Seat& to_;
  const WalkLimits& limits_;
  const std::vector<FrameMap::Rest>& rest_;
  std::int64_t& effort_;
  Way way_;
  std::uint64_t seen_ = 0;
  std::vector<Way> found_;
};

/// A way cut at its visits to the outside: pieces that can be left out, and those that cannot.
struct Excursions {
  ApertureSet needed;
  std::vector<ApertureSet> others;
};

Excursions excursions_of(const Problem& problem, const Way& way) {
  Excursions cut;
  ApertureSet piece;
  int node = seat_of(problem, way, 0).node;
  bool from_outside = node == k_outside;
  for (const int a : way.path) {
    piece.set(index(a));
    node = problem.apertures[index(a)].a == node ? problem.apertures[index(a)].b : problem.apertures[index(a)].a;
    if (node != k_outside) continue;
    if (from_outside) {
      cut.others.push_back(piece);
    } else {
      cut.needed |= piece;
    }
    piece.reset();
    from_outside = true;
  }
  cut.needed |= piece;
  return cut;
}

/// Does the way come back to the outside, so that something could be left out?
bool may_be_cut(const Problem& problem, const Way& way) {
  return !excursions_of(problem, way).others.empty();
}

bool is_pointless(const Excursions& cut, const std::unordered_set<ApertureSet>& kept) {
  if (cut.others.size() > k_most_excursions) return false;
  for (std::size_t chosen = 0; chosen < std::size_t{1} << cut.others.size(); ++chosen) {
    ApertureSet part = cut.needed;
    for (std::size_t i = 0; i < cut.others.size(); ++i)
      if ((chosen >> i & 1U) != 0) part |= cut.others[i];
    if (kept.contains(part)) return true;
  }
  return false;
}

}  // namespace

std::vector<Way> walks(const Problem& problem, FrameMap& map, const Way& blank, const WalkLimits& limits,
                       const std::vector<FrameMap::Rest>& rest, std::int64_t& effort) {
  return Walker(problem, map, blank, limits, rest, effort).list();
}

std::vector<Way> without_pointless(const Problem& problem, std::vector<Way> ways) {
  std::sort(ways.begin(), ways.end(), [](const Way& x, const Way& y) {
    if (x.cost != y.cost) return x.cost < y.cost;
    if (x.path.size() != y.path.size()) return x.path.size() < y.path.size();
    return x.path < y.path;
  });
  if (std::none_of(ways.begin(), ways.end(), [&](const Way& way) { return may_be_cut(problem, way); })) return ways;
  std::vector<Way> kept;
  std::unordered_set<ApertureSet> sets;
  for (Way& way : ways) {
    if (is_pointless(excursions_of(problem, way), sets)) continue;
    sets.insert(way.apertures);
    kept.push_back(std::move(way));
  }
  return kept;
}

}  // namespace cotter::engine::route
