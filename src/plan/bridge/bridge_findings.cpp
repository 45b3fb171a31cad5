#include "plan/bridge/bridge_findings.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "plan/bridge/bridge_problem.hpp"
#include "plan/finding_parts.hpp"
#include "plan/stack/added_lengths.hpp"

namespace cotter::plan {
namespace {

using engine::fit::bridge::Chain;
using engine::fit::bridge::Feature;
using engine::fit::bridge::Link;
using engine::fit::bridge::Result;
using engine::fit::bridge::Status;
using model::Finding;
using model::Verdict;
using quantity::Certainty;

/// An adapter's dimension `adds_x` comes on top of the joined feature's dimension `x` in the stacks.
constexpr std::string_view k_adds = "adds_";

bool is_about(const Finding& finding, const Assembly& assembly, const model::JointForm& joint) {
  return finding.about.size() == 2 && finding.about[0] == assembly.in_job_names(joint.a) &&
         finding.about[1] == assembly.in_job_names(joint.b);
}

/// Why a chain was refused, or is open.
using Facts = std::vector<std::pair<std::string, std::string>>;

class BridgeAdapter {
 public:
  BridgeAdapter(const Assembly& assembly, const BridgeCatalog& catalog, const model::JointForm& joint)
      : assembly_(assembly),
        catalog_(catalog),
        joint_(joint),
        a_(*assembly.interface(joint.a)),
        b_(*assembly.interface(joint.b)) {}

  void propose(const std::vector<Finding*>& stops) {
    const auto start = catalog_.feature(a_);
    const auto goal = catalog_.feature(b_);
    if (!start || !goal) return;
    const Result result =
        engine::fit::bridge::solve(catalog_.index(), {*start, *goal, {}, k_most_bridge_pieces},
                                   [&](const Chain& chain) { return accepts(chain); }, {k_most_bridge_proposals});
    for (Finding* finding : stops) {
      if (result.chain && !covers(*result.chain, *finding)) continue;
      if (result.chain)
        put_proposal(*result.chain, result.proposals, *finding);
      else if (refused_ && finding->verdict == Verdict::stop)
        put_refusal(result, *finding);
      else if (result.status == Status::none && finding->verdict == Verdict::stop)
        finding->facts.push_back({"bridge.none", ""});
    }
  }

 private:
  using Side = model::OperandRef::Side;

