#include "geometry/packing/build.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace cotter::geometry::packing {

namespace {

/// How far bodies are pushed beyond touching, so that a layout that settles is clear of it.
constexpr double k_clear = 1e-5;
constexpr int k_most_programs = 25;
constexpr double k_least_gain = 1e-9;
constexpr double k_tolerance = 1e-10;
constexpr int k_most_pivots = 400;

/// Numbers between 0 and 1, the same on every machine.
class Dice {
 public:
  explicit Dice(int seed) : state_(0x9e3779b97f4a7c15ULL * static_cast<std::uint64_t>(seed + 1)) {}
  double next() {
    state_ += 0x9e3779b97f4a7c15ULL;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
    return static_cast<double>((z ^ (z >> 31U)) >> 11U) * 0x1p-53;
  }

 private:
  std::uint64_t state_;
};

class Pusher {
 public:
  Pusher(const Scene& scene, int start) : scene_(scene), dice_(start) {
    const double reach = scene.hole.short_half;
    for (std::size_t i = 0; i < scene.circles(); ++i) {
      const double angle = start == 0 ? 2.4 * static_cast<double>(i) : 2 * std::numbers::pi * dice_.next();
      const double far = start == 0 ? 0.7 : std::sqrt(dice_.next());
      const Vector at = far * at_angle(angle);
      layout_.circles.push_back({at.x * (scene.hole.straight + reach), at.y * reach});
    }
    if (scene.plug) start_plug(start);
  }

  /// One round over all pairs and walls; the largest overlap met.
  double round() {
    worst_ = 0;
    for (std::size_t i = 0; i < scene_.circles(); ++i) {
      for (std::size_t j = 0; j < i; ++j) part(i, j);
      if (scene_.plug) part_from_plug(i);
      inside(i);
    }
    if (scene_.plug) plug_inside();
    return worst_;
  }

  const Layout& layout() const { return layout_; }

 private:
  void start_plug(int start) {
    layout_.plug = {0, 0};
    layout_.angle = scene_.plug->x < scene_.plug->y ? std::numbers::pi / 2 : 0;
    if (start == 0) return;
    layout_.plug = {(dice_.next() - 0.5) * 0.6, (dice_.next() - 0.5) * scene_.hole.short_half};
    if (dice_.next() < 0.5) layout_.angle += std::numbers::pi * (dice_.next() - 0.5);
  }

  void part(std::size_t i, std::size_t j) {
    Vector& a = layout_.circles[i];
    Vector& b = layout_.circles[j];
    const Vector apart = a - b;
    const double far = length(apart);
    const double overlap = scene_.radii[i] + scene_.radii[j] + k_clear - far;
    if (overlap <= 0) return;
    worst_ = std::max(worst_, overlap);
    const Vector push = far > 1e-12 ? (0.5 * overlap / far) * apart : Vector{0.5 * overlap, 0};
    a = a + push;
    b = b - push;
  }

  void part_from_plug(std::size_t i) {
    const Vector turn = at_angle(layout_.angle);
    const Vector seen = turned_back(layout_.circles[i] - layout_.plug, turn);
    const Approach near = approach(*scene_.plug, seen);
    const double overlap = scene_.radii[i] + k_clear - near.distance;
    if (overlap <= 0) return;
    worst_ = std::max(worst_, overlap);
    const Vector away = turned(near.direction, turn);
    layout_.circles[i] = layout_.circles[i] + 0.5 * overlap * away;
    push_plug(turned(seen, turn), -0.5 * overlap * away);
  }

  /// Moves the plug by `push`, which acts at `arm` from its middle.
  void push_plug(Vector arm, Vector push) {
    layout_.plug = layout_.plug + push;
    const double inertia = dot(*scene_.plug, *scene_.plug) + dot(arm, arm);
    layout_.angle += dot(left_of(arm), push) / inertia;
  }

  void inside(std::size_t i) {
    Vector& at = layout_.circles[i];
    const Vector out = wall_direction(scene_.hole, at);
    const double overlap = beyond(scene_.hole, at, out) + scene_.radii[i] + k_clear;
    if (overlap <= 0) return;
    worst_ = std::max(worst_, overlap);
    at = at - overlap * out;
  }

  void plug_inside() {
    for (int k = 0; k < 4; ++k) {
      const Vector arm = turned(corner(*scene_.plug, k), at_angle(layout_.angle));
      const Vector at = layout_.plug + arm;
      const Vector out = wall_direction(scene_.hole, at);
      const double overlap = beyond(scene_.hole, at, out) + k_clear;
      if (overlap <= 0) continue;
      worst_ = std::max(worst_, overlap);
      push_plug(arm, -0.7 * overlap * out);
    }
  }

  const Scene& scene_;
  Dice dice_;
  Layout layout_;
  double worst_ = 0;
};

int unknown_x(std::size_t body) {
  return static_cast<int>(2 * body);
}

/// One program around a layout: pairs keep to their sides of a line, the plug turns a little.
class Linearised {
 public:
  Linearised(const Scene& scene, const Layout& at, double turn_limit)
      : scene_(scene),
        at_(at),
        turn_(at_angle(at.angle)),
        turn_limit_(turn_limit),
        program_(static_cast<int>(2 * scene.circles()) + (scene.plug ? 3 : 0), starting_bounds()) {
    for (std::size_t i = 0; i < scene.circles(); ++i) {
      for (std::size_t j = 0; j < i; ++j) keep_apart(i, j);
      if (scene.plug) keep_from_plug(i);
    }
    if (scene.plug) limit_turn();
  }

