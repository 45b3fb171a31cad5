#include "columns.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <queue>

namespace route_peers {

namespace {

constexpr std::int64_t k_far = std::numeric_limits<std::int64_t>::max() / 4;

Point minus(const Point& p, const Point& q) {
  return {p[0] - q[0], p[1] - q[1], p[2] - q[2]};
}
std::int64_t dot(const Point& p, const Point& q) {
  return p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
}

std::int64_t distance(const Point& p, const Point& q) {
  const Point d = minus(p, q);
  const std::int64_t n = 4 * dot(d, d);
  auto root = static_cast<std::int64_t>(std::sqrt(static_cast<double>(n)));
  while (root * root > n) --root;
  while ((root + 1) * (root + 1) <= n) ++root;
  return (root + 1) / 2;
}

std::int64_t turn(const Rules& rules, const Point& before, const Point& at, const Point& after) {
  const Point u = minus(at, before), v = minus(after, at);
  const std::int64_t uu = dot(u, u), vv = dot(v, v), uv = dot(u, v);
  if (uu == 0 || vv == 0) return rules.turn_costs[0];
  const std::int64_t square = 4 * uv * uv, product = uu * vv;
  if (uv >= 0) return rules.turn_costs[square >= 3 * product ? 0 : square >= product ? 1 : 2];
  return rules.turn_costs[square <= product ? 3 : 4];
}

/// Depth-first over one line and one pair of seats, cut where the rest cannot be short enough.
class Walk {
 public:
  Walk(const Instance& instance, const Line& line, std::array<int, 2> seats)
      : instance_(instance), line_(line), seats_(seats), from_(seat(0)), to_(seat(1)), longest_(line.longest_way()) {
    for (std::size_t a = 0; a < instance.apertures.size(); ++a) {
      const Aperture& aperture = instance.apertures[a];
      const bool taken = from_.aperture == static_cast<int>(a) || to_.aperture == static_cast<int>(a);
      open_.push_back(!taken && line.lead <= aperture.width + aperture.enlarge_max);
    }
    measure_rest();
  }

  std::vector<Column> columns() {
    if (from_.node >= 0 && from_.node == to_.node) {
      const std::int64_t way = distance(from_.position, to_.position);
      if (line_.suits(way)) found_.push_back({seats_, {}, 0, way});
    } else {
      step(from_.node, from_.position, from_.position, 0, 0);
    }
    return undominated();
  }

 private:
  const Seat& seat(std::size_t end) const {
    return instance_.devices[static_cast<std::size_t>(line_.devices[end])][static_cast<std::size_t>(seats_[end])];
  }

  /// rest_[a][side]: least length from aperture a, gone through to its side, to the goal.
  void measure_rest() {
    const std::size_t n = instance_.apertures.size();
    rest_.assign(n, {k_far, k_far});
    using Item = std::tuple<std::int64_t, std::size_t, std::size_t>;
    std::priority_queue<Item, std::vector<Item>, std::greater<>> queue;
    for (std::size_t a = 0; a < n; ++a)
      for (std::size_t side = 0; side < 2; ++side)
        if (open_[a] && node(a, side) == to_.node) {
          rest_[a][side] = distance(instance_.apertures[a].place, to_.position);
          queue.emplace(rest_[a][side], a, side);
        }
    while (!queue.empty()) {
      const auto [rest, a, side] = queue.top();
      queue.pop();
      if (rest > rest_[a][side]) continue;
      for (std::size_t b = 0; b < n; ++b)
        for (std::size_t far = 0; far < 2; ++far) {
          if (b == a || !open_[b] || node(b, far) != node(a, 1 - side)) continue;
          const std::int64_t longer = rest + distance(instance_.apertures[a].place, instance_.apertures[b].place);
          if (longer >= rest_[b][far]) continue;
          rest_[b][far] = longer;
          queue.emplace(longer, b, far);
        }
    }
  }

  int node(std::size_t a, std::size_t side) const {
    return side == 0 ? instance_.apertures[a].a : instance_.apertures[a].b;
  }

  void step(int at, const Point& before, const Point& here, std::int64_t way, std::int64_t turns) {
    if (at >= 0) cells_ |= std::uint64_t{1} << at;
    for (std::size_t a = 0; a < instance_.apertures.size(); ++a) {
      if (!open_[a] || (used_ >> a & 1) != 0) continue;
      for (std::size_t side = 0; side < 2; ++side)
        if (node(a, 1 - side) == at) pass(a, side, before, here, way, turns);
    }
    if (at >= 0) cells_ &= ~(std::uint64_t{1} << at);
  }

  void pass(std::size_t a, std::size_t side, const Point& before, const Point& here, std::int64_t way,
            std::int64_t turns) {
    const int there = node(a, side);
    if (there >= 0 && (cells_ >> there & 1) != 0) return;
    const Point& place = instance_.apertures[a].place;
    const std::int64_t longer = way + distance(here, place);
    if (longer + rest_[a][side] > longest_) return;
    if (!path_.empty()) turns += turn(instance_.rules, before, here, place);
    path_.push_back(static_cast<int>(a));
    used_ |= std::uint64_t{1} << a;
    if (there == to_.node) finish(here, place, longer, turns);
    if (there == k_outside && outside_ < line_.surface) {
      ++outside_;
      step(there, here, place, longer, turns);
      --outside_;
    } else if (there >= 0 && there != to_.node) {
      step(there, here, place, longer, turns);
    }
    used_ &= ~(std::uint64_t{1} << a);
    path_.pop_back();
  }

  void finish(const Point& before, const Point& last, std::int64_t way, std::int64_t turns) {
    way += distance(last, to_.position);
    turns += turn(instance_.rules, before, last, to_.position);
    if (!line_.suits(way)) return;
    const auto holes = static_cast<std::int64_t>(path_.size());
    found_.push_back({seats_, path_, used_, way + turns + holes * instance_.rules.per_aperture});
  }

  std::vector<Column> undominated() {
    std::stable_sort(found_.begin(), found_.end(), [](const Column& p, const Column& q) { return p.cost < q.cost; });
    std::vector<Column> kept;
    for (const Column& column : found_)
      if (std::none_of(kept.begin(), kept.end(),
                       [&](const Column& k) { return (k.apertures & ~column.apertures) == 0; }))
        kept.push_back(column);
    return kept;
  }

  const Instance& instance_;
  const Line& line_;
  std::array<int, 2> seats_;
  const Seat &from_, &to_;
  std::int64_t longest_;
  std::vector<bool> open_;
  std::vector<std::array<std::int64_t, 2>> rest_;
  std::uint64_t cells_ = 0, used_ = 0;
  int outside_ = 0;
  std::vector<int> path_;
  std::vector<Column> found_;
};

}  // namespace

std::vector<std::vector<Column>> list_columns(const Instance& instance) {
  std::vector<std::vector<Column>> columns;
  for (const Line& line : instance.lines) {
    columns.emplace_back();
    const auto seats = [&](std::size_t end) {
      return static_cast<int>(instance.devices[static_cast<std::size_t>(line.devices[end])].size());
    };
    for (int from = 0; from < seats(0); ++from)
      for (int to = 0; to < seats(1); ++to)
        for (Column& column : Walk(instance, line, {from, to}).columns()) columns.back().push_back(std::move(column));
    std::stable_sort(columns.back().begin(), columns.back().end(),
                     [](const Column& p, const Column& q) { return p.cost < q.cost; });
  }
  return columns;
}

}  // namespace route_peers
