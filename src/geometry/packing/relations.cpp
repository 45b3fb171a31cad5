#include "geometry/packing/relations.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cotter::geometry::packing {

namespace {

constexpr double k_quarter = std::numbers::pi / 2;
constexpr double k_widest = std::numbers::pi / 3;  ///< first sectors; wider ones cut off little

void add_vector(Row& row, std::size_t body, Vector u) {
  row.add(unknown_of(body), u.x);
  row.add(unknown_of(body) + 1, u.y);
}

Row difference_row(const Relation& r, Vector u, double bound) {
  Row row;
  add_vector(row, static_cast<std::size_t>(r.second), u);
  add_vector(row, static_cast<std::size_t>(r.first), -1.0 * u);
  row.bound = bound;
  return row;
}

void add(Relation& relation, const Row& row) {
  relation.rows[static_cast<std::size_t>(relation.size++)] = row;
}

/// Sides of a sector are let out by this, so that a slack below zero is possible in the narrowest.
constexpr double k_side = 1e-5;

/// The far side of the chord, and the two sides of the sector.
void write_sector(const Scene& scene, Relation& r) {
  const double reach = scene.radii[static_cast<std::size_t>(r.first)] + scene.radii[static_cast<std::size_t>(r.second)];
  const double middle = (r.low + r.high) / 2;
  add(r, difference_row(r, at_angle(middle), reach * std::cos((r.high - r.low) / 2)));
  add(r, difference_row(r, left_of(at_angle(r.low)), -k_side));
  add(r, difference_row(r, -1.0 * left_of(at_angle(r.high)), -k_side));
}

int turn_unknown(const Scene& scene) {
  return unknown_of(scene.circles()) + 2;
}

/// With n and t the face's normal and tangent at the middle turn and s the sine of the turn from it, a point at depth
/// a >= c and place tau along the face has q.n = a cos - tau s and q.t = a s + tau cos.
void write_face(const Scene& scene, const Turns& turns, Relation& r) {
  const Vector half = *scene.plug;
  const double depth = (r.part % 2 == 0 ? half.x : half.y) + scene.radii[static_cast<std::size_t>(r.second)];
  const Vector normal = at_angle(turns.middle + r.part * k_quarter);
  const double least_cosine = std::cos(turns.half);
  const double sine = std::sin(turns.half);
  const int turn = turn_unknown(scene);
  Row beyond_face = difference_row(r, normal, depth * least_cosine - (r.high - r.low) / 2 * sine);
  Row above = difference_row(r, left_of(normal), std::min(r.low, r.low * least_cosine) - (1 - depth) * sine);
  Row below = difference_row(r, -1.0 * left_of(normal), -std::max(r.high, r.high * least_cosine) - (1 - depth) * sine);
  if (turns.half > 0) {
    beyond_face.add(turn, (r.low + r.high) / 2);
    above.add(turn, -depth);
    below.add(turn, depth);
  }
  add(r, beyond_face);
  add(r, above);
  add(r, below);
}

/// Like a sector around the corner, which itself is plug + cos arm + s left_of(arm).
void write_corner(const Scene& scene, const Turns& turns, Relation& r) {
  const Vector arm = turned(corner(*scene.plug, r.part), at_angle(turns.middle));
  const double radius = scene.radii[static_cast<std::size_t>(r.second)];
  const double low = r.low + turns.middle - turns.half;
  const double high = r.high + turns.middle + turns.half;
  const auto corner_row = [&](Vector u, double bound) {
    const double along = dot(arm, u);
    Row row = difference_row(r, u, bound + std::min(along, along * std::cos(turns.half)));
    if (turns.half > 0) row.add(turn_unknown(scene), -dot(left_of(arm), u));
    add(r, row);
  };
  corner_row(at_angle((low + high) / 2), radius * std::cos((high - low) / 2));
  corner_row(left_of(at_angle(low)), -k_side);
  corner_row(-1.0 * left_of(at_angle(high)), -k_side);
}

std::vector<Relation> parts_around_plug(const Scene& scene, const Relation& open) {
  std::vector<Relation> parts;
  for (int k = 0; k < 4; ++k) {
    Relation face = open;
    face.kind = Relation::Kind::face;
    face.part = k;
    face.high = k % 2 == 0 ? scene.plug->y : scene.plug->x;
    face.low = -face.high;
    parts.push_back(face);
    Relation around = open;
    around.kind = Relation::Kind::corner;
    around.part = k;
    around.low = k * k_quarter;
    around.high = (k + 1) * k_quarter;
    parts.push_back(around);
  }
  return parts;
}

}  // namespace

void write_rows(const Scene& scene, const Turns& turns, Relation& relation) {
  relation.size = 0;
  if (relation.kind == Relation::Kind::sector) write_sector(scene, relation);
  if (relation.kind == Relation::Kind::face) write_face(scene, turns, relation);
  if (relation.kind == Relation::Kind::corner) write_corner(scene, turns, relation);
}

std::vector<Relation> first_parts(const Scene& scene, const Relation& open) {
  if (static_cast<std::size_t>(open.first) == scene.circles()) return parts_around_plug(scene, open);
  const int n = static_cast<int>(std::ceil((open.high - open.low) / k_widest - 1e-9));
  std::vector<Relation> parts;
  for (int k = 0; k < n; ++k) {
    Relation part = open;
    part.kind = Relation::Kind::sector;
    part.low = open.low + (open.high - open.low) * k / n;
    part.high = open.low + (open.high - open.low) * (k + 1) / n;
    parts.push_back(part);
  }
  return parts;
}

Row corner_row(const Scene& scene, const Turns& turns, int k, Vector u) {
  const Vector arm = turned(corner(*scene.plug, k), at_angle(turns.middle));
  const double along = dot(arm, u);
  Row row;
  add_vector(row, scene.circles(), -1.0 * u);
  if (turns.half > 0) row.add(turn_unknown(scene), -dot(left_of(arm), u));
  row.bound = std::min(along, along * std::cos(turns.half)) - support(scene.hole, u);
  return row;
}

Row wall_row(const Scene& scene, std::size_t i, Vector u) {
  Row row;
  add_vector(row, i, -1.0 * u);
  row.bound = scene.radii[i] - support(scene.hole, u);
  return row;
}

}  // namespace cotter::geometry::packing
