#pragma once
// Numbers and letters over the drawing, each on a leader from what it points to.
//
// Placing rule: in the order given each balloon tries rings of places around its target and takes the one that covers
// and crosses least; then each may move again while the others stay. Middles keep 48 px apart (the size of a finger)
// where there is room, and never overlap.

#include <string>
#include <vector>

#include "draw/findings_list.hpp"
#include "draw/scene.hpp"
#include "draw/svg_writer.hpp"

namespace cotter::draw {

struct Balloon {
  Spot target;
  double radius = 10;
  double target_radius = 0;  ///< the leader starts at this distance from the target
  Spot at;                   ///< result
  std::string mark;
  const ListedFinding* finding = nullptr;  ///< one of the two is set
  const model::OpeningUse* opening = nullptr;
};

/// The balloons of the listed findings, worst first, then those of the openings that have a letter. A finding points to
/// the opening it is about, or to the anchor of its first mating feature or place that has one; without either it has
/// none.
std::vector<Balloon> balloons_of(const model::Plan& plan, const Scene& scene, const FindingsList& list);

void place_balloons(std::vector<Balloon>& balloons, Obstacles& obstacles);

/// The holes to the outside, which have a letter: dashed on the far side, in true size where that can be seen. Each
/// carries `data-opening` and its place in micrometres.
void draw_openings(SvgWriter& svg, const model::Plan& plan, const Scene& scene);

void draw_balloons(SvgWriter& svg, const std::vector<Balloon>& balloons, const std::string& selected);

inline constexpr double k_apart = 48;

}  // namespace cotter::draw
