#pragma once
// Cells, openings, devices and wished lines of the job as a problem of the route engine, with the way back.

#include <optional>
#include <string>
#include <vector>

#include "engine/route/solve.hpp"
#include "geometry/pivot.hpp"
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
  bool turns = false;  ///< it lies on what turns about the frame's pivot
};

/// The pivot of a sprung frame.
struct RoutePivot {
  std::string place, id;
  std::string label;
  geometry::Pivot travel;  ///< to the ends of the range of both angles
  bool attested = true;    ///< somebody vouches for all of its numbers
};

struct RouteLine {
  const model::LineWish* wish = nullptr;  ///< of the job
  const model::LineForm* form = nullptr;
  std::string number;       ///< L1, L2, ...
  std::string label;        ///< label of the line part
  std::string from, to;     ///< labels of the places
  std::int64_t travel = 0;  ///< mm of its slack that the travel about the pivot asks for
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
  std::vector<std::vector<bool>> seat_turns;         ///< whether each of them turns about the pivot
  std::optional<RoutePivot> pivot;
  std::vector<WaitingLine> waiting;
  std::vector<std::string> not_placed;  ///< openings whose tube has no axis, because frame numbers are missing
};

RouteProblem route_problem(const Assembly& assembly, const geometry::Skeleton& skeleton);

}  // namespace cotter::plan
