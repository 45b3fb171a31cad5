#include "plan/route/route_runs.hpp"

#include <algorithm>
#include <numeric>

namespace cotter::plan {
namespace {

using engine::route::Result;

/// A cut line is ordered in whole centimetres: nobody cuts a hose to the millimetre before the steering sweep.
std::int64_t up_to_ten(std::int64_t length) {
  return (length + 9) / 10 * 10;
}

int other_end(const engine::route::Aperture& aperture, int node) {
  return aperture.a == node ? aperture.b : aperture.a;
}

void add_path(const RouteProblem& route, const Result& result, std::size_t i, model::Run& run) {
  const engine::route::Line& line = route.problem.lines[i];
  const auto seat_of = [&](std::size_t end) {
    return static_cast<std::size_t>(result.seats[static_cast<std::size_t>(line.ends[end].device)]);
  };
  const auto device = [&](std::size_t end) { return static_cast<std::size_t>(line.ends[end].device); };
  int node = route.problem.devices[device(0)].seats[seat_of(0)].node;
  run.path.push_back(plan_point(route.seats[device(0)][seat_of(0)]));
  for (const int index : result.runs[i].path) {
    const auto at = static_cast<std::size_t>(index);
    run.inside.push_back(node != engine::route::k_outside);
    run.path.push_back(plan_point(route.apertures[at].at));
    node = other_end(route.problem.apertures[at], node);
  }
  run.inside.push_back(node != engine::route::k_outside);
  run.path.push_back(plan_point(route.seats[device(1)][seat_of(1)]));
}

void add_steps(const RouteProblem& route, const engine::route::Run& solved, model::Run& run) {
  std::int64_t along = 0;
  for (std::size_t k = 0; k < solved.path.size(); ++k) {
    along += solved.segments[k];
    const ApertureOrigin& origin = route.apertures[static_cast<std::size_t>(solved.path[k])];
    model::RunStep step;
    step.opening = origin.id;
    step.letter = origin.letter;
    step.label = origin.label;
    step.depth = solved.leading_end == 0 ? along : solved.way - along;
    run.steps.push_back(std::move(step));
  }
}

}  // namespace

std::vector<model::Run> runs_of(const RouteProblem& route, const Result& result) {
  std::vector<model::Run> runs;
  for (std::size_t i = 0; i < result.runs.size(); ++i) {
    const engine::route::Run& solved = result.runs[i];
    const RouteLine& line = route.lines[i];
    model::Run run;
    run.line = line.wish->id;
    run.number = line.number;
    run.label = line.label;
    run.kind = line.form->kind;
    run.from = line.from;
    run.to = line.to;
    run.way = solved.way;
    run.cut_to_length = line.form->lengths.empty();
    run.length = run.cut_to_length ? up_to_ten(solved.length) : solved.length;
    run.leading_end = solved.leading_end == 0 ? line.from : line.to;
    add_path(route, result, i, run);
    add_steps(route, solved, run);
    runs.push_back(std::move(run));
  }
  return runs;
}

std::vector<model::OpeningUse> openings_of(const RouteProblem& route, const Result& result) {
  std::vector<model::OpeningUse> uses;
  for (std::size_t a = 0; a < route.apertures.size(); ++a) {
    const ApertureOrigin& origin = route.apertures[a];
    const auto fill = std::find_if(result.fills.begin(), result.fills.end(),
                                   [&](const engine::route::Fill& one) { return one.aperture == static_cast<int>(a); });
    if (!origin.is_opening && fill == result.fills.end()) continue;
    model::OpeningUse use;
    use.opening = origin.id;
    use.letter = origin.letter;
    use.label = origin.label;
    use.shape = origin.shape;
    use.at = plan_point(origin.at);
    use.side = origin.side;
    if (fill != result.fills.end()) {
      use.fill_permille = fill->area_permille;
      for (const int line : fill->lines) use.lines.push_back(route.lines[static_cast<std::size_t>(line)].number);
    }
    for (std::size_t d = 0; d < result.seats.size(); ++d) {
      const auto& seat = route.problem.devices[d].seats[static_cast<std::size_t>(result.seats[d])];
      if (seat.aperture && *seat.aperture == static_cast<int>(a)) use.device = route.devices[d];
    }
    uses.push_back(std::move(use));
  }
  return uses;
}

std::vector<model::PullOrder> pull_order_of(const RouteProblem& route, const Result& result) {
  std::vector<model::PullOrder> orders;
  for (const engine::route::Precedence& precedence : result.precedences) {
    if (precedence.because != engine::route::Precedence::Because::needed) continue;
    orders.push_back({route.lines[static_cast<std::size_t>(precedence.before)].number,
                      route.lines[static_cast<std::size_t>(precedence.after)].number,
                      route.apertures[static_cast<std::size_t>(precedence.aperture)].label});
  }
  return orders;
}

}  // namespace cotter::plan
