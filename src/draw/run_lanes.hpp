#pragma once
// Which runs share which tube, and how far beside the tube's axis each is drawn.

#include <map>
#include <string>
#include <vector>

#include "draw/scene.hpp"

namespace cotter::draw {

/// A piece of a run between two of its points.
struct RunPiece {
  Spot a, b;
  bool inside = false;
  const SheetTube* tube = nullptr;  ///< the tube it lies along, when there is one
  std::string lane_key;             ///< that tube's role; left and right ones fall together in the side view
};

class RunLanes {
 public:
  RunLanes(const model::Plan& plan, const Scene& scene);

  const std::vector<RunPiece>& pieces(std::size_t run) const { return pieces_[run]; }
  /// Distance from the axis, square to it, to the side of `turned(direction of the tube)`.
  double offset(std::size_t run, const RunPiece& piece) const;
  /// Place among the runs of that tube, between 0 and 1.
  double share(std::size_t run, const RunPiece& piece) const;

 private:
  std::vector<std::vector<RunPiece>> pieces_;
  std::map<std::string, std::vector<std::size_t>> runs_in_;
};

}  // namespace cotter::draw
