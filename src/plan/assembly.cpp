#include "plan/assembly.hpp"

#include <algorithm>
#include <iterator>

#include "model/words.hpp"
#include "plan/hands.hpp"
#include "plan/thickest_line.hpp"
#include "plan/tool_readings.hpp"
#include "quantity/ensure.hpp"

namespace cotter::plan {
namespace {

const model::Part* part_by_id(const model::Job& job, const model::Catalog& catalog, const std::string& id,
                              bool& from_catalog) {
  const auto own = std::find_if(job.sheet.parts.begin(), job.sheet.parts.end(),
                                [&](const model::Part& part) { return part.id == id; });
  from_catalog = own == job.sheet.parts.end();
  if (!from_catalog) return &*own;
  const auto shared = catalog.parts.find(id);
  return shared == catalog.parts.end() ? nullptr : &shared->second;
}

/// Puts `interface.dimension` = value into a part; names that do not exist were refused by the reader.
void put_value(model::Part& part, const std::string& target, const quantity::Value& value) {
  const auto dot = target.find('.');
  if (dot == std::string::npos) return;
  const std::string feature = target.substr(0, dot);
  const std::string dimension = target.substr(dot + 1);
  if (feature == "geometry") {
    part.geometry[dimension] = value;
    return;
  }
  const auto found = part.interfaces.find(feature);
  if (found != part.interfaces.end()) found->second.values[dimension] = value;
}

/// A used part is not what its paper says any more: only what somebody has measured on it still stands.
void doubt_papers(model::Part& part) {
  if (!part.used) return;
  for (auto& [id, feature] : part.interfaces)
    for (auto& [dimension, value] : feature.values)
      if (value.origin.kind == quantity::OriginKind::maker || value.origin.kind == quantity::OriginKind::standard)
        value.origin = {quantity::OriginKind::assumed, "", "", "",
                        "used part, by its paper when new: " + value.origin.source};
}

std::set<std::string> facts_of(const std::vector<Seated>& places) {
  std::set<std::string> facts;
  for (const Seated& seated : places) {
    const std::string& name = seated.form->id;
    if (seated.part || !seated.form->optional) facts.insert("place:" + name);
    if (!seated.part) {
      facts.insert("open:" + name);
      continue;
    }
    facts.insert("family:" + name + "=" + seated.part->family);
    facts.insert("material:" + name + "=" + std::string(model::word_for(seated.part->material)));
    if (seated.part->used) facts.insert("used:" + name);
    for (const auto& [id, feature] : seated.part->interfaces)
      facts.insert("kind:" + name + "." + id + "=" + feature.kind);
  }
  return facts;
}

}  // namespace

bool all_hold(const model::Conditions& conditions, const std::set<std::string>& facts) {
  return std::all_of(conditions.begin(), conditions.end(), [&](const std::string& condition) {
    return condition.starts_with('!') ? !facts.contains(condition.substr(1)) : facts.contains(condition);
  });
}

void Assembly::take_conditional() {
  const auto holds = [&](const auto& entry) { return all_hold(entry.when, facts_); };
  std::copy_if(bicycle_->joints.begin(), bicycle_->joints.end(), std::back_inserter(joints_), holds);
  std::copy_if(bicycle_->connections.begin(), bicycle_->connections.end(), std::back_inserter(connections_), holds);
  std::copy_if(bicycle_->clearances.begin(), bicycle_->clearances.end(), std::back_inserter(clearances_), holds);
  std::copy_if(bicycle_->stacks.begin(), bicycle_->stacks.end(), std::back_inserter(stacks_), holds);
  for (model::StackDefinition& stack : stacks_) {
    std::erase_if(stack.forms, [&](const model::StackForm& form) { return !holds(form); });
    for (const model::StackSlot& slot : stack.slots)
      if (!holds(slot))
        for (model::StackForm& form : stack.forms) form.slots.erase(slot.id);
    std::erase_if(stack.slots, [&](const model::StackSlot& slot) { return !holds(slot); });
  }
}

void Assembly::seat_lines() {
  const auto& wishes = job_->sheet.lines;
  line_forms_.resize(wishes.size());
  lines_.resize(wishes.size());
  for (std::size_t i = 0; i < wishes.size(); ++i) {
    const model::Part* part = find_part(wishes[i].part);
    if (part == nullptr) continue;
    line_forms_[i].id = "lines." + wishes[i].id;
    line_forms_[i].label = part->label;
    Seated& line = lines_[i];
    line.form = &line_forms_[i];
    line.id = line_forms_[i].id;
    line.part = *part;
    doubt_papers(*line.part);
    join_line(line, template_name(wishes[i].from_place));
    join_line(line, template_name(wishes[i].to_place));
  }
}

void Assembly::join_line(const Seated& line, const std::string& place_name) {
  const Seated* device = place(place_name);
  if (device == nullptr || !device->part) return;
  for (const auto& [port, offered] : device->part->interfaces) {
    for (const auto& [end, own] : line.part->interfaces) {
      if (model::find_meeting(*catalog_, offered.kind, own.kind).meeting == nullptr) continue;
      model::JointForm joint;
      joint.id = line.id + "." + place_name + "." + end;
      joint.label = device->form->label + ", " + line.form->label;
      joint.a = {place_name, port};
      joint.b = {line.id, end};
      joints_.push_back(std::move(joint));
    }
  }
}

Assembly::Assembly(const model::Job& job, const model::Catalog& catalog) : job_(&job), catalog_(&catalog) {
  const auto bicycle = catalog.bicycles.find(job.sheet.bicycle);
  quantity::ensure(bicycle != catalog.bicycles.end(), "job rests on a template that the catalog does not hold");
  bicycle_ = &bicycle->second;
  const model::WorkState work = model::fold(job.journal);

  for (const model::Place& place : job.sheet.places) template_names_[place.id] = place.is;
  for (const model::PlaceForm& form : bicycle_->places) {
    Seated seated;
    seated.form = &form;
    seated.id = form.id;
    for (const model::Place& place : job.sheet.places) {
      if (place.is != form.id) continue;
      seated.id = place.id;
      seated.at_hand = place.ordered;
      if (place.part.empty()) continue;
      const model::Part* part = part_by_id(job, catalog, place.part, seated.from_catalog);
      quantity::ensure(part != nullptr, "place names a part that neither job nor catalog holds");
      seated.part = *part;
      seated.part->used = part->used || place.used;
      if (place.condition) seated.part->condition = place.condition;
      for (const auto& [target, value] : place.values) put_value(*seated.part, target, value);
      const std::string prefix = place.id + ".";
      for (const auto& [target, value] : work.values)
        if (target.starts_with(prefix)) put_value(*seated.part, target.substr(prefix.size()), value);
      doubt_readings(catalog, job.sheet.shop, *seated.part);
      doubt_papers(*seated.part);
      fill_thickest_line(job, catalog, [this](const std::string& id) { return find_part(id); }, *seated.part);
    }
    by_template_name_[form.id] = places_.size();
    // A place that the job does not name never takes the name of one that it does.
    template_names_.emplace(seated.id, form.id);
    places_.push_back(std::move(seated));
  }

  facts_ = facts_of(places_);
  facts_.insert(hand_fact(job, catalog));
  take_conditional();
  for (model::JointForm joint : job.sheet.joints) {
    joint.a.place = template_name(joint.a.place);
    joint.b.place = template_name(joint.b.place);
    // Two features are judged once, however often they are joined, so that no finding has a twin.
    if (!joined(joint)) joints_.push_back(std::move(joint));
  }
  seat_lines();
}

bool Assembly::joined(const model::JointForm& joint) const {
  return std::any_of(joints_.begin(), joints_.end(), [&](const model::JointForm& known) {
    return (known.a == joint.a && known.b == joint.b) || (known.a == joint.b && known.b == joint.a);
  });
}

const Seated* Assembly::place(const std::string& template_name) const {
  const auto found = by_template_name_.find(template_name);
  if (found != by_template_name_.end()) return &places_[found->second];
  const auto line =
      std::find_if(lines_.begin(), lines_.end(), [&](const Seated& one) { return one.id == template_name; });
  return line == lines_.end() || line->form == nullptr ? nullptr : &*line;
}

const model::Interface* Assembly::interface(const model::InterfaceRef& ref) const {
  const Seated* seated = place(ref.place);
  if (seated == nullptr || !seated->part) return nullptr;
  const auto found = seated->part->interfaces.find(ref.interface);
  return found == seated->part->interfaces.end() ? nullptr : &found->second;
}

std::optional<FoundValue> Assembly::unstated(const model::ValueRef& ref) const {
  const model::Interface* feature = interface({ref.place, ref.interface});
  if (feature == nullptr) return std::nullopt;
  const auto kind = catalog_->kinds.find(feature->kind);
  if (kind == catalog_->kinds.end()) return std::nullopt;
  const Seated* seated = place(ref.place);
  FoundValue found;
  found.dimension = model::find_dimension(kind->second, ref.dimension);
  found.place_label = seated->form->label;
  found.label = found.dimension == nullptr ? ref.dimension : found.dimension->label;
  found.ref = {seated->id, ref.interface, ref.dimension};
  return found;
}

std::optional<FoundValue> Assembly::value(const model::ValueRef& ref) const {
  const model::Interface* feature = interface({ref.place, ref.interface});
  if (feature == nullptr) return std::nullopt;
  const auto value = feature->values.find(ref.dimension);
  std::optional<FoundValue> found = unstated(ref);
  if (value == feature->values.end() || !found) return std::nullopt;
  found->value = &value->second;
  return found;
}

const quantity::Value* Assembly::geometry(const std::string& place_name, const std::string& name) const {
  const Seated* seated = place(place_name);
  if (seated == nullptr || !seated->part) return nullptr;
  const auto found = seated->part->geometry.find(name);
  return found == seated->part->geometry.end() ? nullptr : &found->second;
}

const model::Part* Assembly::find_part(const std::string& id) const {
  bool from_catalog = false;
  return part_by_id(*job_, *catalog_, id, from_catalog);
}

WishedLine Assembly::line_of(const model::LineWish& wish) const {
  if (!wish.part.empty()) {
    const model::Part* part = find_part(wish.part);
    quantity::ensure(part != nullptr && part->line.has_value(), "line wish names a part that is no line");
    return {&*part->line, part, part->label};
  }
  const Seated* seated = place(template_name(wish.from_place));
  if (seated == nullptr || !seated->part || !seated->part->device) return {};
  for (const model::Port& port : seated->part->device->ports)
    if (port.id == wish.from_port && port.lead) return {&*port.lead, nullptr, "lead of " + seated->part->label};
  return {};
}

std::string Assembly::template_hole(const std::string& job_name) const {
  const auto dot = job_name.find('.');
  if (dot == std::string::npos) return job_name;
  return template_name(job_name.substr(0, dot)) + job_name.substr(dot);
}

model::InterfaceRef Assembly::in_job_names(const model::InterfaceRef& ref) const {
  const Seated* seated = place(ref.place);
  return {seated == nullptr ? ref.place : seated->id, ref.interface};
}

std::string Assembly::label(const model::InterfaceRef& ref) const {
  const Seated* seated = place(ref.place);
  const model::Interface* feature = interface(ref);
  if (seated == nullptr) return ref.text();
  if (feature == nullptr) return seated->form->label;
  return seated->form->label + ", " + model::kind_label(*catalog_, feature->kind);
}

std::string Assembly::template_name(const std::string& job_name) const {
  const auto found = template_names_.find(job_name);
  return found == template_names_.end() ? job_name : found->second;
}

}  // namespace cotter::plan
