#include "plan/route/route_findings.hpp"

#include <algorithm>
#include <functional>
#include <set>

#include "plan/finding_parts.hpp"
#include "plan/route/route_head.hpp"
#include "plan/route/route_problem.hpp"
#include "plan/route/route_runs.hpp"
#include "plan/route/travel.hpp"

namespace cotter::plan {
namespace {

using engine::route::ConflictReason;
using engine::route::Result;
using engine::route::Status;
using model::Finding;
using model::Verdict;

constexpr const char* k_packing_source =
    "Two and three circles in a circle: exact geometry. Equal circles: the best known packings, from a public table. "
    "Otherwise half the area, which is always enough by a published theorem (SoCG 2019, from memory)";

constexpr std::size_t k_reasons_shown = 3;

std::string millimetres(std::int64_t nanometres) {
  return quantity::print_amount(nanometres, quantity::Dimension::length);
}

std::string clear_words(const model::ClearShape& shape) {
  const std::int64_t width = shape.width.range().low().base();
  if (shape.round()) return millimetres(width);
  return quantity::print_number(width, quantity::Dimension::length) + " x " +
         millimetres(shape.length.range().low().base());
}

class RouteAdapter {
 public:
  RouteAdapter(const Assembly& assembly, const geometry::Skeleton& skeleton)
      : assembly_(assembly), route_(route_problem(assembly, skeleton)) {
    if (route_.problem.lines.empty()) return;
    result_ = engine::route::solve(route_.problem);
    if (take_measured_ways()) result_ = engine::route::solve(route_.problem);
  }

  RouteFindings all() {
    RouteFindings out;
    for (const WaitingLine& line : route_.waiting) out.findings.push_back(waiting(line));
    if (!route_.problem.lines.empty()) out.findings.push_back(overall());
    if (const std::string without = leave_out_conflicts(); !without.empty()) {
      out.complete = false;
      out.findings.back().facts.insert(out.findings.back().facts.end(), {{"route.without", ""}, {"lines", without}});
    }
    for (std::size_t a = 0; a < result_.enlarge.size(); ++a)
      // Nothing is cut on an assumed size: such an opening is gauged first (see unattested_sizes).
      if (result_.enlarge[a] > 0 && quantity::is_attested(route_.apertures[a].shape.width))
        out.findings.push_back(enlargement(a));
    if (const auto unsure = unattested_sizes()) out.findings.push_back(*unsure);
    for (Finding& finding : travel_findings(route_, result_)) out.findings.push_back(std::move(finding));
    out.runs = runs_of(route_, result_);
    out.openings = openings_of(route_, result_);
    out.pull_order = pull_order_of(route_, result_);
    out.cells_used = cells_used();
    for (const int line : result_.pull_order)
      out.pulls.push_back(route_.lines[static_cast<std::size_t>(line)].wish->id);
    return out;
  }

 private:
  /// A string that lies in the frame says how long its way really is, and which way that is: the line stays on it.
  bool take_measured_ways() {
    bool any = false;
    for (std::size_t i = 0; i < result_.runs.size(); ++i) {
      const auto& measured = route_.lines[i].wish->measured;
      if (!measured) continue;
      any = true;
      route_.problem.lines[i].correction = measured->way - result_.runs[i].way;
      route_.problem.lines[i].through = result_.runs[i].path;
    }
    return any;
  }

  /// Until it is known what to change, the other lines keep their ways: takes the lines of each conflict out and solves
  /// again. Names what was left out; nothing when every line has a way, or none has.
  std::string leave_out_conflicts() {
    RouteProblem rest = route_;
    Result result = result_;
    std::string names;
    while (result.status == Status::infeasible && result.conflict && !result.conflict->lines.empty()) {
      std::vector<int> lines = result.conflict->lines;
      std::sort(lines.begin(), lines.end(), std::greater<>());
      for (const int line : lines) {
        names = rest.lines[static_cast<std::size_t>(line)].number + (names.empty() ? "" : ", ") + names;
        rest.lines.erase(rest.lines.begin() + line);
        rest.problem.lines.erase(rest.problem.lines.begin() + line);
      }
      if (rest.lines.empty()) return "";
      result = engine::route::solve(rest.problem);
    }
    if (names.empty() || result.runs.empty()) return "";
    route_ = std::move(rest);
    result_ = std::move(result);
    return names;
  }

  static Finding head(const std::string& rule, const std::string& label, const std::string& about) {
    Finding finding = route_head(rule, label, about);
    finding.source = {model::Source::Kind::handbook, k_packing_source};
    return finding;
  }

  /// An opening or passage by its name `place.opening`.
  static model::InterfaceRef named_place(const std::string& id) {
    const auto dot = id.find('.');
    return {id.substr(0, dot), dot == std::string::npos ? "" : id.substr(dot + 1)};
  }

  std::string line_name(int line) const {
    const RouteLine& row = route_.lines[static_cast<std::size_t>(line)];
    return row.number + " (" + row.label + ", " + row.from + " to " + row.to + ")";
  }

