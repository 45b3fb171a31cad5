#include "plan/fit/fit_findings.hpp"

#include <algorithm>

#include "plan/finding_parts.hpp"
#include "plan/fit/fit_check.hpp"
#include "plan/fit/press_working.hpp"

namespace cotter::plan {
namespace {

using engine::fit::CheckResult;
using model::Finding;
using model::Verdict;
using quantity::Certainty;

/// The window a reader is shown; none when its ends contradict each other, as they may for a part that cannot be right.
std::optional<quantity::Range> shown_window(const engine::fit::Window& asked) {
  if (!asked.low && !asked.high) return std::nullopt;
  const auto low = asked.low.value_or(quantity::Mixed::from_base(-model::k_open_end));
  const auto high = asked.high.value_or(quantity::Mixed::from_base(model::k_open_end));
  if (high < low) return std::nullopt;
  return quantity::Range(low, high);
}

class JointAdapter {
 public:
  JointAdapter(const Assembly& assembly, const model::JointForm& joint) : assembly_(assembly), joint_(joint) {}

  void append_to(std::vector<Finding>& out) const {
    const Seated* a = assembly_.place(joint_.a.place);
    const Seated* b = assembly_.place(joint_.b.place);
    quantity::ensure(a != nullptr && b != nullptr, "joint names a place its template does not have");
    if (joint_.only_with == "needed" && a->part && !b->part && assembly_.interface(joint_.a) != nullptr)
      out.push_back(lacks(joint_.b, joint_.a));
    if (!a->part || !b->part) return;
    const model::Interface* feature_a = assembly_.interface(joint_.a);
    const model::Interface* feature_b = assembly_.interface(joint_.b);
    if (feature_a == nullptr && feature_b == nullptr) {
      if (joint_.only_with != "stated" && joint_.only_with != "needed") out.push_back(neither());
      return;
    }
    if (feature_a == nullptr || feature_b == nullptr) {
      out.push_back(lacks(feature_a == nullptr ? joint_.a : joint_.b, feature_a == nullptr ? joint_.b : joint_.a));
      return;
    }
    const model::MeetingRef meeting = model::find_meeting(assembly_.catalog(), feature_a->kind, feature_b->kind);
    if (meeting.meeting == nullptr) {
      out.push_back(unlike(*feature_a, *feature_b));
      return;
    }
    const Sides sides = meeting.swapped ? Sides{joint_.b, joint_.a} : Sides{joint_.a, joint_.b};
    for (const model::Rule& rule : meeting.meeting->rules) out.push_back(judged(rule, sides));
  }

 private:
  Finding head(const std::string& rule) const {
    Finding finding;
    finding.rule = rule;
    finding.about = {assembly_.in_job_names(joint_.a), assembly_.in_job_names(joint_.b)};
    finding.id = finding_id(rule, {finding.about[0].text(), finding.about[1].text()});
    finding.subject = joint_.label;
    finding.only_with = joint_.only_with;
    return finding;
  }

  std::string label_of(const model::Interface& feature) const {
    return model::kind_label(assembly_.catalog(), feature.kind);
  }

  /// A finding on what the two sides are, before any dimension is looked at.
  Finding about_kinds(const std::string& rule, const std::string& label, Verdict verdict) const {
    Finding finding = head(rule);
    finding.rule_label = label;
    finding.law = "kinds";
    finding.verdict = verdict;
    finding.may_pass = model::MayPass::nobody;
    return finding;
  }

  /// The template says that the two must mate, and nobody has said with what: never silently right.
  Finding neither() const {
    Finding finding = about_kinds("has_feature", "both sides are there", Verdict::measure);
    finding.facts = {{"finding.neither", ""},
                     {"a", assembly_.place(joint_.a.place)->form->label},
                     {"b", assembly_.place(joint_.b.place)->form->label}};
    return finding;
  }

