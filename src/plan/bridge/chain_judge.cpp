#include "plan/bridge/chain_judge.hpp"

#include <algorithm>

namespace cotter::plan {
namespace {

using model::Finding;
using quantity::Certainty;
using Side = model::OperandRef::Side;

/// An adapter's dimension `adds_x` comes on top of the joined feature's dimension `x` in the stacks.
constexpr std::string_view k_adds = "adds_";

/// Dimensions and words of one side that a rule reads.
std::vector<std::string> read_by(const model::Rule& rule, Side side) {
  std::vector<std::string> names;
  for (const auto& [role, operand] : rule.operands)
    if (operand.side == side) names.push_back(operand.dimension);
  for (const auto& [role, words] : rule.words) names.push_back(side == Side::own ? words.first : words.second);
  return names;
}

}  // namespace

ChainJudge::ChainJudge(const Assembly& assembly, const BridgeCatalog& catalog, const model::JointForm& joint)
    : assembly_(assembly),
      catalog_(catalog),
      joint_(joint),
      a_(*assembly.interface(joint.a)),
      b_(*assembly.interface(joint.b)) {}

bool ChainJudge::covers(const Chain& chain, const Finding& finding) const {
  const model::MeetingRef direct = model::find_meeting(assembly_.catalog(), a_.kind, b_.kind);
  if (direct.meeting == nullptr) return true;
  const auto& rules = direct.meeting->rules;
  const auto rule = std::find_if(rules.begin(), rules.end(), [&](const auto& one) { return one.id == finding.rule; });
  if (rule == rules.end()) return true;
  const Link& first = chain.links.front();
  const Link& last = chain.links.back();
  return reads_as_much(*rule, direct.swapped ? Side::other : Side::own, a_,
                       catalog_.interface(first.piece, first.enters)) &&
         reads_as_much(*rule, direct.swapped ? Side::own : Side::other, b_,
                       catalog_.interface(last.piece, last.leaves));
}

bool ChainJudge::reads_as_much(const model::Rule& rule, Side side, const model::Interface& end,
                               const model::Interface& adapter) const {
  const model::MeetingRef meeting = model::find_meeting(assembly_.catalog(), end.kind, adapter.kind);
  std::vector<std::string> asked;
  for (const model::Rule& one : meeting.meeting->rules)
    for (std::string& name : read_by(one, meeting.swapped ? Side::other : Side::own)) asked.push_back(std::move(name));
  const std::vector<std::string> wanted = read_by(rule, side);
  return std::all_of(wanted.begin(), wanted.end(), [&](const std::string& name) {
    return std::find(asked.begin(), asked.end(), name) != asked.end();
  });
}

bool ChainJudge::accepts(const Chain& chain) {
  doubt_.reset();
  // Where a life hangs on the joint, one adapter is the most; a tower of them is never offered.
  if (chain.links.size() > 1 && guards_of(chain) != model::Guards::nothing) {
    refuse(chain, {{"bridge.refused_tower", ""}});
    return false;
  }
  for (const Link& link : chain.links) {
    if (other_joins_fit(link)) continue;
    refuse(chain, {{"bridge.refused_other", ""}, {"what", catalog_.part(link.piece).label}});
    return false;
  }
  const auto added = added_by(chain);
  if (!added) {
    doubt_ = Facts{{"bridge.open_length", ""}, {"what", catalog_.label(chain)}};
    return true;
  }
  const AddedVerdict verdict = judge_added_lengths(assembly_, *added);
  if (verdict.certainty == Certainty::fails) {
    refuse(chain, {{"bridge.refused_stack", ""}, {"what", verdict.form}});
    return false;
  }
  if (verdict.certainty == Certainty::open) doubt_ = Facts{{"bridge.open_stack", ""}, {"what", verdict.form}};
  return true;
}

void ChainJudge::refuse(const Chain& chain, Facts why) {
  if (!refusal_) refusal_ = {chain, std::move(why)};
}

/// A plate that joins two pairs must find a place for both.
bool ChainJudge::other_joins_fit(const Link& link) const {
  const model::Part& part = catalog_.part(link.piece);
  const std::string& enters = catalog_.interface(link.piece, link.enters).id;
  const std::string& leaves = catalog_.interface(link.piece, link.leaves).id;
  return std::all_of(part.joins.begin(), part.joins.end(), [&](const model::Join& join) {
    const bool used = (join.a == enters && join.b == leaves) || (join.b == enters && join.a == leaves);
    return used || fits_somewhere(part.interfaces.at(join.a), part.interfaces.at(join.b));
  });
}

/// Only joints of the same two places, or next to them: a front plate is no answer to a rear mount.
bool ChainJudge::fits_somewhere(const model::Interface& one, const model::Interface& two) const {
  const auto& joints = assembly_.joints();
  return std::any_of(joints.begin(), joints.end(), [&](const model::JointForm& other) {
    const bool near = other.a.place == joint_.a.place || other.a.place == joint_.b.place ||
                      other.b.place == joint_.a.place || other.b.place == joint_.b.place;
    if (!near || (other.a == joint_.a && other.b == joint_.b)) return false;
    const model::Interface* a = assembly_.interface(other.a);
    const model::Interface* b = assembly_.interface(other.b);
    if (a == nullptr || b == nullptr) return false;
    return (mate(*a, one) && mate(two, *b)) || (mate(*a, two) && mate(one, *b));
  });
}

bool ChainJudge::mate(const model::Interface& a, const model::Interface& b) const {
  const auto first = catalog_.feature(a);
  const auto second = catalog_.feature(b);
  if (!first || !second) return false;
  const auto& rules = catalog_.index().rules();
  const auto* meeting = rules.find(first->kind, second->kind);
  return meeting != nullptr &&
         rules.certain(*meeting, engine::fit::bridge::view(*first), engine::fit::bridge::view(*second));
}

/// What the pieces add to dimensions of the joined parts; nothing when it cannot be said to which.
std::optional<std::vector<AddedLength>> ChainJudge::added_by(const Chain& chain) const {
  std::vector<AddedLength> added;
  for (const Link& link : chain.links)
    for (const std::uint32_t feature : {link.enters, link.leaves})
      for (const auto& [name, value] : catalog_.interface(link.piece, feature).values) {
        if (!name.starts_with(k_adds)) continue;
        const auto onto = target_of(name.substr(k_adds.size()));
        if (!onto) return std::nullopt;
        added.push_back({*onto, value});
      }
  return added;
}

/// The joined features go first, then the only other feature of the two parts that has such a dimension.
std::optional<model::ValueRef> ChainJudge::target_of(const std::string& dimension) const {
  std::vector<model::ValueRef> found;
  for (const model::InterfaceRef* ref : {&joint_.a, &joint_.b})
    if (assembly_.interface(*ref)->values.contains(dimension))
      return model::ValueRef{ref->place, ref->interface, dimension};
  for (const model::InterfaceRef* ref : {&joint_.a, &joint_.b})
    for (const auto& [name, interface] : assembly_.place(ref->place)->part->interfaces)
      if (interface.values.contains(dimension)) found.push_back({ref->place, name, dimension});
  if (found.size() != 1) return std::nullopt;
  return found.front();
}

model::Guards ChainJudge::guards_of(const Chain& chain) const {
  std::string kind = a_.kind;
  for (const Link& link : chain.links) {
    const model::Guards guards = guards_between(kind, catalog_.interface(link.piece, link.enters).kind);
    if (guards != model::Guards::nothing) return guards;
    kind = catalog_.interface(link.piece, link.leaves).kind;
  }
  return guards_between(kind, b_.kind);
}

model::Guards ChainJudge::guards_between(const std::string& kind_a, const std::string& kind_b) const {
  for (const model::Rule& rule : catalog_.meeting(kind_a, kind_b)->rules)
    if (rule.guards != model::Guards::nothing) return rule.guards;
  return model::Guards::nothing;
}

}  // namespace cotter::plan