  /// The best layout of the program; `slack` below zero is a gap everywhere.
  Layout solved(double& slack, std::int64_t& steps) {
    for (int pivots = 0; pivots < k_most_pivots; ++pivots, ++steps) {
      Row worst;
      double missing = k_tolerance;
      const auto offer = [&](const Row& row) {
        const double m = program_.shortfall(row);
        if (m <= missing) return;
        missing = m;
        worst = row;
      };
      for (const Row& row : rows_) offer(row);
      for (std::size_t i = 0; i < scene_.circles(); ++i) offer(wall_row(i));
      for (int k = 0; scene_.plug && k < 4; ++k) offer(corner_row(k));
      if (missing <= k_tolerance || !program_.enter(worst)) break;
    }
    slack = program_.slack();
    return layout();
  }

 private:
  using Numbers = std::array<double, k_most_unknowns>;

  Numbers starting_bounds() const {
    Numbers above{};
    for (std::size_t i = 0; i < scene_.circles(); ++i) {
      above[2 * i] = support(scene_.hole, {1, 0}) - scene_.radii[i];
      above[2 * i + 1] = support(scene_.hole, {0, 1}) - scene_.radii[i];
    }
    const std::size_t plug = scene_.circles();
    if (scene_.plug) {
      above[2 * plug] = support(scene_.hole, {1, 0});
      above[2 * plug + 1] = support(scene_.hole, {0, 1});
      above[2 * plug + 2] = turn_limit_;
    }
    return above;
  }

  int plug_x() const { return unknown_x(scene_.circles()); }
  int turn() const { return plug_x() + 2; }
  Vector place(int x) const {
    const auto k = static_cast<std::size_t>(x);
    return {program_.point()[k], program_.point()[k + 1]};
  }

  void keep_apart(std::size_t i, std::size_t j) {
    const Vector apart = at_.circles[i] - at_.circles[j];
    const double far = length(apart);
    const Vector u = far > 1e-12 ? (1 / far) * apart : Vector{1, 0};
    Row row;
    row.add(unknown_x(i), u.x);
    row.add(unknown_x(i) + 1, u.y);
    row.add(unknown_x(j), -u.x);
    row.add(unknown_x(j) + 1, -u.y);
    row.bound = scene_.radii[i] + scene_.radii[j];
    rows_.push_back(row);
  }

  void keep_from_plug(std::size_t i) {
    const Vector u = turned(approach(*scene_.plug, turned_back(at_.circles[i] - at_.plug, turn_)).direction, turn_);
    for (int k = 0; k < 4; ++k) {
      const Vector arm = turned(corner(*scene_.plug, k), turn_);
      Row row;
      row.add(unknown_x(i), u.x);
      row.add(unknown_x(i) + 1, u.y);
      row.add(plug_x(), -u.x);
      row.add(plug_x() + 1, -u.y);
      row.add(turn(), -dot(left_of(arm), u));
      row.bound = scene_.radii[i] + dot(arm, u);
      rows_.push_back(row);
    }
  }

  void limit_turn() {
    for (const double sign : {1.0, -1.0}) {
      Row row;
      row.add(turn(), sign);
      row.bound = -turn_limit_;
      rows_.push_back(row);
    }
  }

  Row wall_row(std::size_t i) const {
    const Vector u = wall_direction(scene_.hole, place(unknown_x(i)));
    Row row;
    row.add(unknown_x(i), -u.x);
    row.add(unknown_x(i) + 1, -u.y);
    row.bound = scene_.radii[i] - support(scene_.hole, u);
    return row;
  }

  Row corner_row(int k) const {
    const Vector arm = turned(corner(*scene_.plug, k), turn_);
    const Vector at = place(plug_x()) + arm + program_.point()[static_cast<std::size_t>(turn())] * left_of(arm);
    const Vector u = wall_direction(scene_.hole, at);
    Row row;
    row.add(plug_x(), -u.x);
    row.add(plug_x() + 1, -u.y);
    row.add(turn(), -dot(left_of(arm), u));
    row.bound = dot(arm, u) - support(scene_.hole, u);
    return row;
  }

  Layout layout() const {
    Layout result = at_;
    for (std::size_t i = 0; i < scene_.circles(); ++i) result.circles[i] = place(unknown_x(i));
    if (scene_.plug) {
      result.plug = place(plug_x());
      result.angle += program_.point()[static_cast<std::size_t>(turn())];
    }
    return result;
  }

  const Scene& scene_;
  const Layout& at_;
  Vector turn_;
  double turn_limit_;
  Program program_;
  std::vector<Row> rows_;
};

}  // namespace

Layout pushed_apart(const Scene& scene, int start, int rounds, std::int64_t& steps) {
  Pusher pusher(scene, start);
  for (int i = 0; i < rounds; ++i, ++steps) {
    if (pusher.round() < 0.5 * k_clear) break;
  }
  return pusher.layout();
}

Layout improved(const Scene& scene, Layout from, std::int64_t& steps) {
  double worst = worst_overlap(scene, from);
  double turn_limit = 0.2;
  for (int i = 0; i < k_most_programs; ++i) {
    double slack = 0;
    Layout next = Linearised(scene, from, turn_limit).solved(slack, steps);
    const double now = worst_overlap(scene, next);
    if (now < worst - k_least_gain) {
      from = std::move(next);
      worst = now;
    } else if (!scene.plug || turn_limit < 1e-4) {
      break;
    }
    if (scene.plug && now > slack + 0.1 * std::abs(slack) + k_least_gain) turn_limit /= 3;
  }
  return from;
}

}  // namespace cotter::geometry::packing
