#include "words/bench_words.hpp"

#include <cmath>
#include <fmt/format.h>

#include "words/phrase.hpp"

namespace cotter::words {
namespace {

/// Tenths where they matter: "0.5", "4.5", "120".
std::string minutes(double amount) {
  const std::string text = amount < 10 ? fmt::format("{:.1f}", amount) : fmt::format("{:.0f}", amount);
  return text.ends_with(".0") ? text.substr(0, text.size() - 2) : text;
}

/// A chance is never rounded to nothing, nor to certainty.
std::string percent(double chance) {
  const double rounded = std::round(chance * 100);
  if (rounded < 1) return std::string(phrase("next.under_one"));
  return fmt::format("{:.0f}", chance < 1 && rounded > 99 ? 99.0 : rounded);
}

std::string tool_of(const model::NextMeasurement& next) {
  if (next.guide.tool.empty()) return "";
  if (next.tool_label.empty()) return fill("next.no_tool", {{"tool", next.guide.tool}});
  return next.tool_resolution.empty()
             ? fill("next.tool", {{"tool", next.tool_label}})
             : fill("next.tool_reading", {{"tool", next.tool_label}, {"resolution", next.tool_resolution}});
}

}  // namespace

std::vector<std::string> measure_next_lines(const model::Plan& plan) {
  std::vector<std::string> lines;
  for (const model::NextMeasurement& next : plan.measure_next) {
    if (next.chance <= 0) continue;
    const std::size_t findings = next.findings.size();
    lines.push_back(fill(findings == 1 ? "next.one" : "next.several",
                         {{"label", next.label},
                          {"percent", percent(next.chance)},
                          {"cost", minutes(next.cost)},
                          {"minutes", minutes(static_cast<double>(next.guide.minutes) / 100)},
                          {"tool", tool_of(next)},
                          {"finding", next.findings.front()},
                          {"more", std::to_string(findings - 1)}}));
  }
  return lines;
}

std::string other_measurements(const model::Plan& plan) {
  std::string labels;
  for (const model::NextMeasurement& next : plan.measure_next)
    if (next.chance <= 0) labels += (labels.empty() ? "" : "; ") + next.label;
  return labels.empty() ? "" : fill("next.rest", {{"labels", labels}});
}

std::string measure_next_total(const model::Plan& plan) {
  std::int64_t hundredths = 0;
  for (const model::NextMeasurement& next : plan.measure_next) hundredths += next.guide.minutes;
  const std::size_t values = plan.measure_next.size();
  return fill(values == 1 ? "next.total_one" : "next.total",
              {{"values", std::to_string(values)}, {"minutes", minutes(static_cast<double>(hundredths) / 100)}});
}

std::vector<std::string> unchecked_lines(const model::Plan& plan) {
  std::vector<std::string> lines;
  for (const model::UncheckedPlace& place : plan.unchecked)
    lines.push_back(
        fill("unchecked.place",
             {{"place", place.label},
              {"part", place.part_label},
              {"reason", place.reason.empty() ? std::string(phrase("unchecked.no_reason")) : place.reason}}));
  return lines;
}

}  // namespace cotter::words
