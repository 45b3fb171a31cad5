#include "plan/conditions.hpp"

#include <algorithm>

#include "model/words.hpp"
#include "plan/finding_parts.hpp"
#include "quantity/interval.hpp"

namespace cotter::plan {
namespace {

using model::Finding;
using model::Verdict;
using quantity::Certainty;

/// What no rule of the catalog speaks of: asked for, but no danger named.
model::ConditionRule any_part() {
  model::ConditionRule rule;
  rule.stop = false;
  return rule;
}
const model::ConditionRule k_any_part = any_part();

/// `place` by the template's name; empty for a line.
const model::ConditionRule& rule_for(const model::Catalog& catalog, const model::Part& part, const std::string& place) {
  const auto& rules = catalog.conditions;
  const auto has = [](const auto& list, const auto& one) { return std::ranges::find(list, one) != list.end(); };
  const bool composite = has_composite_feature(part);
  const auto found = std::ranges::find_if(rules, [&](const model::ConditionRule& rule) {
    const bool material = rule.materials.empty() || has(rule.materials, part.material) ||
                          (composite && has(rule.materials, model::Material::composite));
    return material && (has(rule.families, part.family) || has(rule.places, place));
  });
  return found == rules.end() ? k_any_part : *found;
}

/// A used part, by the name and label it has in the plan.
struct UsedPart {
  const model::Part& part;
  std::string id;
  std::string label;
  const model::ConditionRule& rule;
};

Finding head(const UsedPart& used, const std::string& rule, const std::string& label) {
  Finding finding;
  finding.rule = rule;
  finding.rule_label = label;
  finding.law = "condition";
  finding.subject = used.label;
  finding.guards = used.rule.guards;
  finding.may_pass = model::MayPass::nobody;
  return finding;
}

Finding inspection(const UsedPart& used) {
  Finding finding = head(used, "used_part", "used part, inspected");
  finding.id = finding_id(finding.rule, {used.id});
  finding.about = {{used.id, ""}};
  finding.source = used.rule.source;
  if (!used.part.condition) {
    finding.verdict = used.rule.stop ? Verdict::stop : Verdict::measure;
    finding.facts = {{used.rule.stop ? "condition.none_stop" : "condition.none", ""},
                     {"place", used.label},
                     {"part", used.part.label}};
    finding.advice = used.rule.advice;
    return finding;
  }
  const model::Condition& record = *used.part.condition;
  finding.verdict = record.sound ? Verdict::ok : Verdict::stop;
  finding.facts = {{record.sound ? "condition.sound" : "condition.damaged", ""},
                   {"place", used.label},
                   {"how", record.inspected},
                   {"by", record.by},
                   {"on", record.on},
                   {"found", record.found.empty() ? "" : ": " + record.found}};
  return finding;
}

/// Distance of the reading's worst end to the nearer limit.
void set_margin(const quantity::Range& reading, const quantity::Range& limit, Finding& finding) {
  const std::int64_t below = reading.low().base() - limit.low().base();
  const std::int64_t above = limit.high().base() - reading.high().base();
  finding.margin = std::min(below, above);
  finding.governs = below <= above ? model::Edge::from : model::Edge::to;
}

void ask(const UsedPart& used, const model::Wear& wear, Finding& finding) {
  finding.verdict = Verdict::measure;
  model::Measurement measurement;
  measurement.ref = {used.id, "condition", wear.id};
  measurement.label = used.label + ", " + wear.what;
  if (wear.value) measurement.holds = measurement.may_hold = measurement.holds_at_nominal = finding.must;
  measurement.below_means = measurement.above_means = model::word_for(Verdict::stop);
  finding.measurements.push_back(std::move(measurement));
}

Finding wear_finding(const UsedPart& used, const model::Wear& wear) {
  Finding finding = head(used, "used_wear", wear.what);
  finding.id = finding_id(finding.rule, {used.id + "." + wear.id});
  finding.about = {{used.id, wear.id}};
  finding.source = wear.source;
  finding.must = as_range(wear.limit);
  if (!wear.value) {
    finding.must.reset();
    finding.facts = {{"condition.unread", ""}, {"place", used.label}, {"what", wear.what}};
    ask(used, wear, finding);
    return finding;
  }
  finding.values = {{"reading", wear.what, used.label, model::ValueRef{used.id, "condition", wear.id}, *wear.value}};
  finding.formula = "reading";
  finding.result = wear.value->range();
  finding.rests_on = unattested_labels(finding.values);
  set_margin(*finding.result, *finding.must, finding);
  const Certainty within = quantity::within(*finding.result, *finding.must);
  if (within == Certainty::fails)
    finding.verdict = Verdict::stop;
  else if (within == Certainty::open || !finding.rests_on.empty())
    ask(used, wear, finding);
  return finding;
}

void append(const UsedPart& used, std::vector<Finding>& out) {
  out.push_back(inspection(used));
  if (!used.part.condition) return;
  for (const model::Wear& wear : used.part.condition->wear) out.push_back(wear_finding(used, wear));
}

}  // namespace

std::vector<Finding> condition_findings(const Assembly& assembly) {
  std::vector<Finding> out;
  const model::Catalog& catalog = assembly.catalog();
  for (const Seated& seated : assembly.places())
    if (seated.part && seated.part->used)
      append({*seated.part, seated.id, seated.form->label, rule_for(catalog, *seated.part, seated.form->id)}, out);
  for (const model::LineWish& wish : assembly.job().sheet.lines) {
    const model::Part* part = assembly.find_part(wish.part);
    if (part != nullptr && part->used) append({*part, wish.id, part->label, rule_for(catalog, *part, "")}, out);
  }
  return out;
}

}  // namespace cotter::plan
