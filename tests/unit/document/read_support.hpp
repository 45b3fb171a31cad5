#pragma once
// A small catalog and a small job of our own invention, whole and right, for tests that break one thing each.

#include <gtest/gtest.h>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

#include "document/parse.hpp"
#include "document/read_catalog.hpp"
#include "document/read_job.hpp"

namespace cotter::document {

inline const std::string k_kinds_text = R"(cotter: interface_kinds 1
kinds:
  - id: shell
    label: press-fit shell
    about: A smooth bore on each side of the shell.
    dimensions:
      bore: {is: length, label: bore, from: 30 mm, to: 60 mm, unstated: ±0.02 mm, measure: {feature: bore of the shell, faces: three depths, tool: bore_gauge, resolution: 0.005 mm, minutes: 4.5}}
      outer_diameter: {is: length, label: outer diameter, from: 30 mm, to: 80 mm, unstated: +0.1/-0.3 mm}
      depth: {is: length, label: seat depth, from: 5 mm, to: 40 mm, needed: false}
    words:
      grade: {label: grade, accepted: [plain, faced]}
    smaller_than:
      - [bore, outer_diameter]
    meets:
      - kind: cup
        rules:
          - id: cup_in_shell
            label: cup pressed into the shell
            law: bore_on_shaft
            operands: {bore: own.bore, shaft: other.diameter}
            words: {grade: [other.finish, own.grade]}
            must: {from: -0.15 mm, to: -0.01 mm}
            should: {from: -0.10 mm}
            below: {says: stop, advice: Look for another cup.}
            above: {says: rework, do: compound, advice: Use compound.}
            guards: axle
            source: {standard: "ISO 286-2:2010, table 1"}
  - id: cup
    label: press-in cup
    dimensions:
      diameter: {is: length, label: diameter, from: 30 mm, to: 60 mm, unstated: ±0.01 mm}
      tightening: {is: torque, label: torque, from: 1 N·m, to: 60 N·m, needed: false}
    words:
      finish: {label: finish, accepted: [plain, faced], needed: false}
  - id: rail
    label: saddle rail
    dimensions:
      diameter: {is: length, label: diameter, from: 6 mm, to: 10 mm}
)";

inline const std::string k_parts_text = R"(cotter: parts 1
parts:
  - id: cups_46
    label: bottom bracket with press-in cups
    family: bottom_bracket
    material: aluminium
    mass: 92 g
    price: 54.50 EUR
    paper: "maker's sheet, page 3"
    interfaces:
      cup_right: {kind: cup, diameter: 46.06 mm}
      cup_left: {kind: cup, diameter: {value: 46.07 ±0.01 mm, assumed: read off a picture}, finish: plain}
    joins: [[cup_right, cup_left]]
  - id: saddle_plain
    label: saddle
    family: saddle
    interfaces:
      rails: {kind: rail, diameter: 7 mm}
  - id: lever
    label: lever
    family: lever
    device: {ports: [{id: hose, family: hose_joint}]}
  - id: caliper
    label: caliper
    family: caliper
    device: {ports: [{id: hose, family: hose_barb}]}
  - id: hose_5
    label: hose 5 mm
    family: line
    line: {kind: hose, diameter: 5 mm, ends: [{family: hose_joint, round: 8 mm}, {family: hose_barb, width: 5 mm, height: 6 mm}], longest: 2000 mm, bend_radius: 40 mm}
  - id: wire_2
    label: wire 2 mm
    family: line
    line: {kind: wire, diameter: 2 mm, ends: [{family: plug, round: 3 mm}, {family: plug, round: 3 mm}], lengths: [600 mm, 750 mm], bend_radius: 10 mm}
)";

inline const std::string k_bicycle_text = R"(cotter: bicycle 1
id: all_road
label: all-road bicycle
places:
  - {id: frame, label: frame}
  - {id: bottom_bracket, label: bottom bracket}
  - {id: saddle, label: saddle, decide_before: compound}
  - {id: lever, label: lever}
  - {id: caliper, label: caliper}
  - {id: second_caliper, label: second caliper, optional: true}
joints:
  - {id: shell_right, label: right cup, a: frame.shell_right, b: bottom_bracket.cup_right}
stacks:
  - id: shell
    label: shell
    terms:
      - {id: bore, label: bore, value: frame.shell_right.bore}
      - {id: allowance, label: allowance, fixed: 3 mm}
    slots:
      - {id: right, label: on the right, piece: spacer_30, most: 4}
    forms:
      - id: gap
        label: gap
        terms: {bore: 1, allowance: -1}
        slots: {right: -1}
        must_from: frame.shell_right.depth
        must: {to: 3 mm}
        target: 47 mm
        below: {says: add, part: spacers}
        guards: steering
        may_pass: maker
      - {id: steerer_cut, label: cut, cut: true, terms: {bore: 1}}
seats:
  - {place: caliper, cell: outside, point: rear_axle, offset: [-10, 40, -60], cost: 5}
  - {place: lever, cell: frame.down_tube, point: bar_centre, opening: frame.port}
passages:
  - {id: inner, label: inner hole, a: frame.down_tube, b: frame.head_tube, tube: frame.down_tube, from: start, distance: 5 mm, shape: {round: 9 mm}}
)";

inline const std::string k_operations_text = R"(cotter: operations 1
accesses:
  - {id: shell_right, label: right side of the shell}
  - {id: port, label: port, open: false}
