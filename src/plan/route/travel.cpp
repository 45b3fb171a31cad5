#include "plan/route/travel.hpp"

#include <algorithm>

#include "plan/route/route_head.hpp"
#include "quantity/text.hpp"

namespace cotter::plan {
namespace {

using engine::route::k_outside;
using geometry::Reach;
using model::Verdict;

/// Where a line is held: on one or two hollows, outside counting as one.
struct Mark {
  int a = k_outside, b = k_outside;
  geometry::Point3 at;
  bool turns = false;
  std::string label;
};

constexpr std::int64_t k_millimetre = 1'000'000;

std::int64_t up_to_millimetre(quantity::Length length) {
  return (length.base() + k_millimetre - 1) / k_millimetre;
}

/// By how many millimetres two marks get further apart than drawn, rounded up on both sides.
std::int64_t growth(const Reach& reach) {
  return up_to_millimetre(reach.longest) - reach.drawn.base() / k_millimetre;
}

Reach reach_of(const RoutePivot& pivot, const Mark& one, const Mark& other) {
  return geometry::reach_over_travel(pivot.travel, (one.turns ? other : one).at, (one.turns ? one : other).at);
}

Mark seat_mark(const RouteProblem& route, int device, std::size_t seat) {
  const auto d = static_cast<std::size_t>(device);
  const int node = route.problem.devices[d].seats[seat].node;
  return {node, node, route.seats[d][seat], route.seat_turns[d][seat], route.devices[d]};
}

Mark aperture_mark(const RouteProblem& route, std::size_t a) {
  const engine::route::Aperture& aperture = route.problem.apertures[a];
  const ApertureOrigin& origin = route.apertures[a];
  return {aperture.a, aperture.b, origin.at, origin.turns, origin.label};
}

/// Every seat of both devices of a line, and every aperture that could take it.
class PossibleMarks {
 public:
  PossibleMarks(const RouteProblem& route, const engine::route::Line& line) : route_(route), line_(line) {
    for (const std::size_t end : {0u, 1u}) {
      const auto d = static_cast<std::size_t>(line.ends[end].device);
      for (std::size_t s = 0; s < route.seats[d].size(); ++s) add(seat_mark(route, line.ends[end].device, s), end);
    }
    for (std::size_t a = 0; a < route.apertures.size(); ++a)
      if (can_pass(a)) marks_.push_back(aperture_mark(route, a));
  }

  /// Its two ends can lie on different sides of the pivot.
  bool may_cross() const { return (some_[0][0] && some_[1][1]) || (some_[0][1] && some_[1][0]); }

  std::int64_t most_growth() const {
    std::int64_t most = 0;
    for (const Mark& standing : marks_)
      for (const Mark& turning : marks_)
        if (!standing.turns && turning.turns && share_a_hollow(standing, turning))
          most = std::max(most, growth(reach_of(*route_.pivot, standing, turning)));
    return most;
  }

 private:
  void add(Mark mark, std::size_t end) {
    some_[end][mark.turns ? 1 : 0] = true;
    marks_.push_back(std::move(mark));
  }

  bool can_pass(std::size_t a) const {
    const engine::route::Aperture& aperture = route_.problem.apertures[a];
    const bool barred = std::find(line_.avoids.begin(), line_.avoids.end(), static_cast<int>(a)) != line_.avoids.end();
    const auto most = aperture.opening.width.base() + aperture.enlarge_max * engine::route::k_enlarge_step.base();
    return !aperture.taken && !barred && most >= line_.diameter.base();
  }

  static bool share_a_hollow(const Mark& one, const Mark& other) {
    return one.a == other.a || one.a == other.b || one.b == other.a || one.b == other.b;
  }

