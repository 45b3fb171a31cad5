#include "draw/run_lanes.hpp"

#include <algorithm>
#include <cmath>

namespace cotter::draw {
namespace {

constexpr double k_spacing = 5.5;      // px between neighbours
constexpr double k_most_slant = 0.35;  // sine: a piece steeper than this against the axis is not along the tube
constexpr double k_beside = 4;         // px a piece may lie outside the tube and still belong to it
constexpr double k_shortest = 24;      // px: shorter pieces are drawn straight

std::string lane_key_of(const std::string& role) {
  return role.ends_with("_left") ? role.substr(0, role.size() - 4) + "right" : role;
}

void find_tube(const Scene& scene, RunPiece& piece) {
  if (!piece.inside || length_of(piece.b - piece.a) < k_shortest) return;
  double best = 1e9;
  for (const SheetTube& tube : scene.tubes) {
    if (tube.end_on() || std::abs(cross(unit(piece.b - piece.a), unit(tube.b - tube.a))) > k_most_slant) continue;
    const double distance =
        std::max(distance_to_segment(piece.a, tube.a, tube.b), distance_to_segment(piece.b, tube.a, tube.b));
    if (distance > std::max(tube.size_a, tube.size_b) / 2 + k_beside || distance >= best) continue;
    best = distance;
    piece.tube = &tube;
    piece.lane_key = lane_key_of(tube.role);
  }
}

}  // namespace

RunLanes::RunLanes(const model::Plan& plan, const Scene& scene) {
  for (std::size_t run = 0; run < plan.runs.size(); ++run) {
    const model::Run& r = plan.runs[run];
    std::vector<RunPiece>& pieces = pieces_.emplace_back();
    for (std::size_t i = 0; i + 1 < r.path.size(); ++i) {
      RunPiece piece{scene.view(r.path[i]), scene.view(r.path[i + 1]), i < r.inside.size() && r.inside[i], nullptr, {}};
      find_tube(scene, piece);
      if (piece.tube != nullptr) {
        std::vector<std::size_t>& sharing = runs_in_[piece.lane_key];
        if (sharing.empty() || sharing.back() != run) sharing.push_back(run);
      }
      pieces.push_back(piece);
    }
  }
}

double RunLanes::offset(std::size_t run, const RunPiece& piece) const {
  const auto count = static_cast<double>(runs_in_.at(piece.lane_key).size());
  const double room = std::min(piece.tube->size_a, piece.tube->size_b) - 6;
  const double spacing = std::min(k_spacing, std::max(room, 2.0) / std::max(count - 1, 1.0));
  return (share(run, piece) - 0.5) * (count - 1) * spacing;
}

double RunLanes::share(std::size_t run, const RunPiece& piece) const {
  const std::vector<std::size_t>& sharing = runs_in_.at(piece.lane_key);
  if (sharing.size() < 2) return 0.5;
  const auto rank = std::find(sharing.begin(), sharing.end(), run) - sharing.begin();
  return static_cast<double>(rank) / static_cast<double>(sharing.size() - 1);
}

}  // namespace cotter::draw
