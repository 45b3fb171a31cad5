#include "pair.hpp"

#include <stdexcept>

#include "document/parse.hpp"
#include "document/read_catalog.hpp"
#include "document/read_job.hpp"
#include "plan/make_plan.hpp"

namespace cotter::kinds {
namespace {

using document::Node;

constexpr const char* k_template = "pair";

std::string all_of(const document::Diagnostics& diagnostics) {
  std::string out;
  for (const document::Diagnostic& one : diagnostics.list()) out += one_line(one) + "\n";
  return out;
}

/// Two places and one joint; no steps of work, which are not what is asked here.
model::Catalog with_pair(const std::string& own, const std::string& other) {
  model::Catalog catalog = shipped_catalog();
  catalog.work = {};
  // A rule is judged by itself here; what an adapter would mend is the bridge's matter.
  for (auto& [id, part] : catalog.parts) part.joins.clear();
  model::Bicycle bicycle;
  bicycle.id = bicycle.label = k_template;
  for (const char* id : {"own", "other"}) {
    model::PlaceForm place;
    place.id = place.label = id;
    bicycle.places.push_back(place);
  }
  model::JointForm joint;
  joint.id = joint.label = "joint";
  joint.a = {"own", own};
  joint.b = {"other", other};
  bicycle.joints = {joint};
  catalog.bicycles[k_template] = bicycle;
  return catalog;
}

Node amount(const std::string& text, Vouched vouched) {
  if (text == "?") return Node::text(text);
  Node value = Node::map().set("value", Node::text(text));
  if (vouched == Vouched::assumed) return value.set("assumed", Node::text("read off a picture"));
  return value.set("maker", Node::text("row of the test"));
}

Node interface_node(const model::InterfaceKind& kind, const std::map<std::string, std::string>& fields,
                    Vouched vouched) {
  Node node = Node::map().set("kind", Node::text(kind.id));
  std::map<std::string, std::string> left = fields;
  for (const model::KindDimension& dimension : kind.dimensions) {
    const auto found = left.find(dimension.id);
    if (found == left.end() && !dimension.required) continue;
    node.set(dimension.id, amount(found == left.end() ? "?" : found->second, vouched));
    left.erase(dimension.id);
  }
  for (const model::KindWord& word : kind.words) {
    const auto found = left.find(word.id);
    node.set(word.id, Node::text(found == left.end() ? "?" : found->second));
    left.erase(word.id);
  }
  if (!left.empty()) throw std::runtime_error(kind.id + " has no " + left.begin()->first);
  return node;
}

/// A part that can have an interface of this kind.
Node part_node(const std::string& id, const model::InterfaceKind& kind, Node interface) {
  Node node = Node::map();
  node.set("id", Node::text(id)).set("label", Node::text(id));
  node.set("family", Node::text(kind.on_families.empty() ? "row" : kind.on_families.front()));
  if (!kind.on_materials.empty()) node.set("material", Node::text(kind.on_materials.front()));
  return node.set("interfaces", Node::map().set("it", std::move(interface)));
}

std::map<std::string, model::Finding> planned(const model::Catalog& catalog, Node parts, const std::string& own,
                                              const std::string& other) {
  const Node job =
      Node::map()
          .set("cotter", Node::text("job 1"))
          .set("id", Node::text("row"))
          .set("title", Node::text("row"))
          .set("bicycle", Node::text(k_template))
          .set("parts", std::move(parts))
          .set("places",
               Node::map()
                   .set("own", Node::text(own))
                   .set("other",
                        Node::map().set("part", Node::text(other)).set("another", Node::boolean(own == other))));
  // Through text, as a job that is written by hand.
  const auto parsed = document::parse(write_json(job), "row.json", document::Format::json);
  if (!parsed) throw std::runtime_error(all_of(parsed.error()));
  const auto read = document::read_job(*parsed, "row.json", catalog);
  if (!read) throw std::runtime_error(all_of(read.error()));
  std::map<std::string, model::Finding> out;
  for (const model::Finding& finding : plan::make_plan(*read, catalog, {}).findings)
    // That a part is used says nothing of the joint.
    if (!finding.about.empty() && finding.law != "condition") out[finding.rule] = finding;
  return out;
}

}  // namespace

const model::Catalog& shipped_catalog() {
  static const model::Catalog catalog = [] {
    auto read = document::read_catalog({std::string(COTTER_SOURCE_DIR) + "/catalog"});
    if (!read) throw std::runtime_error(all_of(read.error()));
    return std::move(*read);
  }();
  return catalog;
}

const std::map<std::string, RulePlace>& shipped_rules() {
  static const std::map<std::string, RulePlace> rules = [] {
    std::map<std::string, RulePlace> out;
    for (const auto& [id, kind] : shipped_catalog().kinds)
      for (const model::Meeting& meeting : kind.meets)
        for (const model::Rule& rule : meeting.rules)
          out[rule.id] = {&rule, &kind, &shipped_catalog().kinds.at(meeting.kind)};
    return out;
  }();
  return rules;
}

std::map<std::string, model::Finding> findings_of(const RulePlace& place, const Pair& pair) {
  static const model::Catalog catalog = with_pair("it", "it");
  Node parts = Node::list();
  parts.push(part_node("own_part", *place.own, interface_node(*place.own, pair.own, pair.vouched)));
  parts.push(part_node("other_part", *place.other, interface_node(*place.other, pair.other, pair.vouched)));
  return planned(catalog, std::move(parts), "own_part", "other_part");
}

std::map<std::string, model::Finding> findings_of(const std::string& own, const std::string& other) {
  const auto split = [](const std::string& text) {
    const std::size_t point = text.find('.');
    if (point == std::string::npos) throw std::runtime_error(text + " is not written part.interface");
    const std::string part = text.substr(0, point), interface = text.substr(point + 1);
    const auto found = shipped_catalog().parts.find(part);
    if (found == shipped_catalog().parts.end()) throw std::runtime_error("the catalog has no part " + part);
    if (!found->second.interfaces.contains(interface)) throw std::runtime_error(part + " has no " + interface);
    return std::pair(part, interface);
  };
  const auto [own_part, own_interface] = split(own);
  const auto [other_part, other_interface] = split(other);
  return planned(with_pair(own_interface, other_interface), Node::list(), own_part, other_part);
}

}  // namespace cotter::kinds
