#include "geometry/packing/search.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <numbers>

#include "geometry/packing/build.hpp"
#include "geometry/packing/relations.hpp"

namespace cotter::geometry::packing {

namespace {

using Kind = Relation::Kind;

constexpr double k_whole_turn = 2 * std::numbers::pi;
constexpr double k_tolerance = 1e-10;      ///< rows that fail by less are let be
constexpr double k_narrowest = 1e-5;       ///< sectors and turns are not narrowed further
constexpr double k_worth_proving = 1e-11;  ///< slack from which a proof is tried
constexpr double k_drift = 1e-8;           ///< between slack and proof, from which the program is begun anew
constexpr int k_turn_parts = 6;
constexpr int k_most_pivots = 300;

struct Node {
  Program program;
  std::vector<Relation> relations;
  Turns turns;
};

class Search {
 public:
  Search(const Scene& scene, const Accept& accept, std::int64_t& steps)
      : scene_(scene), accept_(accept), steps_(steps) {}

  SearchResult run() {
    result_.outcome = Outcome::refuted;
    if (!turning()) {
      visit(root({0, 0}));
    } else {
      const double half = std::numbers::pi / 4 / k_turn_parts;
      for (int k = 0; k < k_turn_parts && going(); ++k) visit(root({(2 * k + 1) * half, half}));
    }
    return result_;
  }

 private:
  bool turning() const { return scene_.plug && !scene_.round(); }
  bool going() const { return result_.outcome == Outcome::refuted; }
  int circles() const { return static_cast<int>(scene_.circles()); }

  Program fresh_program(const Turns& turns) const {
    std::array<double, k_most_unknowns> above{};
    const Vector most{support(scene_.hole, {1, 0}), support(scene_.hole, {0, 1})};
    for (std::size_t i = 0; i < scene_.circles(); ++i) {
      above[2 * i] = most.x - scene_.radii[i];
      above[2 * i + 1] = most.y - scene_.radii[i];
    }
    if (scene_.plug) {
      const double inner = std::min(scene_.plug->x, scene_.plug->y);
      above[2 * scene_.circles()] = most.x - inner;
      above[2 * scene_.circles() + 1] = most.y - inner;
      above[2 * scene_.circles() + 2] = std::sin(turns.half);
    }
    return {2 * circles() + (scene_.plug ? 2 : 0) + (turning() ? 1 : 0), above};
  }

  Node root(const Turns& turns) {
    Node node{fresh_program(turns), {}, turns};
    for (int i = 0; i < circles(); ++i) {
      if (scene_.plug) node.relations.push_back({.first = circles(), .second = i});
      for (int j = 0; j < i; ++j) node.relations.push_back({.first = j, .second = i, .low = 0, .high = k_whole_turn});
    }
    if (!scene_.plug) drop_images(node);
    return node;
  }

  /// Turns and mirror images of one layout need to be looked at once.
  void drop_images(Node& node) const {
    if (node.relations.empty()) return;
    Relation& largest = node.relations[0];
    largest.kind = Kind::sector;
    largest.high = scene_.round() ? 0 : k_whole_turn / 4;
    write_rows(scene_, node.turns, largest);
    if (scene_.round() && node.relations.size() > 1) node.relations[1].high = k_whole_turn / 2;
  }

  /// True when the first circle beside the plug need not be looked for there.
  bool is_image(const Relation& r) const {
    if (r.second != 0 || r.kind == Kind::sector) return false;
    const int part = r.part;
    if (r.kind == Kind::corner) return scene_.round() ? part != 0 : part == 1 || part == 2;
    return part == 2 || (scene_.round() && part == 3);
  }

  void visit(Node node) {
    ++result_.nodes;
    if (!solve(node)) return;
    const Layout layout = layout_of(node);
    if (accepted(layout)) return;
    if (steps_ < 0) {
      result_.outcome = Outcome::open;
      return;
    }
    branch(node, layout);
  }

  /// False when the node is cut off.
  bool solve(Node& node) {
    bool fresh = false;
    for (int pivots = 0; pivots < k_most_pivots; ++pivots) {
      if (node.program.slack() > k_worth_proving) {
        const double certain = node.program.certain_slack();
        if (certain > 0) return false;
        if (!fresh && node.program.slack() - certain > k_drift) {
          node.program = fresh_program(node.turns);
          fresh = true;
          continue;
        }
      }
      const Row* worst = nullptr;
      double missing = k_tolerance;
      const auto offer = [&](const Row& row) {
        const double m = node.program.shortfall(row);
        if (m <= missing) return;
        missing = m;
        worst = &row;
      };
      for (const Relation& r : node.relations)
        for (int k = 0; k < r.size; ++k) offer(r.rows[static_cast<std::size_t>(k)]);
      const auto walls = wall_rows(node);
      for (const Row& row : walls) offer(row);
      if (worst == nullptr) return true;
      --steps_;
      if (!node.program.enter(*worst)) return true;
    }
    return true;
  }

  std::vector<Row> wall_rows(const Node& node) const {
    std::vector<Row> rows;
    for (std::size_t i = 0; i < scene_.circles(); ++i)
      rows.push_back(wall_row(scene_, i, wall_direction(scene_.hole, place(node, i))));
    for (int k = 0; scene_.plug && k < 4; ++k) {
      const Vector arm = turned(corner(*scene_.plug, k), at_angle(node.turns.middle));
      const Vector at = place(node, scene_.circles()) + arm + sine(node) * left_of(arm);
      rows.push_back(corner_row(scene_, node.turns, k, wall_direction(scene_.hole, at)));
    }
    for (const double sign : {1.0, -1.0}) {
      if (!turning()) break;
      Row row;
      row.add(unknown_of(scene_.circles()) + 2, sign);
      row.bound = -std::sin(node.turns.half);
      rows.push_back(row);
    }
    return rows;
  }

