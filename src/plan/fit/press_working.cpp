#include "plan/fit/press_working.hpp"

#include <algorithm>

#include "engine/fit/press.hpp"
#include "plan/finding_parts.hpp"

namespace cotter::plan {
namespace {

using engine::fit::Elastic;
using engine::fit::Operand;
using engine::fit::PressFault;
using engine::fit::PressFit;
using engine::fit::PressNumber;
using engine::fit::PressResult;
using model::Verdict;
using quantity::Certainty;
using quantity::Mixed;
using quantity::Range;

class PressAdapter {
 public:
  PressAdapter(const Assembly& assembly, const model::PressRule& rule, const Sides& sides, const FitCheck& fit)
      : assembly_(assembly), rule_(rule), sides_(sides), fit_(fit) {}

  model::PressWorking working() {
    PressFit press;
    press.bore = of_rule("bore");
    press.shaft = of_rule("shaft");
    press.outer = of_press("outer");
    press.inner = rule_.operands.contains("inner") ? of_press("inner") : Operand{"inner", Range(Mixed::from_base(0))};
    press.length = of_press("length");
    press.hub_material = material(rule_.hub, out_.hub_source);
    press.shaft_material = material(rule_.shaft, out_.shaft_source);
    press.friction = {Mixed::from_base(rule_.friction_low), Mixed::from_base(rule_.friction_high)};
    out_.composite = material_name(rule_.hub) == "composite" || material_name(rule_.shaft) == "composite";
    read_limit();
    if (out_.missing.empty()) compute(press);
    return std::move(out_);
  }

 private:
  const model::InterfaceRef& side(model::OperandRef::Side which) const {
    return which == model::OperandRef::Side::own ? sides_.own : sides_.other;
  }

  Operand of_rule(const std::string& role) {
    for (std::size_t i = 0; i < fit_.check.operands.size(); ++i) {
      const Operand& operand = fit_.check.operands[i];
      if (operand.role != role) continue;
      rests_on(fit_.values[i]);
      return operand;
    }
    quantity::ensure(false, "a press rule whose law has no bore or shaft");
    return {};
  }

  void rests_on(const model::NamedValue& value) {
    for (std::string& label : unattested_labels({value})) out_.rests_on.push_back(std::move(label));
  }

  void take(const model::NamedValue& value) {
    out_.values.push_back(value);
    rests_on(value);
  }

  Operand of_press(const std::string& role) {
    const model::OperandRef& ref = rule_.operands.at(role);
    Operand operand;
    operand.role = role;
    if (ref.side == model::OperandRef::Side::fixed) {
      operand.range = ref.fixed.range();
      out_.values.push_back(named_fixed(role, ref.fixed));
      return operand;
    }
    const model::ValueRef place{side(ref.side).place, side(ref.side).interface, ref.dimension};
    const auto found = assembly_.value(place);
    if (!found || found->value->origin.kind == quantity::OriginKind::unknown) {
      const auto wanted = assembly_.unstated(place);
      out_.missing.push_back(wanted ? wanted->place_label + ", " + wanted->label : ref.dimension);
      return operand;
    }
    operand.range = found->value->range();
    operand.attested = quantity::is_attested(*found->value);
    take(named(role, *found));
    return operand;
  }

  std::string material_name(const model::MaterialRef& ref) const {
    if (ref.side == model::OperandRef::Side::fixed) return ref.name;
    const model::Interface* feature = assembly_.interface(side(ref.side));
    const auto found = feature->words.find(ref.name);
    return found == feature->words.end() ? "" : found->second;
  }

  Elastic material(const model::MaterialRef& ref, std::string& source) {
    const std::string name = material_name(ref);
    const auto constants = engine::fit::elastic_constants(name);
    if (!constants) {
      out_.missing.push_back(name.empty() ? label_of(ref) : "elastic constants of " + name);
      return {};
    }
    source = name + ": " + constants->source;
    if (!constants->attested) out_.rests_on.push_back("elastic constants of " + name);
    return *constants;
  }

  std::string label_of(const model::MaterialRef& ref) const {
    const auto kind = assembly_.catalog().kinds.find(assembly_.interface(side(ref.side))->kind);
    std::string label = ref.name;
    for (const model::KindWord& word : kind->second.words)
      if (word.id == ref.name) label = word.label;
    return assembly_.place(side(ref.side).place)->form->label + ", " + label;
  }

  void read_limit() {
    const auto found = rule_.operands.find("most_stress");
    if (found == rule_.operands.end()) return;
    const model::OperandRef& ref = found->second;
    if (ref.side == model::OperandRef::Side::fixed) {
      out_.most_stress = ref.fixed.range();
      return;
    }
    const auto limit = assembly_.value({side(ref.side).place, side(ref.side).interface, ref.dimension});
    if (!limit || limit->value->origin.kind == quantity::OriginKind::unknown) return;
    out_.most_stress = limit->value->range();
    take(named("most_stress", *limit));
  }

  void compute(const PressFit& press) {
    const auto faults = engine::fit::faults(press);
    if (!faults.empty()) {
      const bool too_much = faults.front().kind == PressFault::Kind::too_much;
      out_.note = too_much ? "press.too_much" : "press.no_wall";
      return;
    }
    const PressResult result = engine::fit::press(press);
    for (const engine::fit::PressStep& step : result.steps)
      out_.steps.push_back({std::string(engine::fit::word_for(step.number)),
                            std::string(engine::fit::formula_of(step.number)), engine::fit::dimension_of(step.number),
                            step.range});
    if (out_.most_stress) out_.stress = quantity::at_most(result.range(PressNumber::hub_hoop), *out_.most_stress);
  }

  const Assembly& assembly_;
  const model::PressRule& rule_;
  const Sides& sides_;
  const FitCheck& fit_;
  model::PressWorking out_;
};

void add_measurements(const Assembly& assembly, const FitCheck& fit, model::Finding& finding) {
  if (!finding.measurements.empty()) return;
  for (const std::optional<FoundValue>& found : fit.found)
    if (found) finding.measurements.push_back(measurement_of(assembly, *found));
}

/// A limit that is stated and cannot be held against a stress decides as little as one that is missed by some values.
void weigh_limit(const Assembly& assembly, const FitCheck& fit, model::Finding& finding) {
  const model::PressWorking& press = *finding.press;
  if (!press.most_stress || finding.verdict == Verdict::stop) return;
  if (!press.steps.empty() && press.stress == Certainty::fails) {
    finding.verdict = Verdict::stop;
    finding.may_pass = model::MayPass::nobody;
    finding.measurements.clear();
    return;
  }
  const bool guarded = finding.guards != model::Guards::nothing;
  const bool unsure = press.steps.empty() || press.stress == Certainty::open;
  if (!unsure && !(guarded && !press.rests_on.empty())) return;
  if (finding.verdict >= Verdict::measure) return;
  finding.verdict = Verdict::measure;
  add_measurements(assembly, fit, finding);
}

}  // namespace

void add_press(const Assembly& assembly, const model::Rule& rule, const Sides& sides, const FitCheck& fit,
               model::Finding& finding) {
  if (!rule.press) return;
  finding.press = PressAdapter(assembly, *rule.press, sides, fit).working();
  weigh_limit(assembly, fit, finding);
}

}  // namespace cotter::plan