  Finding waiting(const WaitingLine& line) const {
    Finding finding = head("route.ends", "both ends of a line are there", line.line);
    finding.verdict = Verdict::measure;
    finding.subject = line.number + ", " + line.label;
    finding.about = {{line.place, ""}};
    finding.facts = {{"route.fluid_place", ""}, {"place", line.place_label}};
    return finding;
  }

  Finding overall() const {
    Finding finding = head("route.all_lines", "every line has a way", "lines");
    switch (result_.status) {
      case Status::optimal:
        finding.verdict = Verdict::ok;
        finding.facts = {{"route.ok", ""}, {"count", std::to_string(route_.lines.size())}};
        break;
      case Status::infeasible:
        no_way(finding);
        break;
      case Status::limit:
        finding.verdict = result_.objective ? Verdict::ok : Verdict::measure;
        finding.facts = {{result_.objective ? "route.limit" : "route.unproven", ""},
                         {"bound", std::to_string(result_.bound.value_or(0))}};
        break;
      case Status::bad:
        bad(finding);
        break;
    }
    return finding;
  }

  void bad(Finding& finding) const {
    finding.verdict = Verdict::stop;
    for (const engine::route::Fault& fault : result_.faults)
      finding.mismatches.push_back(fault.where + " " + fault.what);
  }

  void no_way(Finding& finding) const {
    finding.verdict = Verdict::stop;
    std::vector<int> lines = result_.conflict ? result_.conflict->lines : std::vector<int>{};
    std::string names;
    for (const int line : lines) names += (names.empty() ? "" : ", ") + line_name(line);
    finding.facts = {{lines.size() == 1 ? "route.one_no_way" : "route.no_way", ""}, {"lines", names}};
    if (!result_.conflict) return;
    // The openings that come nearest say most; a list of every hole in the frame says nothing.
    std::vector<ConflictReason> reasons = result_.conflict->reasons;
    std::stable_sort(reasons.begin(), reasons.end(), [&](const ConflictReason& a, const ConflictReason& b) {
      return std::pair(inner(a), missing(a)) < std::pair(inner(b), missing(b));
    });
    if (reasons.size() > k_reasons_shown) reasons.resize(k_reasons_shown);
    for (const ConflictReason& reason : reasons) {
      add_reason(reason, finding);
      if (reason.aperture)
        finding.about.push_back(named_place(route_.apertures[static_cast<std::size_t>(*reason.aperture)].id));
    }
  }

  /// A hole from tube to tube, which nobody sees; holes to the outside say more.
  bool inner(const ConflictReason& reason) const {
    return reason.aperture && !route_.apertures[static_cast<std::size_t>(*reason.aperture)].is_opening;
  }

  /// The sentence for a reason that no single opening is to blame for.
  static const char* key_of(ConflictReason::Why why) {
    switch (why) {
      case ConflictReason::Why::no_length:
        return "route.why_length";
      case ConflictReason::Why::bend:
        return "route.why_bend";
      case ConflictReason::Why::not_clear:
        return "route.why_not_clear";
      case ConflictReason::Why::pinned:
        return "route.why_pinned";
      default:
        return "route.why_apart";
    }
  }

  void add_reason(const ConflictReason& reason, Finding& finding) const {
    if (!reason.aperture) {
      finding.facts.insert(finding.facts.end(), {{key_of(reason.why), ""}, {"line", line_name(reason.line)}});
      const std::int64_t travel = route_.lines[static_cast<std::size_t>(reason.line)].travel;
      const bool by_length = reason.why == ConflictReason::Why::no_length || reason.why == ConflictReason::Why::pinned;
      if (by_length && travel > 0)
        finding.facts.insert(
            finding.facts.end(),
            {{"route.why_travel", ""}, {"grown", millimetres(travel * 1'000'000)}, {"pivot", route_.pivot->label}});
      return;
    }
    const ApertureOrigin& origin = route_.apertures[static_cast<std::size_t>(*reason.aperture)];
    if (!by_size(reason)) {
      finding.facts.insert(finding.facts.end(), {{"route.contested", ""},
                                                 {"line", line_name(reason.line)},
                                                 {"opening", origin.label},
                                                 {"clear", clear_words(origin.shape)}});
      return;
    }
    const std::string step = millimetres(missing(reason));
    finding.facts.insert(finding.facts.end(), {{"route.too_small", ""},
                                               {"line", line_name(reason.line)},
                                               {"needs", millimetres(needed(reason))},
                                               {"opening", origin.label},
                                               {"clear", clear_words(origin.shape)},
                                               {"missing", step}});
    finding.facts.insert(finding.facts.end(), {{"route.not_permitted", ""}, {"opening", origin.label}, {"step", step}});
    if (finding.margin == 0 || -missing(reason) > finding.margin) finding.margin = -missing(reason);
  }

  static bool by_size(const ConflictReason& reason) {
    return reason.why == ConflictReason::Why::connector_too_large || reason.why == ConflictReason::Why::body_too_large;
  }