  static Vector place(const Node& node, std::size_t body) {
    return {node.program.point()[2 * body], node.program.point()[2 * body + 1]};
  }
  double sine(const Node& node) const { return turning() ? node.program.point()[2 * scene_.circles() + 2] : 0; }

  Layout layout_of(const Node& node) const {
    Layout layout;
    for (std::size_t i = 0; i < scene_.circles(); ++i) layout.circles.push_back(place(node, i));
    if (scene_.plug) {
      layout.plug = place(node, scene_.circles());
      layout.angle = node.turns.middle + std::asin(std::clamp(sine(node), -1.0, 1.0));
    }
    return layout;
  }

  bool accepted(const Layout& layout) {
    bool good = worst_overlap(scene_, layout) < 0 && accept_(layout);
    // Improving costs as much as some nodes do, so ever more rarely.
    if (!good && (result_.nodes % 64 == 0 || std::has_single_bit(static_cast<std::uint64_t>(result_.nodes)))) {
      std::int64_t used = 0;
      good = accept_(improved(scene_, layout, used));
      steps_ -= used;
    }
    if (good) result_.outcome = Outcome::found;
    return good;
  }

  double overlap(const Relation& r, const Layout& layout) const {
    const Vector at = layout.circles[static_cast<std::size_t>(r.second)];
    const double radius = scene_.radii[static_cast<std::size_t>(r.second)];
    if (r.first == circles())
      return radius - approach(*scene_.plug, turned_back(at - layout.plug, at_angle(layout.angle))).distance;
    const auto first = static_cast<std::size_t>(r.first);
    return radius + scene_.radii[first] - length(at - layout.circles[first]);
  }

  double plug_overhang(const Layout& layout) const {
    double worst = -1;
    for (int k = 0; k < 4; ++k) {
      const Vector at = layout.plug + turned(corner(*scene_.plug, k), at_angle(layout.angle));
      worst = std::max(worst, beyond(scene_.hole, at, wall_direction(scene_.hole, at)));
    }
    return worst;
  }

  void branch(Node& node, const Layout& layout) {
    std::size_t which = 0;
    double most = -1;
    for (std::size_t i = 0; i < node.relations.size(); ++i) {
      const double o = overlap(node.relations[i], layout);
      if (o <= most) continue;
      most = o;
      which = i;
    }
    if (turning() && (plug_overhang(layout) > most || turn_matters(node, which))) return branch_turn(node);
    if (node.relations.empty()) {
      result_.outcome = Outcome::open;
      return;
    }
    for (Relation& part : parts_of(node.relations[which], layout)) {
      if (!going()) return;
      if (is_image(part)) continue;
      write_rows(scene_, node.turns, part);
      Node child = node;
      child.relations[which] = part;
      visit(std::move(child));
    }
  }

  /// True when the turn blurs the relation more than the relation's own width does.
  bool turn_matters(const Node& node, std::size_t which) const {
    if (node.relations.empty()) return true;
    const Relation& r = node.relations[which];
    if (r.kind == Kind::face) return node.turns.half > 0.5 * (r.high - r.low);
    return r.kind == Kind::corner && node.turns.half > 0.5 * (r.high - r.low);
  }

  void branch_turn(const Node& node) {
    if (node.turns.half < k_narrowest) {
      result_.outcome = Outcome::open;
      return;
    }
    for (const double side : {-0.5, 0.5}) {
      if (!going()) return;
      Node child = node;
      child.turns = {node.turns.middle + side * node.turns.half, node.turns.half / 2};
      child.program = fresh_program(child.turns);
      for (Relation& r : child.relations) write_rows(scene_, child.turns, r);
      visit(std::move(child));
    }
  }

  std::vector<Relation> parts_of(const Relation& r, const Layout& layout) {
    if (r.kind == Kind::open) return first_parts(scene_, r);
    if (r.high - r.low < k_narrowest) {
      result_.outcome = Outcome::open;
      return {};
    }
    const double cut =
        std::clamp(measure(r, layout), r.low + 0.25 * (r.high - r.low), r.high - 0.25 * (r.high - r.low));
    std::vector<Relation> parts(2, r);
    parts[0].high = parts[1].low = cut;
    return parts;
  }

  /// The quantity that the relation narrows, as the layout has it.
  double measure(const Relation& r, const Layout& layout) const {
    const Vector at = layout.circles[static_cast<std::size_t>(r.second)];
    Vector seen = r.kind == Kind::sector ? at - layout.circles[static_cast<std::size_t>(r.first)]
                                         : turned_back(at - layout.plug, at_angle(layout.angle));
    if (r.kind == Kind::face) return turned_back(seen, at_angle(r.part * k_whole_turn / 4)).y;
    if (r.kind == Kind::corner) seen = seen - corner(*scene_.plug, r.part);
    const double angle = std::atan2(seen.y, seen.x);
    const double middle = (r.low + r.high) / 2;
    return angle + k_whole_turn * std::round((middle - angle) / k_whole_turn);
  }

  const Scene& scene_;
  const Accept& accept_;
  std::int64_t& steps_;
  SearchResult result_;
};

}  // namespace

SearchResult search_layout(const Scene& scene, const Accept& accept, std::int64_t& steps) {
  return Search(scene, accept, steps).run();
}

}  // namespace cotter::geometry::packing