  const RouteProblem& route_;
  const engine::route::Line& line_;
  std::vector<Mark> marks_;
  bool some_[2][2] = {};  ///< of each end: some seat stands, some seat turns
};

std::vector<Mark> marks_of(const RouteProblem& route, const engine::route::Result& result, std::size_t i) {
  const engine::route::Line& line = route.problem.lines[i];
  const auto seat = [&](std::size_t end) {
    const int device = line.ends[end].device;
    return seat_mark(route, device, static_cast<std::size_t>(result.seats[static_cast<std::size_t>(device)]));
  };
  std::vector<Mark> marks{seat(0)};
  for (const int a : result.runs[i].path) marks.push_back(aperture_mark(route, static_cast<std::size_t>(a)));
  marks.push_back(seat(1));
  return marks;
}

std::string millimetres(std::int64_t count) {
  return quantity::print_amount(count * k_millimetre, quantity::Dimension::length);
}

/// To a tenth of a degree.
std::string degrees(quantity::Angle angle) {
  constexpr std::int64_t k_tenth = 100'000;
  const std::int64_t half = angle.base() < 0 ? -k_tenth / 2 : k_tenth / 2;
  return quantity::print_amount((angle.base() + half) / k_tenth * k_tenth, quantity::Dimension::angle);
}

/// One stretch of a run that crosses the pivot.
void add_stretch(const RoutePivot& pivot, const Mark& from, const Mark& to, model::Finding& finding) {
  const Reach reach = reach_of(pivot, from, to);
  finding.facts.insert(finding.facts.end(), {{"route.pivot", ""},
                                             {"pivot", pivot.label},
                                             {"a", from.label},
                                             {"b", to.label},
                                             {"drawn", millimetres(up_to_millimetre(reach.drawn))},
                                             {"first", millimetres(up_to_millimetre(reach.at_from))},
                                             {"first_at", degrees(pivot.travel.from)},
                                             {"last", millimetres(up_to_millimetre(reach.at_to))},
                                             {"last_at", degrees(pivot.travel.to)},
                                             {"longest", millimetres(up_to_millimetre(reach.longest))},
                                             {"longest_at", degrees(reach.longest_at)}});
}

void judge(const RoutePivot& pivot, std::int64_t grown, std::int64_t spare, model::Finding& finding) {
  finding.facts.insert(finding.facts.end(),
                       {{"route.pivot_spare", ""}, {"grown", millimetres(grown)}, {"spare", millimetres(spare)}});
  if (!pivot.attested) {
    finding.verdict = Verdict::measure;
    finding.facts.push_back({"route.pivot_assumed", ""});
  }
  if (spare >= grown) return;
  finding.verdict = Verdict::stop;
  finding.facts.insert(finding.facts.end(), {{"route.pivot_short", ""}, {"missing", millimetres(grown - spare)}});
}

}  // namespace

void add_travel(RouteProblem& route) {
  if (!route.pivot) return;
  for (std::size_t i = 0; i < route.lines.size(); ++i) {
    engine::route::Line& line = route.problem.lines[i];
    const PossibleMarks marks(route, line);
    if (!marks.may_cross()) continue;
    route.lines[i].travel = marks.most_growth();
    line.min_slack += route.lines[i].travel;
    line.max_stow += route.lines[i].travel;
  }
}

std::vector<model::Finding> travel_findings(const RouteProblem& route, const engine::route::Result& result) {
  std::vector<model::Finding> findings;
  if (!route.pivot) return findings;
  for (std::size_t i = 0; i < result.runs.size(); ++i) {
    const RouteLine& row = route.lines[i];
    model::Finding finding = route_head("route.pivot", "the line is long enough over the whole travel", row.wish->id);
    finding.subject = row.number + ", " + row.label;
    finding.source = {model::Source::Kind::handbook, "Distance of two points that turn about an axis: law of cosines"};
    const std::vector<Mark> marks = marks_of(route, result, i);
    std::int64_t grown = 0;
    for (std::size_t k = 0; k + 1 < marks.size(); ++k) {
      if (marks[k].turns == marks[k + 1].turns) continue;
      finding.about = {{route.pivot->place, route.pivot->id}};
      grown += growth(reach_of(*route.pivot, marks[k], marks[k + 1]));
      add_stretch(*route.pivot, marks[k], marks[k + 1], finding);
    }
    if (finding.about.empty()) continue;
    judge(*route.pivot, grown, result.runs[i].length - result.runs[i].way, finding);
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace cotter::plan
