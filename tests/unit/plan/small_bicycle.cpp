#include "small_bicycle.hpp"

#include <algorithm>
#include <stdexcept>

namespace cotter::plan {
namespace {

using model::Catalog;
using model::Job;
using quantity::Mixed;
using quantity::Range;

model::KindDimension dimension(const std::string& id) {
  model::KindDimension out;
  out.id = out.label = id;
  out.permitted = Range(Mixed::from_base(0), Mixed::from_base(200 * k_mm));
  out.measure = {"the " + id, "two directions", "caliper", "0.05 mm", 200};
  return out;
}

model::InterfaceKind kind(const std::string& id, const std::vector<std::string>& dimensions) {
  model::InterfaceKind out;
  out.id = out.label = id;
  for (const std::string& name : dimensions) out.dimensions.push_back(dimension(name));
  return out;
}

model::OperandRef operand(model::OperandRef::Side side, const std::string& name) {
  model::OperandRef ref;
  ref.side = side;
  ref.dimension = name;
  return ref;
}

void add_kinds(Catalog& catalog) {
  model::InterfaceKind shell = kind("shell", {"bore", "width"});
  model::Rule rule;
  rule.id = "cup_in_shell";
  rule.label = "cup in shell";
  rule.law = "bore_on_shaft";
  rule.operands = {{"bore", operand(model::OperandRef::Side::own, "bore")},
                   {"shaft", operand(model::OperandRef::Side::other, "outside")}};
  rule.must = {length(10), length(100)};
  rule.below = {model::Outcome::Kind::rework, "ream_shell", ""};
  rule.above = {model::Outcome::Kind::stop, "", "Take a larger cup."};
  shell.meets = {{"cup", {rule}}};
  catalog.kinds["shell"] = shell;
  catalog.kinds["cup"] = kind("cup", {"outside", "stand"});
  catalog.kinds["spindle"] = kind("spindle", {"length", "least", "most"});
}

void add_bicycle(Catalog& catalog) {
  model::Bicycle bicycle;
  bicycle.id = bicycle.label = "small";
  for (const char* id : {"frame", "bracket", "crank", "lever", "brake", "saddle"})
    bicycle.places.push_back({id, id, false, "", ""});
  bicycle.places.back().decide_before = "fit_saddle";
  bicycle.places.push_back({"bell", "bell", true, "fit_saddle", ""});
  model::JointForm joint;
  joint.id = "cup";
  joint.label = "right cup";
  joint.a = {"frame", "shell"};
  joint.b = {"bracket", "cup"};
  bicycle.joints = {joint};
  model::StackDefinition stack;
  stack.id = "spindle";
  stack.label = "bottom bracket";
  stack.terms = {{"spindle", "spindle length", {"crank", "spindle", "length"}, std::nullopt},
                 {"shell", "shell width", {"frame", "shell", "width"}, std::nullopt},
                 {"cup", "cup stand", {"bracket", "cup", "stand"}, std::nullopt}};
  stack.slots = {{"right", "on the spindle, right", "spacer", 4}};
  model::StackForm form;
  form.id = "gap";
  form.label = "gap on the spindle";
  form.terms = {{"spindle", 1}, {"shell", -1}, {"cup", -2}};
  form.slots = {{"right", -1}};
  form.must = {length(0), length(500)};
  form.above = {model::Outcome::Kind::add, "spacers", ""};
  stack.forms = {form};
  bicycle.stacks = {stack};
  bicycle.seats = {{"", "lever", "outside", "bottom_bracket", 500, 600, 0, "", {}, 0},
                   {"", "brake", "outside", "rear_axle", 0, 50, 0, "", {}, 0}};
  catalog.bicycles["small"] = bicycle;
}

model::Operation step(const std::string& id, std::vector<std::string> after, std::vector<std::string> when = {}) {
  model::Operation out;
  out.id = id;
  out.label = "Step " + id + ".";
  out.phase = "work";
  out.after = std::move(after);
  out.when = std::move(when);
  out.position = "stand";
  out.minutes = 100;
  return out;
}

void add_work(Catalog& catalog) {
  catalog.work.operations = {step("measure", {}), step("ream_shell", {"measure"}, {"rework:ream_shell"}),
                             step("press_cups", {"ream_shell"}), step("pull_lines", {"measure"}),
                             step("fit_saddle", {"pull_lines", "press_cups"})};
}

void fill(Job& job, const std::string& place, const std::vector<model::Interface>& interfaces) {
  model::Part part;
  part.id = place + "_part";
  part.label = "a " + place;
  part.family = place;
  for (const model::Interface& one : interfaces) part.interfaces[one.id] = one;
  job.sheet.parts.push_back(part);
  model::Place here;
  here.id = here.is = place;
  here.part = part.id;
  job.sheet.places.push_back(here);
}

model::ClearShape round_hole(std::int64_t diameter_um) {
  return {length(diameter_um), length(diameter_um), model::ClearShape::Outline::round};
}

model::Opening hole(const std::string& id, const std::string& from, std::int64_t distance_um,
                    std::int64_t diameter_um) {
  model::Opening out;
  out.id = out.label = id;
  out.cell = "down_tube";
  out.from = from;
  out.distance = length(distance_um);
  out.side = "left";
  out.shape = round_hole(diameter_um);
  return out;
}

void add_ways(SmallBicycle& small) {
  model::Part& frame = small.part("frame");
  frame.geometry = {{"stack", length(585'000)},
                    {"reach", length(385'000)},
                    {"chainstay", length(430'000)},
                    {"bottom_bracket_drop", length(72'000)},
                    {"head_tube_length", length(150'000)},
                    {"seat_tube_length", length(530'000)}};
  quantity::Value angle = length(0);
  angle.dimension = quantity::Dimension::angle;
  angle.nominal = 72'000'000;
  frame.geometry["head_tube_angle"] = frame.geometry["seat_tube_angle"] = angle;
  frame.cells = {{"down_tube", "down_tube", length(50'000), length(46'000)}};
  frame.openings = {hole("entry", "start", 120'000, 8'000), hole("exit", "end", 60'000, 6'000)};
  for (const char* place : {"lever", "brake"}) small.part(place).device = model::Device{{{"hose", "olive", {}}}, {}};
  model::Part hose;
  hose.id = "hose";
  hose.label = "hose";
  hose.line = model::LineForm{};
  hose.line->kind = model::LineForm::Kind::hose;
  hose.line->diameter = length(5'000);
  hose.line->connector_a = hose.line->connector_b = round_hole(5'000);
  hose.line->longest = length(3'000'000);
  small.job.sheet.parts.push_back(hose);
  small.job.sheet.lines = {{"hose", "hose", "lever", "hose", "brake", "hose", 0, 0, 0}};
}

}  // namespace

quantity::Value length(std::int64_t nominal_um, std::int64_t plus_minus_um, quantity::OriginKind kind) {
  quantity::Value value;
  value.nominal = nominal_um * 1000;
  value.upper = plus_minus_um * 1000;
  value.lower = -value.upper;
  value.deviations = quantity::Deviations::stated;
  value.origin.kind = kind;
  return value;
}

model::Interface interface_of(const std::string& id, const std::string& kind,
                              std::map<std::string, quantity::Value> values) {
  return {id, kind, std::move(values), {}};
}

SmallBicycle::SmallBicycle() {
  add_kinds(catalog);
  add_bicycle(catalog);
  add_work(catalog);
  catalog.hash = "catalog";
  job.sheet.id = "job";
  job.sheet.bicycle = "small";
  fill(job, "frame", {interface_of("shell", "shell", {{"bore", length(46'050, 5)}, {"width", length(86'500, 50)}})});
  fill(job, "bracket", {interface_of("cup", "cup", {{"outside", length(46'000, 5)}, {"stand", length(1'000, 10)}})});
  fill(job, "crank", {interface_of("spindle", "spindle", {{"length", length(88'800, 20)}})});
  fill(job, "lever", {});
  fill(job, "brake", {});
  fill(job, "saddle", {});
  add_ways(*this);
  job.sheet.shop.tools = {{"caliper_1", "digital caliper", "caliper", "0.05 mm"}};
}

model::Rule& SmallBicycle::rule() {
  return catalog.kinds["shell"].meets[0].rules[0];
}

model::StackForm& SmallBicycle::form() {
  return catalog.bicycles["small"].stacks[0].forms[0];
}

model::Part& SmallBicycle::part(const std::string& place) {
  const auto found = std::find_if(job.sheet.parts.begin(), job.sheet.parts.end(),
                                  [&](const model::Part& one) { return one.id == place + "_part"; });
  if (found == job.sheet.parts.end()) throw std::out_of_range(place);
  return *found;
}

void SmallBicycle::empty(const std::string& place) {
  for (model::Place& one : job.sheet.places)
    if (one.id == place) one.part.clear();
}

model::Plan SmallBicycle::plan() const {
  return make_plan(job, catalog, {"0.0.0", "job hash"});
}

const model::Finding& finding_in(const model::Plan& plan, const std::string& id) {
  const auto found = std::find_if(plan.findings.begin(), plan.findings.end(),
                                  [&](const model::Finding& one) { return one.id.starts_with(id); });
  if (found == plan.findings.end()) throw std::out_of_range("no finding " + id);
  return *found;
}

}  // namespace cotter::plan