  Finding lacks(const model::InterfaceRef& without, const model::InterfaceRef& with) const {
    Finding finding = about_kinds("has_feature", "both sides are there", Verdict::stop);
    finding.facts = {{"finding.lacks", ""},
                     {"with", assembly_.place(with.place)->form->label},
                     {"without", assembly_.place(without.place)->form->label},
                     {"kind", label_of(*assembly_.interface(with))}};
    return finding;
  }

  Finding unlike(const model::Interface& a, const model::Interface& b) const {
    Finding finding = about_kinds("kinds_meet", "the two kinds mate", Verdict::stop);
    finding.facts = {{"finding.unlike", ""}, {"a", label_of(a)}, {"b", label_of(b)}};
    return finding;
  }

  Finding judged(const model::Rule& rule, const Sides& sides) const {
    Finding finding = head(rule.id);
    finding.rule_label = rule.label;
    finding.law = rule.law;
    finding.guards = rule.guards;
    finding.may_pass = rule.may_pass;
    finding.source = rule.source;
    finding.late = late_cost(assembly_, joint_.late, joint_.spoils);
    const FitCheck fit = fit_check(assembly_, rule, sides);
    if (fit.missing) {
      finding.verdict = Verdict::measure;
      finding.facts = {
          {"finding.missing_value", ""}, {"place", fit.missing->place_label}, {"dimension", fit.missing->label}};
      finding.measurements = {measurement_of(assembly_, *fit.missing)};
      return finding;
    }
    finding.values = fit.values;
    add_words(rule, fit, sides, finding);
    finding.should = as_range(rule.should);
    fill(rule, sides, fit, engine::fit::judge(fit.check), finding);
    add_press(assembly_, rule, sides, fit, finding);
    return finding;
  }

  /// What a word of the rule is called by the kind that has it.
  std::string word_label(const model::InterfaceRef& side, const std::string& word) const {
    const auto kind = assembly_.catalog().kinds.find(assembly_.interface(side)->kind);
    for (const model::KindWord& known : kind->second.words)
      if (known.id == word) return known.label;
    return word;
  }

  std::string role_label(const model::Rule& rule, const Sides& sides, const std::string& role) const {
    const auto words = rule.words.find(role);
    return words == rule.words.end() ? role : word_label(sides.own, words->second.first);
  }

  /// The words that the rule compares belong to its working as the numbers do.
  void add_words(const model::Rule& rule, const FitCheck& fit, const Sides& sides, Finding& finding) const {
    for (const auto& [role, words] : fit.check.words) {
      const std::string label = role_label(rule, sides, role);
      const auto of = [&](const model::InterfaceRef& side, const std::string& word) {
        return assembly_.place(side.place)->form->label + ": " + (word.empty() ? "?" : word);
      };
      finding.facts.emplace_back("word",
                                 label + " - " + of(sides.own, words.first) + "; " + of(sides.other, words.second));
    }
  }

  void fill(const model::Rule& rule, const Sides& sides, const FitCheck& fit, const CheckResult& result,
            Finding& finding) const {
    finding.formula = result.formula;
    finding.result = result.result;
    finding.must = shown_window(result.asked);
    finding.margin = result.margin;
    finding.governs = result.governs == engine::fit::Edge::from ? model::Edge::from
                      : result.governs == engine::fit::Edge::to ? model::Edge::to
                                                                : model::Edge::none;
    finding.probability = result.probability;
    finding.rests_on = unattested_labels(finding.values);
    for (const engine::fit::Mismatch& mismatch : result.mismatches)
      finding.mismatches.push_back(role_label(rule, sides, mismatch.role) + ": " + mismatch.own + " against " +
                                   mismatch.other);
    switch (result.must) {
      case Certainty::fails:
        apply_outcome(outcome(rule, result), assembly_, finding);
        return;
      case Certainty::open:
        finding.verdict = Verdict::measure;
        for (const std::string& word : result.unknown_words) finding.rests_on.push_back(word + " (unknown)");
        add_measurements(rule, fit, result, finding);
        return;
      case Certainty::holds:
        break;
    }
    Standing standing;
    standing.rests_on_unattested = !finding.rests_on.empty();
    standing.within_wish = !finding.should || result.should != Certainty::fails;
    finding.verdict = verdict_when_held(standing, rule.guards);
    if (finding.verdict == Verdict::measure) add_measurements(rule, fit, result, finding);
  }

