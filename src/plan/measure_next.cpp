#include "plan/measure_next.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <set>
#include <tuple>

namespace cotter::plan {
namespace {

using model::Finding;
using model::Measurement;
using model::NextMeasurement;
using quantity::Range;

/// Taken where a template does not say what finding out too late costs.
constexpr std::int64_t k_usual_late = 3000;  // hundredths of a minute
constexpr double k_least_minutes = 0.1;      // a look takes time too

/// One open finding that asks for the value.
struct Bearing {
  const Finding* finding = nullptr;
  const Measurement* measurement = nullptr;

  std::int64_t late() const { return finding->late > 0 ? finding->late : k_usual_late; }
};

const quantity::Value* value_in(const Bearing& bearing) {
  for (const model::NamedValue& named : bearing.finding->values)
    if (named.ref && *named.ref == bearing.measurement->ref) return &named.value;
  return nullptr;
}

/// Positions are doubled, so that the middle between two of them is a whole number.
bool contains(const Range& range, std::int64_t doubled) {
  return 2 * range.low().base() <= doubled && doubled <= 2 * range.high().base();
}

/// What the finding says of one value, every other at its nominal.
std::string verdict_at(const Measurement& measurement, std::int64_t doubled) {
  const auto& holds = measurement.holds_at_nominal;
  if (!holds) return "";  // no value will do: always the same
  if (doubled < 2 * holds->low().base()) return "below " + measurement.below_means;
  if (doubled > 2 * holds->high().base()) return "above " + measurement.above_means;
  const auto& wish = measurement.wish_at_nominal;
  return std::string(model::word_for(wish && !contains(*wish, doubled) ? model::Verdict::accept : model::Verdict::ok));
}

/// Above and below are one verdict when both say the same word.
std::string_view word_of(std::string_view verdict, const Measurement& measurement) {
  const bool outside = verdict.starts_with("below ") || verdict.starts_with("above ");
  return outside && !measurement.below_means.empty() && !measurement.above_means.empty() ? verdict.substr(6) : verdict;
}

bool changes(const Measurement& measurement, std::int64_t nominal, std::int64_t doubled) {
  const std::string now = verdict_at(measurement, 2 * nominal), then = verdict_at(measurement, doubled);
  if (word_of(now, measurement) != word_of(then, measurement)) return true;
  return std::ranges::any_of(measurement.other_choice, [&](const Range& range) { return contains(range, doubled); });
}

/// Ends of every limit inside the range, with the range's own, in order.
std::vector<std::int64_t> cuts_of(const std::vector<Bearing>& bearings, const Range& range) {
  std::vector<std::int64_t> cuts{range.low().base(), range.high().base()};
  const auto add = [&](const Range& limits) {
    for (const quantity::Mixed end : {limits.low(), limits.high()})
      if (range.low() < end && end < range.high()) cuts.push_back(end.base());
  };
  for (const Bearing& bearing : bearings) {
    if (bearing.measurement->holds_at_nominal) add(*bearing.measurement->holds_at_nominal);
    if (bearing.measurement->wish_at_nominal) add(*bearing.measurement->wish_at_nominal);
    for (const Range& other : bearing.measurement->other_choice) add(other);
  }
  std::ranges::sort(cuts);
  cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
  return cuts;
}

std::int64_t largest_late(const std::vector<Bearing>& bearings) {
  std::int64_t late = 0;
  for (const Bearing& bearing : bearings) late = std::max(late, bearing.late());
  return late;
}

void set_chance_and_cost(const std::vector<Bearing>& bearings, NextMeasurement& next) {
  const quantity::Value* value = value_in(bearings.front());
  if (value == nullptr) {
    // Not stated, or a limit that nobody vouches for: whatever is found is the first answer.
    next.chance = 1;
    next.cost = static_cast<double>(largest_late(bearings)) / 100;
    return;
  }
  const Range range = value->range();
  const auto width = static_cast<double>(range.width().base());
  double changed = 0, lost = 0;
  const std::vector<std::int64_t> cuts = cuts_of(bearings, range);
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    std::vector<Bearing> changing;
    std::ranges::copy_if(bearings, std::back_inserter(changing), [&](const Bearing& bearing) {
      return changes(*bearing.measurement, value->nominal, cuts[i] + cuts[i + 1]);
    });
    if (changing.empty()) continue;
    const auto length = static_cast<double>(cuts[i + 1] - cuts[i]);
    changed += length;
    lost += length * static_cast<double>(largest_late(changing)) / 100;
  }
  next.chance = width > 0 ? changed / width : 0;
  next.cost = changed > 0 ? lost / changed : static_cast<double>(largest_late(bearings)) / 100;
}

NextMeasurement ranked(const std::vector<Bearing>& bearings, const model::Shop& shop) {
  const Measurement& first = *bearings.front().measurement;
  NextMeasurement next{first.ref, first.label, first.guide, first.tool_label, "", 0, 0, 0, {}};
  const auto tool = std::ranges::find(shop.tools, first.guide.tool, &model::Tool::kind);
  if (tool != shop.tools.end()) next.tool_resolution = tool->resolution;
  for (const Bearing& bearing : bearings) next.findings.push_back(bearing.finding->id);
  set_chance_and_cost(bearings, next);
  const double minutes = std::max(static_cast<double>(next.guide.minutes) / 100, k_least_minutes);
  next.rank = next.chance * next.cost / minutes;
  return next;
}

std::set<std::string> places_of(const Finding& finding) {
  std::set<std::string> places;
  for (const model::InterfaceRef& ref : finding.about) places.insert(ref.place);
  return places;
}

/// Two parts that are not made for each other: one of them goes, whatever is measured on it.
bool parts_two(const Finding& finding) {
  const bool pairs = finding.law == "kinds" || finding.law == "thread" || finding.law == "equal_pattern" ||
                     finding.law == "equal_family";
  return pairs && finding.verdict == model::Verdict::stop && places_of(finding).size() == 2;
}

}  // namespace

void mark_moot_measurements(std::vector<Finding>& findings) {
  for (Finding& finding : findings) {
    if (finding.verdict != model::Verdict::measure || finding.measurements.empty()) continue;
    const std::set<std::string> places = places_of(finding);
    const auto stop = std::ranges::find_if(findings, [&](const Finding& other) {
      return parts_two(other) && std::ranges::includes(places, places_of(other));
    });
    if (stop == findings.end()) continue;
    finding.measurements.clear();
    finding.facts.insert(finding.facts.end(),
                         {{"measure.moot", ""}, {"what", stop->subject + ": " + stop->rule_label}});
  }
}

std::vector<NextMeasurement> measure_next(const std::vector<Finding>& findings, const model::Shop& shop) {
  std::map<model::ValueRef, std::vector<Bearing>> by_value;
  for (const Finding& finding : findings) {
    if (finding.verdict != model::Verdict::measure) continue;
    for (const Measurement& measurement : finding.measurements)
      by_value[measurement.ref].push_back({&finding, &measurement});
  }
  std::vector<NextMeasurement> all;
  for (const auto& [ref, bearings] : by_value) all.push_back(ranked(bearings, shop));
  std::ranges::stable_sort(all, [](const NextMeasurement& a, const NextMeasurement& b) {
    return std::tuple(-a.rank, a.guide.minutes) < std::tuple(-b.rank, b.guide.minutes);
  });
  return all;
}

}  // namespace cotter::plan
