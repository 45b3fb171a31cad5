#include "plan/make_plan.hpp"

#include <algorithm>

#include "plan/assembly.hpp"
#include "plan/bill.hpp"
#include "plan/bridge/bridge_findings.hpp"
#include "plan/conditions.hpp"
#include "plan/connections.hpp"
#include "plan/decisions.hpp"
#include "plan/features.hpp"
#include "plan/fit/fit_findings.hpp"
#include "plan/hands.hpp"
#include "plan/measure_next.hpp"
#include "plan/network.hpp"
#include "plan/papers.hpp"
#include "plan/picture.hpp"
#include "plan/route/route_findings.hpp"
#include "plan/sequence/work_order.hpp"
#include "plan/skeleton.hpp"
#include "plan/stack/stack_findings.hpp"
#include "plan/tool_readings.hpp"
#include "plan/unchecked.hpp"

namespace cotter::plan {
namespace {

void append(std::vector<model::Finding>& all, std::vector<model::Finding> more) {
  all.insert(all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

std::vector<std::string> permitted_changes(const std::vector<model::Finding>& findings) {
  std::vector<std::string> operations;
  for (const model::Finding& finding : findings)
    if (finding.verdict == model::Verdict::rework) operations.push_back(finding.operation);
  return operations;
}

/// Takes out what asks nothing of this bicycle.
void drop_findings(std::vector<model::Finding>& findings, std::string_view only_with) {
  std::erase_if(findings, [&](const model::Finding& finding) { return finding.only_with == only_with; });
}

/// Whether some line passes a cell that lies on the shell's axis.
bool lines_cross_shell(const Assembly& assembly, const RouteFindings& route) {
  for (const Seated& seated : assembly.places()) {
    if (!seated.part) continue;
    for (const model::Cell& cell : seated.part->cells) {
      const std::string name = seated.id + "." + cell.id;
      if (cell.tube == "shell" &&
          std::find(route.cells_used.begin(), route.cells_used.end(), name) != route.cells_used.end())
        return true;
    }
  }
  return false;
}

void take_heads(const Assembly& assembly, const Stamp& stamp, model::Plan& plan) {
  const model::Sheet& sheet = assembly.job().sheet;
  plan.program_version = stamp.program_version;
  plan.job_hash = stamp.job_hash;
  plan.catalog_hash = assembly.catalog().hash;
  plan.job = sheet.id;
  plan.title = sheet.title;
  plan.note = sheet.note;
  plan.revision = sheet.revision;
  plan.bicycle_label = assembly.bicycle().label;
  plan.shop = sheet.shop.name;
  plan.country = sheet.shop.country;
  plan.currency = sheet.shop.currency;
  plan.rate_hundredths = sheet.shop.rate_hundredths;
  plan.left_is_front = left_is_front(assembly.job(), assembly.catalog());
  if (sheet.hands) plan.hands_by = sheet.hands->by + ", " + sheet.hands->on;
}

}  // namespace

model::Plan make_plan(const model::Job& job, const model::Catalog& catalog, const Stamp& stamp) {
  const Assembly assembly(job, catalog);
  model::Plan plan;
  take_heads(assembly, stamp, plan);
  const geometry::Skeleton skeleton = skeleton_of(assembly);

  append(plan.findings, open_place_findings(assembly));
  append(plan.findings, feature_findings(assembly));
  append(plan.findings, condition_findings(assembly));
  StackFindings stack = stack_findings(assembly);
  append(plan.findings, std::move(stack.findings));
  plan.cuts = std::move(stack.cuts);
  append(plan.findings, fit_findings(assembly));
  propose_bridges(assembly, plan.findings);
  append(plan.findings, connection_findings(assembly));
  append(plan.findings, hand_findings(job, catalog));
  append(plan.findings, network_findings(assembly));

  RouteFindings route = route_findings(assembly, skeleton);
  const bool through_shell = lines_cross_shell(assembly, route);
  // While no way is known, every line may yet go through the shell.
  if ((!route.runs.empty() && route.complete) || job.sheet.lines.empty())
    if (!through_shell) drop_findings(plan.findings, "shell_lines");
  append(plan.findings, std::move(route.findings));
  apply_papers(assembly, plan.findings);
  // Before the order of work: a change that a passed limit asked for is no step of it. No later finding can be
  // accepted.
  apply_decisions(job, plan.findings);
  WorkOrder work = work_order(
      assembly, {route.pulls, route.pull_order, route.runs, through_shell, permitted_changes(plan.findings)});
  append(plan.findings, std::move(work.findings));

  plan.runs = std::move(route.runs);
  plan.openings = std::move(route.openings);
  plan.pull_order = std::move(route.pull_order);
  plan.work = std::move(work.steps);
  plan.choices = std::move(work.choices);
  plan.minutes = work.minutes;
  plan.bill = bill_of(assembly);
  plan.picture = picture_of(assembly, skeleton);

  name_substitutes(assembly, plan.findings);
  std::stable_sort(plan.findings.begin(), plan.findings.end(),
                   [](const model::Finding& a, const model::Finding& b) { return a.verdict > b.verdict; });
  plan.unchecked = unchecked_places(assembly, plan.findings);
  mark_moot_measurements(plan.findings);
  plan.measure_next = measure_next(plan.findings, job.sheet.shop);
  return plan;
}

}  // namespace cotter::plan