  /// By how much the opening, as it is, is too small; 0 where size is not the reason.
  std::int64_t missing(const ConflictReason& reason) const {
    if (!reason.aperture || !by_size(reason)) return 0;
    const ApertureOrigin& origin = route_.apertures[static_cast<std::size_t>(*reason.aperture)];
    return needed(reason) - origin.shape.width.range().low().base();
  }

  /// Size of what must pass: the smaller of the line's two ends, which is never less than its body. A flat plug alone
  /// passes by its section; where the body does not, the body is what must pass.
  std::int64_t needed(const ConflictReason& reason) const {
    const engine::route::Line& line = route_.problem.lines[static_cast<std::size_t>(reason.line)];
    const bool b_leads = line.ends[1].connector.diameter < line.ends[0].connector.diameter;
    const engine::route::Connector& lead = line.ends[b_leads ? 1 : 0].connector;
    const bool body = reason.why == ConflictReason::Why::body_too_large && lead.section;
    return (body ? line.diameter : lead.diameter).base();
  }

  Finding enlargement(std::size_t a) const {
    const ApertureOrigin& origin = route_.apertures[a];
    const std::int64_t step = result_.enlarge[a] * engine::route::k_enlarge_step.base();
    Finding finding = head("route.enlarge", "an opening must be made larger", origin.id);
    finding.subject = origin.label;
    finding.about = {named_place(origin.id)};
    finding.verdict = Verdict::rework;
    finding.may_pass = model::MayPass::maker;
    if (origin.material == model::Material::composite) finding.guards = model::Guards::composite;
    finding.source = {model::Source::Kind::maker, origin.enlarge_paper};
    set_operation("enlarge_opening", assembly_, finding);
    finding.facts = {{"route.enlarge", ""},
                     {"opening", origin.label},
                     {"step", millimetres(step)},
                     {"clear", millimetres(origin.shape.width.nominal + step)},
                     {"most", millimetres(origin.enlarge_most)},
                     {"paper", origin.enlarge_paper}};
    return finding;
  }

  /// Openings that some line passes and whose size nobody vouches for.
  std::optional<Finding> unattested_sizes() const {
    std::set<int> used;
    for (const engine::route::Fill& fill : result_.fills) used.insert(fill.aperture);
    std::string names;
    Finding finding = head("route.sizes", "the sizes of the openings are known", "lines");
    for (const int a : used) {
      const ApertureOrigin& origin = route_.apertures[static_cast<std::size_t>(a)];
      if (quantity::is_attested(origin.shape.width)) continue;
      names += (names.empty() ? "" : ", ") + origin.label;
      finding.about.push_back(named_place(origin.id));
      const std::int64_t step = result_.enlarge[static_cast<std::size_t>(a)] * engine::route::k_enlarge_step.base();
      finding.measurements.push_back(gauge(origin, origin.shape.width.range().low().base() + step));
    }
    if (names.empty()) return std::nullopt;
    finding.verdict = Verdict::measure;
    finding.facts = {{"route.assumed", ""}, {"names", names}};
    return finding;
  }

  /// How a hole is gauged stands in the catalog, as the interface kind `opening`. `needed` is the clear width with
  /// which the routing reckons.
  model::Measurement gauge(const ApertureOrigin& origin, std::int64_t needed) const {
    model::Measurement measurement;
    const model::InterfaceRef opening = named_place(origin.id);
    measurement.ref = {opening.place, opening.interface, "width"};
    measurement.label = origin.label;
    const auto kind = assembly_.catalog().kinds.find("opening");
    if (kind == assembly_.catalog().kinds.end()) return measurement;
    if (const model::KindDimension* width = model::find_dimension(kind->second, "width"))
      measurement.guide = width->measure;
    for (const model::Tool& tool : assembly_.job().sheet.shop.tools)
      if (tool.kind == measurement.guide.tool && measurement.tool_label.empty()) measurement.tool_label = tool.label;
    measurement.holds =
        quantity::Range(quantity::Mixed::from_base(needed), quantity::Mixed::from_base(model::k_open_end));
    return measurement;
  }

  std::vector<std::string> cells_used() const {
    std::set<std::string> names;
    for (std::size_t i = 0; i < result_.runs.size(); ++i) {
      for (const int a : result_.runs[i].path) {
        const engine::route::Aperture& aperture = route_.problem.apertures[static_cast<std::size_t>(a)];
        for (const int node : {aperture.a, aperture.b})
          if (node != engine::route::k_outside) names.insert(route_.problem.cells[static_cast<std::size_t>(node)]);
      }
    }
    return {names.begin(), names.end()};
  }

  const Assembly& assembly_;
  RouteProblem route_;
  Result result_;
};

}  // namespace

RouteFindings route_findings(const Assembly& assembly, const geometry::Skeleton& skeleton) {
  return RouteAdapter(assembly, skeleton).all();
}

}  // namespace cotter::plan