  static model::Outcome outcome(const model::Rule& rule, const CheckResult& result) {
    if (!result.mismatches.empty()) return {model::Outcome::Kind::stop, "", rule.below.advice};
    return result.too_high && !result.too_low ? rule.above : rule.below;
  }

  /// Values nobody vouches for come first; vouched ones are asked again only when their spread leaves the answer open.
  void add_measurements(const model::Rule& rule, const FitCheck& fit, const CheckResult& result,
                        Finding& finding) const {
    std::vector<const engine::fit::Influence*> order;
    for (const engine::fit::Influence& influence : result.influences) order.push_back(&influence);
    std::stable_sort(order.begin(), order.end(), [](const auto* a, const auto* b) { return a->share > b->share; });
    for (const bool attested : {false, true}) {
      for (const engine::fit::Influence* influence : order) {
        const std::size_t i = index_of(fit, influence->role);
        const engine::fit::Operand& operand = fit.check.operands[i];
        if (!fit.found[i] || operand.attested != attested) continue;
        if (attested && (result.must != Certainty::open || operand.range.width().base() == 0)) continue;
        if (attested && !finding.measurements.empty()) continue;
        finding.measurements.push_back(measurement(rule, fit, *influence, i));
      }
    }
  }

  static std::size_t index_of(const FitCheck& fit, const std::string& role) {
    const auto& operands = fit.check.operands;
    const auto found = std::find_if(operands.begin(), operands.end(),
                                    [&](const engine::fit::Operand& operand) { return operand.role == role; });
    quantity::ensure(found != operands.end(), "influence of a role the check does not have");
    return static_cast<std::size_t>(found - operands.begin());
  }

  /// For which values of one operand the check holds, when every other is at its nominal.
  static std::optional<quantity::Range> holds_at_nominal(engine::fit::Check check, const std::string& role) {
    for (engine::fit::Operand& operand : check.operands)
      if (operand.role != role) operand.range = quantity::Range(quantity::Mixed::from_base(operand.nominal));
    for (const engine::fit::Influence& influence : engine::fit::judge(check).influences)
      if (influence.role == role) return influence.holds;
    return std::nullopt;
  }

  model::Measurement measurement(const model::Rule& rule, const FitCheck& fit, const engine::fit::Influence& influence,
                                 std::size_t i) const {
    model::Measurement out = measurement_of(assembly_, *fit.found[i]);
    out.holds = influence.holds;
    out.may_hold = influence.may_hold;
    out.holds_at_nominal = holds_at_nominal(fit.check, influence.role);
    if (fit.check.should.low || fit.check.should.high) {
      engine::fit::Check wish = fit.check;
      wish.must = wish.should;
      out.wish_at_nominal = holds_at_nominal(std::move(wish), influence.role);
    }
    if (!out.may_hold) return out;
    // What a measurement beyond the edge means is asked of the engine itself, one base unit outside.
    const auto word_at = [&](std::int64_t base) {
      engine::fit::Check moved = fit.check;
      moved.operands[i].range = quantity::Range(quantity::Mixed::from_base(base));
      moved.operands[i].nominal = base;
      return std::string(model::word_for(verdict_of(outcome(rule, engine::fit::judge(moved)))));
    };
    if (out.may_hold->low().base() > -model::k_open_end) out.below_means = word_at(out.may_hold->low().base() - 1);
    if (out.may_hold->high().base() < model::k_open_end) out.above_means = word_at(out.may_hold->high().base() + 1);
    return out;
  }

  const Assembly& assembly_;
  const model::JointForm& joint_;
};

}  // namespace

std::vector<Finding> fit_findings(const Assembly& assembly) {
  std::vector<Finding> out;
  for (const model::JointForm& joint : assembly.joints()) JointAdapter(assembly, joint).append_to(out);
  return out;
}

}  // namespace cotter::plan