operations:
  - id: look
    label: Look at the shell.
    minutes: 2.5
  - id: compound
    label: Use compound.
    phase: bottom bracket
    when: [place:frame, "!line:hose", kind:frame.shell_right=shell, material:frame=steel, cut:steerer_cut, shell_lines, rework:compound]
    after: [look]
    needs_open: [shell_right, [shell_right, port]]
    opens: [port]
    closes: [shell_right]
    tools: [brush]
    position: stand
    minutes: 20
    reversible: costly
    hold: two readings
    check: It is dry.
    caution: Wear gloves.
)";

inline const std::string k_job_text = R"(cotter: job 1
id: test_bike
title: Test bike
note: A bicycle of our own invention.
bicycle: all_road
revision: A
parts:
  - id: frame_here
    label: frame
    family: frame
    material: composite
    paper: frame sheet
    interfaces:
      shell_right: {kind: shell, bore: {value: 46.02 mm, measured: {by: A. Builder, with: gauge_1, on: 2026-05-02}}, outer_diameter: 50 mm assumed, depth: "?", grade: plain}
    geometry: {reach: 385 mm, head_tube_angle: 71.5°, stack: "?"}
    cells:
      - {id: down_tube, tube: down_tube, outer_diameter: 48 mm, bore: 45 mm}
      - {id: head_tube, tube: head_tube, outer_diameter: 50 mm, bore: 44 mm}
    openings:
      - {id: port, label: port, cell: down_tube, from: start, distance: 120 mm, side: left, shape: {width: 7 mm, length: 15 mm}, shared: true, enlarge: {most: 0.6 mm, paper: "frame sheet, page 4"}, insert: grommet}
      - {id: exit, label: exit, cell: down_tube, from: end, distance: 60 mm, side: bottom, shape: {round: 6.5 mm}}
    passages:
      - {id: head_to_down, label: head tube into down tube, a: head_tube, b: down_tube, tube: down_tube, from: start, distance: 10 mm, shape: {round: 30 mm}}
places:
  frame: frame_here
  bottom_bracket: {part: cups_46, at_hand: true, values: {cup_right.diameter: 46.08 mm}}
  my_saddle: {is: saddle}
  lever: lever
  caliper: caliper
  second_caliper: {part: caliper, another: true}
joints:
  - {id: shell_left, label: left cup, a: frame.shell_right, b: bottom_bracket.cup_left}
lines:
  - {id: brake, part: hose_5, from: caliper.hose, to: lever.hose, slack: 60, stow: 10, surfaces: 1}
aliases: {old_saddle: my_saddle, older_saddle: old_saddle}
decisions:
  - {finding: "cup_in_shell@frame.shell_right,bottom_bracket.cup_left", by: A. Builder, on: 2026-05-02, reason: good enough, margin: -0.4 mm}
shop:
  name: Workshop at the Weir
  country: DE
  rate: 62.00 EUR
  tools:
    - {id: gauge_1, label: bore gauge 35 to 60, kind: bore_gauge, resolution: 0.005 mm}
  kit:
    - {id: spacer_05, label: spacer 0.5, piece: spacer_30, thickness: 0.5 mm, count: 4}
)";

using Texts = std::vector<std::pair<std::string, std::string>>;

inline Texts small_catalog_texts() {
  return {{"kinds.yaml", k_kinds_text},
          {"parts.yaml", k_parts_text},
          {"bicycle.yaml", k_bicycle_text},
          {"operations.yaml", k_operations_text}};
}

inline std::vector<std::string> lines_of(const Diagnostics& diagnostics) {
  std::vector<std::string> lines;
  for (const Diagnostic& diagnostic : diagnostics.list()) lines.push_back(one_line(diagnostic));
  return lines;
}

inline const model::Catalog& small_catalog() {
  static const model::Catalog catalog = [] {
    auto read = read_catalog_texts(small_catalog_texts());
    if (!read)
      for (const std::string& line : lines_of(read.error())) ADD_FAILURE() << line;
    return read.value_or(model::Catalog{});
  }();
  return catalog;
}

/// The text with one thing in it changed, which must be there exactly once.
inline std::string changed(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos || text.find(from, at + 1) != std::string::npos) {
    ADD_FAILURE() << "not there exactly once: " << from;
    return text;
  }
  return text.replace(at, from.size(), to);
}

/// One change of a right text and the diagnostics it brings, in full.
struct Slip {
  std::string name;
  std::string from;
  std::string to;
  std::vector<std::string> said;
};
inline void PrintTo(const Slip& slip, std::ostream* out) {
  *out << slip.name;
}
inline std::string name_of(const testing::TestParamInfo<Slip>& info) {
  return info.param.name;
}

inline Read<model::Job> read_job_text(const std::string& text, const model::Catalog& catalog = small_catalog()) {
  const auto node = parse(text, "job.yaml", Format::yaml);
  if (!node) return tl::unexpected(node.error());
  return read_job(*node, "job.yaml", catalog);
}

/// What a catalog says with one of its texts changed.
inline std::vector<std::string> said_by_catalog(const std::string& file, const Slip& slip) {
  Texts texts = small_catalog_texts();
  for (auto& [name, text] : texts)
    if (name == file) text = changed(text, slip.from, slip.to);
  const auto read = read_catalog_texts(texts);
  return read ? std::vector<std::string>{} : lines_of(read.error());
}

}  // namespace cotter::document
