#pragma once
// Findings written by hand, for the tests of their words.

#include <string>

#include "model/finding.hpp"

namespace cotter::words {

inline quantity::Value length(double nominal_mm, double plus_minus_mm = 0,
                              quantity::OriginKind kind = quantity::OriginKind::maker) {
  quantity::Value value;
  value.dimension = quantity::Dimension::length;
  value.nominal = static_cast<std::int64_t>(nominal_mm * 1e6 + (nominal_mm < 0 ? -0.5 : 0.5));
  value.upper = static_cast<std::int64_t>(plus_minus_mm * 1e6 + 0.5);
  value.lower = -value.upper;
  value.deviations = quantity::Deviations::stated;
  value.origin.kind = kind;
  return value;
}

inline quantity::Mixed mm(double millimetres) {
  return quantity::Mixed::from_base(static_cast<std::int64_t>(millimetres * 1e6 + (millimetres < 0 ? -0.5 : 0.5)));
}

inline quantity::Range mm(double low, double high) {
  return {mm(low), mm(high)};
}

inline quantity::Mixed open_low() {
  return quantity::Mixed::from_base(-model::k_open_end);
}
inline quantity::Mixed open_high() {
  return quantity::Mixed::from_base(model::k_open_end);
}

/// A cup of 46.06 in a shell of 46.02: 0.03 to 0.05 of interference where 0.01 to 0.15 is asked.
inline model::Finding cup_in_shell() {
  model::Finding finding;
  finding.id = "cup_in_shell@frame.shell_right,bottom_bracket.cup_right";
  finding.rule = "cup_in_shell";
  finding.rule_label = "cup pressed into the shell";
  finding.law = "bore_on_shaft";
  finding.subject = "right cup";
  finding.values = {{"bore", "bore", "frame", model::ValueRef{"frame", "shell_right", "bore"}, length(46.02, 0.005)},
                    {"shaft", "cup outside", "bottom bracket",
                     model::ValueRef{"bottom_bracket", "cup_right", "outer_diameter"}, length(46.06, 0.005)}};
  finding.formula = "bore - shaft";
  finding.result = mm(-0.05, -0.03);
  finding.must = mm(-0.15, -0.01);
  finding.margin = 20'000;
  finding.governs = model::Edge::to;
  finding.source = {model::Source::Kind::standard, "ISO 286-2:2010, table 7"};
  return finding;
}

inline model::Measurement bore_measurement() {
  model::Measurement measurement;
  measurement.ref = {"frame", "shell_right", "bore"};
  measurement.label = "frame, bore";
  measurement.guide = {"bore of the shell", "three depths, two directions each", "bore_gauge", "0.005 mm", 500};
  measurement.tool_label = "bore gauge 35 to 60";
  measurement.holds = mm(45.915, 46.045);
  measurement.may_hold = mm(45.905, 46.055);
  measurement.below_means = "stop";
  measurement.above_means = "rework";
  return measurement;
}

}  // namespace cotter::words
