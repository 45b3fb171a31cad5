// Joints and lines of a job: what leads from one place to another.

#include <algorithm>
#include <fmt/format.h>

#include "document/read_bicycle.hpp"
#include "document/read_parts.hpp"
#include "document/read_sheet.hpp"
#include "document/schema_words.hpp"

namespace cotter::document {
namespace {

/// The interface of a reference; nullptr when the place is open or the name is wrong, which is then said.
const model::Interface* require_interface(const Spot& spot, const model::InterfaceRef& ref, const SheetNames& names,
                                          Diagnostics& diagnostics) {
  const model::Part* part = ref.place.empty() ? nullptr : names.part_in(ref.place);
  if (part == nullptr) return nullptr;
  const auto found = part->interfaces.find(ref.interface);
  if (found != part->interfaces.end()) return &found->second;
  std::vector<std::string> known;
  for (const auto& [id, interface] : part->interfaces) known.push_back(ref.place + "." + id);
  report_unknown(diagnostics, spot, fmt::format("interface of {}", part->id), known);
  return nullptr;
}

/// Kinds that meet this one, whichever side declares it.
std::vector<std::string> met_by(const model::Catalog& catalog, const std::string& kind) {
  std::vector<std::string> met;
  for (const auto& [id, other] : catalog.kinds)
    if (model::find_meeting(catalog, kind, id).meeting != nullptr) met.push_back(id);
  return met;
}

void check_meeting(const Spot& spot, const model::JointForm& joint, const SheetNames& names, Diagnostics& diagnostics) {
  const auto* a = require_interface(spot.at("a"), joint.a, names, diagnostics);
  const auto* b = require_interface(spot.at("b"), joint.b, names, diagnostics);
  if (a == nullptr || b == nullptr || model::find_meeting(names.catalog(), a->kind, b->kind).meeting != nullptr) return;
  const auto met = met_by(names.catalog(), a->kind);
  report(diagnostics, spot.at("b"), "unlike_interfaces", fmt::format("{} and {} never meet.", a->kind, b->kind),
         met.empty() ? fmt::format("nothing meets {}", a->kind)
                     : fmt::format("an interface of one of the kinds {}", comma_list(met)));
}

/// A port, and its family when the place is filled.
struct PortEnd {
  model::InterfaceRef ref;
  std::string family;                     ///< empty while the place is open
  const model::LineForm* lead = nullptr;  ///< what cannot be parted from it
};

std::optional<PortEnd> read_end(const Spot& spot, const SheetNames& names, Diagnostics& diagnostics) {
  const auto ref = read_pair(spot, names.place_names(), "`place.port`", diagnostics);
  if (!ref) return std::nullopt;
  PortEnd end{{names.name_now(ref->place), ref->interface}, "", nullptr};
  const model::Part* part = names.part_in(ref->place);
  if (part == nullptr) return end;
  std::vector<std::string> known;
  if (part->device)
    for (const model::Port& port : part->device->ports) {
      if (port.id == ref->interface) end.family = port.family;
      if (port.id == ref->interface && port.lead) end.lead = &*port.lead;
      known.push_back(ref->place + "." + port.id);
    }
  if (!end.family.empty()) return end;
  report_unknown(diagnostics, spot, fmt::format("port of {}", part->id), known);
  return std::nullopt;
}

/// The line of a wish: a part, or the lead of the device at its start.
const model::LineForm* require_line(const Spot& wish, const std::optional<PortEnd>& from, const SheetNames& names,
                                    Diagnostics& diagnostics) {
  const Spot spot = wish.at("part");
  const bool is_lead = from && from->lead != nullptr;
  if (!spot.exists() && is_lead) return from->lead;
  if (!spot.exists() && from)
    report(diagnostics, wish.at("part"), "missing_field", "The device at `from` has no lead of its own at this port.",
           "the part that is this line");
  if (spot.exists() && is_lead) {
    report(diagnostics, spot, "too_many", "The device at `from` has a lead at this port that cannot be taken off.",
           "no `part`");
    return nullptr;
  }
  if (!spot.is_scalar()) return nullptr;
  const model::Part* part = names.find_part(spot.text());
  if (part == nullptr) {
    report_unknown(diagnostics, spot, "part", names.part_names());
  } else if (!part->line) {
    report(diagnostics, spot, "bad_value", "This part is not a line.", "a part with the field `line`");
  }
  return part == nullptr || !part->line ? nullptr : &*part->line;
}

bool belongs(const std::string& port, const std::string& line) {
  return port.empty() || port == line;
}

/// Puts the ends so that end a of the line belongs to `from`, or says that they belong to other ports.
void match_ends(const Spot& spot, const model::LineForm& line, PortEnd& from, PortEnd& to, Diagnostics& diagnostics) {
  if (belongs(from.family, line.family_a) && belongs(to.family, line.family_b)) return;
  if (belongs(from.family, line.family_b) && belongs(to.family, line.family_a)) {
    std::swap(from, to);
    return;
  }
  const auto in_words = [](const PortEnd& end) { return end.family.empty() ? "an open place" : end.family; };
  report(diagnostics, spot.at("part"), "unlike_ends",
         fmt::format("The ends of this line are {} and {}, its ports {} and {}.", line.family_a, line.family_b,
                     in_words(from), in_words(to)),
         "a line whose ends are of the families of its two ports");
}

std::vector<std::string> holes_of(const model::Part& part) {
  std::vector<std::string> holes;
  for (const model::Opening& opening : part.openings) holes.push_back(opening.id);
  for (const model::Passage& passage : part.passages) holes.push_back(passage.id);
  return holes;
}

/// `place.opening` in the job's names now; empty, and said, when there is none.
std::string read_hole(const Spot& spot, const SheetNames& names, Diagnostics& diagnostics) {
  const auto ref = read_pair(spot, names.place_names(), "`place.opening`", diagnostics);
  if (!ref) return "";
  const model::Part* part = names.part_in(ref->place);
  const std::vector<std::string> known = part == nullptr ? std::vector<std::string>{} : holes_of(*part);
  if (std::find(known.begin(), known.end(), ref->interface) != known.end())
    return names.name_now(ref->place) + "." + ref->interface;
  std::vector<std::string> whole;
  for (const std::string& hole : known) whole.push_back(ref->place + "." + hole);
  report_unknown(diagnostics, spot, "opening", whole);
  return "";
}

std::vector<std::string> read_holes(const Spot& list, const SheetNames& names, Diagnostics& diagnostics) {
  std::vector<std::string> holes;
  for (const Spot& item : list.items())
    if (auto hole = read_hole(item, names, diagnostics); !hole.empty()) holes.push_back(std::move(hole));
  return holes;
}

std::optional<model::MeasuredWay> read_measured(const Spot& spot) {
  if (!spot.is_map()) return std::nullopt;
  return model::MeasuredWay{spot.at("way").integer(0), spot.at("by").text(), spot.at("on").text()};
}

model::LineWish wish_of(const Spot& item, const PortEnd& from, const PortEnd& to, const SheetNames& names,
                        Diagnostics& diagnostics) {
  model::LineWish wish;
  wish.id = item.at("id").text();
  wish.part = item.at("part").text();
  wish.from_place = from.ref.place;
  wish.from_port = from.ref.interface;
  wish.to_place = to.ref.place;
  wish.to_port = to.ref.interface;
  wish.least_slack = item.at("slack").integer(0);
  wish.most_stow = item.at("stow").integer(0);
  wish.surfaces = item.at("surfaces").integer(0);
  wish.through = read_holes(item.at("through"), names, diagnostics);
  wish.avoid = read_holes(item.at("avoid"), names, diagnostics);
  wish.measured = read_measured(item.at("measured"));
  return wish;
}

}  // namespace

std::vector<model::TakenOpening> read_taken(const Spot& list, const SheetNames& names, Diagnostics& diagnostics) {
  std::vector<model::TakenOpening> taken;
  IdList openings("taken opening", diagnostics);
  for (const Spot& item : list.items()) {
    openings.add(item.at("opening"));
    taken.push_back({read_hole(item.at("opening"), names, diagnostics), item.at("by").text()});
  }
  return taken;
}

std::optional<model::BrakeHands> read_hands(const Spot& spot) {
  if (!spot.is_map()) return std::nullopt;
  return model::BrakeHands{spot.at("left").text() != "rear", spot.at("by").text(), spot.at("on").text()};
}

std::vector<model::JointForm> read_joints(const Spot& list, const SheetNames& names, Diagnostics& diagnostics) {
  std::vector<model::JointForm> joints;
  IdList ids("joint", diagnostics);
  for (const Spot& item : list.items()) {
    ids.add(item.at("id"));
    joints.push_back(read_joint(item, names.place_names(), diagnostics));
    check_meeting(item, joints.back(), names, diagnostics);
    const std::string& id = joints.back().id;
    if (names.bicycle() == nullptr) continue;
    const auto& known = names.bicycle()->joints;
    if (std::any_of(known.begin(), known.end(), [&](const model::JointForm& joint) { return joint.id == id; }))
      report(diagnostics, item.at("id"), "duplicate_id", "The template has a joint of this name.",
             "a name that is not used yet");
  }
  return joints;
}

std::vector<model::LineWish> read_wishes(const Spot& list, const SheetNames& names, Diagnostics& diagnostics) {
  std::vector<model::LineWish> wishes;
  IdList ids("line", diagnostics);
  for (const Spot& item : list.items()) {
    ids.add(item.at("id"));
    auto from = read_end(item.at("from"), names, diagnostics);
    auto to = read_end(item.at("to"), names, diagnostics);
    const model::LineForm* line = require_line(item, from, names, diagnostics);
    if (from && to && from->ref == to->ref)
      report(diagnostics, item.at("to"), "bad_value", "The line ends where it starts.", "another port");
    else if (line != nullptr && from && to)
      match_ends(item, *line, *from, *to, diagnostics);
    if (!from || !to) continue;
    wishes.push_back(wish_of(item, *from, *to, names, diagnostics));
  }
  return wishes;
}

}  // namespace cotter::document
