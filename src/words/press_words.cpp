#include "words/press_words.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "words/finding_words.hpp"
#include "words/phrase.hpp"

namespace cotter::words {
namespace {

using model::Verdict;
using quantity::Certainty;
using quantity::Dimension;
using quantity::NumberStyle;
using quantity::Range;

std::string megapascals(std::int64_t pascals, const NumberStyle& style) {
  const std::int64_t tenths = (pascals + 50'000) / 100'000;
  if (tenths >= 1'000 || tenths % 10 == 0) return fmt::format("{}", (tenths + 5) / 10);
  return fmt::format("{}{}{}", tenths / 10, style.mark == quantity::DecimalMark::comma ? ',' : '.', tenths % 10);
}

std::string newtons(std::int64_t millinewtons, const NumberStyle& style) {
  return quantity::print_rounded(millinewtons, Dimension::force, 0, style);
}

/// Stresses in megapascals and forces in whole newtons: what a maker's sheet and a press are marked in.
std::string shown(const Range& range, Dimension dimension, const NumberStyle& style) {
  if (dimension != Dimension::pressure && dimension != Dimension::force) return show(range, dimension, style);
  const bool stress = dimension == Dimension::pressure;
  const auto text = [&](quantity::Mixed at) {
    return stress ? megapascals(at.base(), style) : newtons(at.base(), style);
  };
  const std::string low = text(range.low()), high = text(range.high());
  return (low == high ? low : low + " to " + high) + (stress ? " MPa" : " N");
}

const model::WorkingStep* find_step(const model::PressWorking& press, std::string_view name) {
  const auto found = std::ranges::find(press.steps, name, &model::WorkingStep::name);
  return found == press.steps.end() ? nullptr : &*found;
}

void add_limit(const model::Finding& finding, const NumberStyle& style, std::vector<std::string>& out) {
  const model::PressWorking& press = *finding.press;
  if (!press.most_stress) return;
  const model::WorkingStep* stress = find_step(press, "hub_hoop");
  Holes holes{{"limit", shown(*press.most_stress, Dimension::pressure, style)}, {"names", join(press.rests_on, "; ")}};
  if (stress == nullptr) {
    out.push_back(fill("press.limit_unheld", holes));
    return;
  }
  holes["stress"] = shown(stress->range, Dimension::pressure, style);
  if (press.stress == Certainty::fails)
    out.push_back(fill("press.over_limit", holes));
  else if (press.stress == Certainty::open)
    out.push_back(fill("press.may_exceed", holes));
  else if (finding.guards != model::Guards::nothing && !press.rests_on.empty())
    out.push_back(fill("press.limit_assumed", holes));
}

/// The limit on the stress in the unit of the stress; lengths as anywhere.
std::string value_in(const model::NamedValue& value, const NumberStyle& style) {
  if (value.value.dimension != Dimension::pressure) return value_line(value, style);
  std::string line = "value     " + value.symbol + " = " + shown(value.value.range(), Dimension::pressure, style) +
                     ", " + std::string(quantity::word_for(value.value.origin.kind));
  if (!value.value.origin.source.empty()) line += ": " + value.value.origin.source;
  return value.place_label.empty() ? line : line + "  [" + value.place_label + ", " + value.label + "]";
}

}  // namespace

std::vector<std::string> press_sentences(const model::Finding& finding, const NumberStyle& style) {
  std::vector<std::string> out;
  if (!finding.press) return out;
  add_limit(finding, style, out);
  const model::WorkingStep* force = find_step(*finding.press, "force");
  if (force != nullptr && force->range.high().base() > 0 && finding.verdict != Verdict::stop)
    out.push_back(fill("press.force", {{"force", shown(force->range, Dimension::force, style)}}));
  if (finding.press->composite) out.emplace_back(phrase("press.composite"));
  return out;
}

std::vector<std::string> press_lines(const model::Finding& finding, const NumberStyle& style) {
  std::vector<std::string> out;
  if (!finding.press) return out;
  const model::PressWorking& press = *finding.press;
  for (const model::NamedValue& value : press.values) out.push_back(value_in(value, style));
  for (const model::WorkingStep& step : press.steps)
    out.push_back("pressed   " + std::string(phrase("step." + step.name)) + " = " + step.formula + " = " +
                  shown(step.range, step.dimension, style));
  if (!press.missing.empty())
    out.push_back("pressed   " + fill("press.missing", {{"names", join(press.missing, "; ")}}));
  if (!press.note.empty()) out.push_back("pressed   " + std::string(phrase(press.note)));
  if (!press.steps.empty()) {
    if (!press.most_stress) out.push_back("pressed   " + std::string(phrase("press.no_limit")));
    for (const auto& [key, source] :
         {std::pair("press.hub_source", &press.hub_source), std::pair("press.shaft_source", &press.shaft_source)})
      out.push_back("pressed   " + fill(key, {{"source", *source}}));
  }
  if (!press.rests_on.empty())
    out.push_back("pressed   " + fill("press.rests_on", {{"names", join(press.rests_on, "; ")}}));
  return out;
}

}  // namespace cotter::words