  /// Whether the chain asks of both ends all that the finding's rule reads of them: a plate for a larger rotor says
  /// nothing of a worn one.
  bool covers(const Chain& chain, const Finding& finding) const {
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

  static std::vector<std::string> read_by(const model::Rule& rule, Side side) {
    std::vector<std::string> names;
    for (const auto& [role, operand] : rule.operands)
      if (operand.side == side) names.push_back(operand.dimension);
    for (const auto& [role, words] : rule.words) names.push_back(side == Side::own ? words.first : words.second);
    return names;
  }

  bool reads_as_much(const model::Rule& rule, Side side, const model::Interface& end,
                     const model::Interface& adapter) const {
    const model::MeetingRef meeting = model::find_meeting(assembly_.catalog(), end.kind, adapter.kind);
    std::vector<std::string> asked;
    for (const model::Rule& one : meeting.meeting->rules)
      for (std::string& name : read_by(one, meeting.swapped ? Side::other : Side::own))
        asked.push_back(std::move(name));
    const std::vector<std::string> wanted = read_by(rule, side);
    return std::all_of(wanted.begin(), wanted.end(), [&](const std::string& name) {
      return std::find(asked.begin(), asked.end(), name) != asked.end();
    });
  }

  /// Whether the stacks and the adapters' other features allow the chain. Keeps the reason.
  bool accepts(const Chain& chain) {
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
      doubt_ = Facts{{"bridge.open_length", ""}, {"what", chain_text(chain)}};
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

  void refuse(const Chain& chain, Facts why) {
    if (refused_) return;
    refused_ = chain;
    refused_why_ = std::move(why);
  }

  /// A plate that joins two pairs must find a place for both.
  bool other_joins_fit(const Link& link) const {
    const model::Part& part = catalog_.part(link.piece);
    const std::string& enters = catalog_.interface(link.piece, link.enters).id;
    const std::string& leaves = catalog_.interface(link.piece, link.leaves).id;
    return std::all_of(part.joins.begin(), part.joins.end(), [&](const model::Join& join) {
      const bool used = (join.a == enters && join.b == leaves) || (join.b == enters && join.a == leaves);
      return used || fits_somewhere(part.interfaces.at(join.a), part.interfaces.at(join.b));
    });
  }

  /// Only joints of the same two places, or next to them: a front plate is no answer to a rear mount.
  bool fits_somewhere(const model::Interface& one, const model::Interface& two) const {
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

  bool mate(const model::Interface& a, const model::Interface& b) const {
    const auto first = catalog_.feature(a);
    const auto second = catalog_.feature(b);
    if (!first || !second) return false;
    const auto& rules = catalog_.index().rules();
    const auto* meeting = rules.find(first->kind, second->kind);
    return meeting != nullptr &&
           rules.certain(*meeting, engine::fit::bridge::view(*first), engine::fit::bridge::view(*second));
  }

  /// What the pieces add to dimensions of the joined parts; nothing when it cannot be said to which.
  std::optional<std::vector<AddedLength>> added_by(const Chain& chain) const {
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
  std::optional<model::ValueRef> target_of(const std::string& dimension) const {
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

  std::string chain_text(const Chain& chain) const {
    std::string text;
    for (const Link& link : chain.links) text += (text.empty() ? "" : " + ") + catalog_.part(link.piece).label;
    return text;
  }

  std::string price_text(const Chain& chain) const {
    const std::string& currency = catalog_.part(chain.links.front().piece).price->currency;
    return fmt::format("{}.{:02} {}", chain.cost / 100, chain.cost % 100, currency);
  }

  void put_chain(const std::string& key, const Chain& chain, std::int64_t proposals, Finding& finding) const {
    finding.facts.push_back({key, ""});
    finding.facts.push_back({"chain", chain_text(chain)});
    finding.facts.push_back({"price", price_text(chain)});
    finding.facts.push_back({"proposals", std::to_string(proposals)});
  }

  void put_refusal(const Result& result, Finding& finding) const {
    put_chain("bridge.refused", *refused_, result.proposals, finding);
    finding.facts.insert(finding.facts.end(), refused_why_.begin(), refused_why_.end());
  }

  /// Where a piece goes: what is before it and what behind.
  std::string where(const Chain& chain, std::size_t i) const {
    const std::string before = i == 0 ? assembly_.label(joint_.a) : catalog_.part(chain.links[i - 1].piece).label;
    const std::string behind =
        i + 1 == chain.links.size() ? assembly_.label(joint_.b) : catalog_.part(chain.links[i + 1].piece).label;
    return fmt::format("between ({}) and ({})", before, behind);
  }

  void put_proposal(const Chain& chain, std::int64_t proposals, Finding& finding) const {
    finding.mismatches.clear();  // what differs is what the chain takes up; the values stay in the working
    finding.additions.clear();   // what the rule named only by its kind
    if (finding.guards == model::Guards::nothing) finding.guards = guards_of(chain);
    const bool guarded = finding.guards != model::Guards::nothing || guards_of(chain) != model::Guards::nothing;
    const bool attested = std::all_of(chain.joints.begin(), chain.joints.end(),
                                      [](const engine::fit::bridge::Joint& joint) { return joint.attested; });
    const bool open = !chain.certain || doubt_.has_value();
    finding.verdict = open || (guarded && !attested) ? Verdict::measure : Verdict::add;
    put_chain("bridge.proposal", chain, proposals, finding);
    if (!chain.certain) finding.facts.push_back({"bridge.open_joint", ""});
    if (doubt_) finding.facts.insert(finding.facts.end(), doubt_->begin(), doubt_->end());
    if (guarded && (is_composite(joint_.a) || is_composite(joint_.b)))
      finding.facts.push_back({"bridge.composite", ""});
    for (std::size_t i = 0; i < chain.links.size(); ++i) {
      const model::Part& part = catalog_.part(chain.links[i].piece);
      finding.additions.push_back({part.label, part.id, 1, "", where(chain, i), false, part.price, true});
    }
    finding.rests_on.clear();
    finding.measurements.clear();
    for (const Link& link : chain.links) put_adapter(link, finding);
    put_end(chain.joints.front(), joint_.a, catalog_.interface(chain.links.front().piece, chain.links.front().enters),
            finding);
    put_end(chain.joints.back(), joint_.b, catalog_.interface(chain.links.back().piece, chain.links.back().leaves),
            finding);
  }

  bool is_composite(const model::InterfaceRef& ref) const {
    return assembly_.place(ref.place)->part->material == model::Material::composite;
  }

  /// The first guard that any joint of the chain carries.
  model::Guards guards_of(const Chain& chain) const {
    std::string kind = a_.kind;
    for (const Link& link : chain.links) {
      const model::Guards guards = guards_between(kind, catalog_.interface(link.piece, link.enters).kind);
      if (guards != model::Guards::nothing) return guards;
      kind = catalog_.interface(link.piece, link.leaves).kind;
    }
    return guards_between(kind, b_.kind);
  }

  model::Guards guards_between(const std::string& kind_a, const std::string& kind_b) const {
    for (const model::Rule& rule : catalog_.meeting(kind_a, kind_b)->rules)
      if (rule.guards != model::Guards::nothing) return rule.guards;
    return model::Guards::nothing;
  }

  /// An adapter whose own sizes nobody vouches for.
  void put_adapter(const Link& link, Finding& finding) const {
    for (const std::uint32_t feature : {link.enters, link.leaves})
      for (const auto& [name, value] : catalog_.interface(link.piece, feature).values)
        if (!quantity::is_attested(value)) {
          finding.rests_on.push_back(catalog_.part(link.piece).label + " (" +
                                     std::string(quantity::word_for(value.origin.kind)) + ")");
          return;
        }
  }

  /// What the chain's joint at one end of the job rests on, and what to measure there.
  void put_end(const engine::fit::bridge::Joint& joint, const model::InterfaceRef& ref, const model::Interface& adapter,
               Finding& finding) const {
    if (joint.attested && joint.certainty == Certainty::holds) return;
    const model::Interface& end = *assembly_.interface(ref);
    const model::MeetingRef meeting = model::find_meeting(assembly_.catalog(), end.kind, adapter.kind);
    const auto side = meeting.swapped ? model::OperandRef::Side::other : model::OperandRef::Side::own;
    std::vector<std::string> seen;
    for (const model::Rule& rule : meeting.meeting->rules)
      for (const auto& [role, operand] : rule.operands) {
        const bool again = std::find(seen.begin(), seen.end(), operand.dimension) != seen.end();
        if (operand.side != side || again) continue;
        seen.push_back(operand.dimension);
        put_value(joint, {ref.place, ref.interface, operand.dimension}, role, finding);
      }
  }

  void put_value(const engine::fit::bridge::Joint& joint, const model::ValueRef& ref, const std::string& role,
                 Finding& finding) const {
    const auto found = assembly_.value(ref);
    if (!found) {
      if (const auto unstated = assembly_.unstated(ref))
        finding.measurements.push_back(measurement_of(assembly_, *unstated));
      return;
    }
    const bool attested = quantity::is_attested(*found->value);
    if (!attested)
      for (std::string& label : unattested_labels({named(role, *found)})) finding.rests_on.push_back(std::move(label));
    if (finding.verdict == Verdict::measure && (!attested || joint.certainty == Certainty::open))
      finding.measurements.push_back(measurement_of(assembly_, *found));
  }

  const Assembly& assembly_;
  const BridgeCatalog& catalog_;
  const model::JointForm& joint_;
  const model::Interface& a_;
  const model::Interface& b_;
  std::optional<Chain> refused_;  ///< the cheapest of them
  Facts refused_why_;
  std::optional<Facts> doubt_;  ///< about the chain that was accepted
};

}  // namespace

namespace {

/// A stop, or an addition that the rule names only by its kind.
bool wants_a_bridge(const Finding& finding) {
  if (finding.verdict == Verdict::stop) return true;
  return finding.verdict == Verdict::add && finding.law != "stack" &&
         std::all_of(finding.additions.begin(), finding.additions.end(),
                     [](const model::Addition& addition) { return addition.id.empty(); });
}

}  // namespace

void propose_bridges(const Assembly& assembly, std::vector<Finding>& findings) {
  std::optional<BridgeCatalog> catalog;
  for (const model::JointForm& joint : assembly.joints()) {
    if (assembly.interface(joint.a) == nullptr || assembly.interface(joint.b) == nullptr) continue;
    std::vector<Finding*> stops;
    for (Finding& finding : findings)
      if (wants_a_bridge(finding) && is_about(finding, assembly, joint)) stops.push_back(&finding);
    if (stops.empty()) continue;
    if (!catalog) catalog.emplace(assembly.catalog());
    BridgeAdapter(assembly, *catalog, joint).propose(stops);
  }
}

}  // namespace cotter::plan
