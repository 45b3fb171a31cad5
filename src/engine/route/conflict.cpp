#include "engine/route/conflict.hpp"

#include <algorithm>
#include <iterator>

#include "engine/route/search.hpp"

namespace cotter::engine::route {

namespace {

/// Partial ways looked at when a line's ways are listed without its limits, for the reasons only.
constexpr std::int64_t k_way_limit = 20'000;

/// Nodes spent on the question whether one aperture alone stands in the way.
constexpr std::int64_t k_contest_limit = 300;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

LineSet without_ways(const std::vector<Way>& ways, LineSet lines) {
  for (const Way& way : ways) lines &= ~only(way.line);
  return lines;
}

ApertureSet met_by(const std::vector<Way>& ways) {
  ApertureSet met;
  for (const Way& way : ways) met |= way.apertures;
  return met;
}

class Reasons {
 public:
  Reasons(const Problem& problem, Apertures& apertures, const std::vector<Way>& ways, LineSet lines)
      : problem_(problem), apertures_(apertures), ways_(ways), lines_(lines) {}

  std::vector<ConflictReason> list() {
    for (const int line : listed(lines_)) {
      sizes_of(line);
      if (without_ways(ways_, only(line)) != 0) no_ways_of(line);
    }
    contests();
    return std::move(reasons_);
  }

 private:
  /// Apertures on any way of the line that are too small for it at their largest.
  void sizes_of(int line) {
    const Line& body = problem_.lines[index(line)];
    const Connector& lead = body.ends[index(leading_end(body))].connector;
    const ApertureSet met = met_by(list_ways(problem_, apertures_, only(line), k_way_limit, WayLimits::lengths).list);
    for (int a = 0; a < static_cast<int>(problem_.apertures.size()); ++a) {
      const int most = problem_.apertures[index(a)].enlarge_max;
      if (!met[index(a)] || apertures_.passes_alone(line, a, most)) continue;
      const quantity::Length width = apertures_.opening(a, most).width;
      if (body.diameter > width) {
        reasons_.push_back({line, ConflictReason::Why::body_too_large, a, body.diameter - width});
      } else {
        reasons_.push_back({line, ConflictReason::Why::connector_too_large, a, lead.diameter - width});
      }
    }
  }

  void no_ways_of(int line) {
    if (!list_ways(problem_, apertures_, only(line), k_way_limit, WayLimits::lengths).list.empty())
      return demand_of(line);
    const bool some = !list_ways(problem_, apertures_, only(line), k_way_limit, WayLimits::none).list.empty();
    reasons_.push_back({line, some ? ConflictReason::Why::no_length : ConflictReason::Why::no_way, {}, {}});
  }

  /// The demand of the line without which it has ways of the right length and room, if there is one.
  void demand_of(int line) {
    Problem eased = problem_;
    Line& body = eased.lines[index(line)];
    const auto has_ways = [&] {
      Apertures apertures(eased);
      return !list_ways(eased, apertures, only(line), k_way_limit).list.empty();
    };
    body.bend_radius = 0;
    if (has_ways()) return reasons_.push_back({line, ConflictReason::Why::bend, {}, {}});
    body.bend_radius = problem_.lines[index(line)].bend_radius;
    body.through.clear();
    body.avoids.clear();
    if (has_ways()) return reasons_.push_back({line, ConflictReason::Why::pinned, {}, {}});
    body.through = problem_.lines[index(line)].through;
    body.avoids = problem_.lines[index(line)].avoids;
    eased.cell_rules.clear();
    if (has_ways()) reasons_.push_back({line, ConflictReason::Why::not_clear, {}, {}});
  }

  /// Apertures that stand alone in the way: with any one of them wide open there would be a plan.
  void contests() {
    std::vector<Way> ways;
    std::copy_if(ways_.begin(), ways_.end(), std::back_inserter(ways),
                 [&](const Way& way) { return has(lines_, way.line); });
    const ApertureSet met = met_by(ways);
    for (std::size_t a = 0; a < problem_.apertures.size(); ++a) {
      if (!met[a]) continue;
      Problem opened = problem_;
      opened.apertures[a].kind = ApertureKind::shared;
      opened.apertures[a].opening = {k_most_diameter, k_most_diameter};
      Apertures apertures(opened);
      const SearchOutcome trial =
          search(opened, apertures, opening_costs(opened), ways, lines_, Aim::any_plan, k_contest_limit);
      if (!trial.plan) continue;
      for (const int line : listed(users_of(opened, ways, *trial.plan)[a]))
        reasons_.push_back({line, ConflictReason::Why::contested, static_cast<int>(a), {}});
    }
  }

  const Problem& problem_;
  Apertures& apertures_;
  const std::vector<Way>& ways_;
  LineSet lines_;
  std::vector<ConflictReason> reasons_;
};

}  // namespace

Conflict find_conflict(const Problem& problem, Apertures& apertures, const std::vector<Way>& ways,
                       std::int64_t node_limit, std::int64_t& nodes) {
  LineSet lines = all_lines(problem.lines.size());
  Conflict conflict{{}, true, {}};
  const OpeningCosts costs = opening_costs(problem);
  const auto blocked = [&](LineSet set) {
    const SearchOutcome trial = search(problem, apertures, costs, ways, set, Aim::any_plan, node_limit);
    nodes += trial.nodes;
    node_limit -= std::min(node_limit, trial.nodes);
    if (!trial.complete) conflict.irreducible = false;
    return trial.complete && !trial.plan;
  };
  if (blocked(0)) return conflict;
  if (const LineSet none = without_ways(ways, lines); none != 0) {
    lines = only(first(none));
  } else {
    for (const int line : listed(lines)) {
      if (blocked(lines & ~only(line))) lines &= ~only(line);
    }
  }
  conflict.lines = listed(lines);
  conflict.reasons = Reasons(problem, apertures, ways, lines).list();
  return conflict;
}

}  // namespace cotter::engine::route
