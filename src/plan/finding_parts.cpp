#include "plan/finding_parts.hpp"

#include <algorithm>
#include <cstdlib>

#include "model/words.hpp"

namespace cotter::plan {
namespace {

const model::Operation* find_operation(const Assembly& assembly, const std::string& id) {
  const auto& all = assembly.catalog().work.operations;
  const auto found = std::find_if(all.begin(), all.end(), [&](const model::Operation& one) { return one.id == id; });
  return found == all.end() ? nullptr : &*found;
}

/// How much an addition must take up for the number to lie in its window for certain: "0.59 to 0.91 mm in all".
std::string size_of_addition(const model::Finding& finding) {
  if (!finding.result || !finding.must || finding.values.empty()) return "";
  const quantity::Dimension dimension = finding.values.front().value.dimension;
  const auto text = [&](std::int64_t base) { return quantity::print_amount(base, dimension); };
  const bool too_high = finding.governs == model::Edge::to;
  const std::int64_t near = (too_high ? finding.must->high() : finding.must->low()).base();
  const std::int64_t far = (too_high ? finding.must->low() : finding.must->high()).base();
  const std::int64_t low = finding.result->low().base(), high = finding.result->high().base();
  const std::int64_t least = too_high ? high - near : near - low;
  if (std::abs(far) >= model::k_open_end) return "at least " + text(least) + " in all";
  const std::int64_t most = too_high ? low - far : far - high;
  if (least > most) return "about " + text(most + (least - most) / 2) + " in all";
  return text(least) + " to " + text(most) + " in all";
}

}  // namespace

bool has_composite_feature(const model::Part& part) {
  const std::string composite(model::word_for(model::Material::composite));
  return std::any_of(part.interfaces.begin(), part.interfaces.end(), [&](const auto& entry) {
    const auto& words = entry.second.words;
    return std::any_of(words.begin(), words.end(), [&](const auto& word) { return word.second == composite; });
  });
}

std::string finding_id(const std::string& rule, std::vector<std::string> about) {
  std::string id = rule + "@";
  for (std::size_t i = 0; i < about.size(); ++i) id += (i == 0 ? "" : ",") + about[i];
  return id;
}

model::NamedValue named(const std::string& symbol, const FoundValue& found) {
  return {symbol, found.label, found.place_label, found.ref, *found.value};
}

model::NamedValue named_fixed(const std::string& symbol, const quantity::Value& value) {
  return {symbol, "fixed by the rule", "", std::nullopt, value};
}

std::optional<quantity::Range> as_range(const model::Window& window) {
  if (!window.from && !window.to) return std::nullopt;
  const auto at = [](std::int64_t base) { return quantity::Mixed::from_base(base); };
  return quantity::Range(window.from ? at(window.from->nominal) : at(-model::k_open_end),
                         window.to ? at(window.to->nominal) : at(model::k_open_end));
}

model::Measurement measurement_of(const Assembly& assembly, const FoundValue& found) {
  model::Measurement measurement;
  measurement.ref = found.ref;
  measurement.label = found.place_label + ", " + found.label;
  if (found.dimension != nullptr) measurement.guide = found.dimension->measure;
  for (const model::Tool& tool : assembly.job().sheet.shop.tools)
    if (tool.kind == measurement.guide.tool && measurement.tool_label.empty()) measurement.tool_label = tool.label;
  return measurement;
}

std::int64_t late_cost(const Assembly& assembly, std::int64_t late, const std::string& spoils) {
  constexpr std::int64_t k_hour = 6000;
  const Seated* seated = assembly.place(spoils);
  const model::Shop& shop = assembly.job().sheet.shop;
  if (seated == nullptr || !seated->part || !seated->part->price || shop.rate_hundredths <= 0) return late;
  const model::Price& price = *seated->part->price;
  return price.currency == shop.currency ? late + price.hundredths * k_hour / shop.rate_hundredths : late;
}

model::Verdict verdict_of(const model::Outcome& outcome) {
  switch (outcome.kind) {
    case model::Outcome::Kind::stop:
      return model::Verdict::stop;
    case model::Outcome::Kind::rework:
      return model::Verdict::rework;
    case model::Outcome::Kind::add:
      return model::Verdict::add;
  }
  return model::Verdict::stop;
}

void apply_outcome(const model::Outcome& outcome, const Assembly& assembly, model::Finding& finding) {
  finding.verdict = verdict_of(outcome);
  finding.advice = outcome.advice;
  if (outcome.kind == model::Outcome::Kind::rework) {
    set_operation(outcome.operation, assembly, finding);
  }
  if (outcome.kind == model::Outcome::Kind::add) {
    model::Addition addition;
    addition.what = outcome.operation;
    addition.dimension = size_of_addition(finding);
    addition.where = "at " + finding.subject;
    finding.additions.push_back(std::move(addition));
  }
}

void set_operation(const std::string& id, const Assembly& assembly, model::Finding& finding) {
  const model::Operation* operation = find_operation(assembly, id);
  finding.operation = id;
  finding.operation_label = operation == nullptr ? id : operation->label;
  while (finding.operation_label.ends_with('.')) finding.operation_label.pop_back();
}

std::vector<std::string> unattested_labels(const std::vector<model::NamedValue>& values) {
  std::vector<std::string> labels;
  for (const model::NamedValue& value : values) {
    if (!value.ref || quantity::is_attested(value.value)) continue;
    labels.push_back(value.place_label + ", " + value.label + " (" +
                     std::string(quantity::word_for(value.value.origin.kind)) + ")");
  }
  return labels;
}

model::Verdict verdict_when_held(const Standing& standing, model::Guards guards) {
  const bool guarded = guards != model::Guards::nothing;
  if (guarded && standing.rests_on_unattested) return model::Verdict::measure;
  return standing.within_wish ? model::Verdict::ok : model::Verdict::accept;
}

}  // namespace cotter::plan
