#pragma once
// Cells, openings, devices and wished lines of the job as a problem of the route engine, with the way back.

#include <string>
#include <vector>

#include "engine/route/solve.hpp"
#include "model/plan.hpp"
#include "plan/assembly.hpp"
#include "plan/skeleton.hpp"

namespace cotter::plan {

/// An aperture of the problem and the opening or passage it was made from.
struct ApertureOrigin {
  std::string id;      ///< `place.opening`, in the job's names
  std::string label;   ///< "frame: down tube, left"
  std::string letter;  ///< openings only
  std::string side;
  model::ClearShape shape;
  std::int64_t enlarge_most = 0;  ///< nanometres
  std::string enlarge_paper;
  model::Material material = model::Material::unknown;
  geometry::Point3 at;
  bool is_opening = false;
};

struct RouteLine {
  const model::LineWish* wish = nullptr;  ///< of the job
  const model::LineForm* form = nullptr;
  std::string number;    ///< L1, L2, ...
  std::string label;     ///< label of the line part
  std::string from, to;  ///< labels of the places
};

/// A line that cannot be put to the engine yet, and why.
struct WaitingLine {
  std::string line, number, label;
  std::string place, place_label;  ///< the place that is open, or that has no seat
};

struct RouteProblem {
  engine::route::Problem problem;
  std::vector<ApertureOrigin> apertures;             ///< in the order of problem.apertures
  std::vector<RouteLine> lines;                      ///< in the order of problem.lines
  std::vector<std::string> devices;                  ///< place labels, in the order of problem.devices
  std::vector<std::vector<geometry::Point3>> seats;  ///< exact places of the seats of each device
  std::vector<WaitingLine> waiting;
  std::vector<std::string> not_placed;  ///< openings whose tube has no axis, because frame numbers are missing
};

RouteProblem route_problem(const Assembly& assembly, const geometry::Skeleton& skeleton);

}  // namespace cotter::plan
