#include "plan/bridge/bridge_findings.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "plan/bridge/chain_judge.hpp"
#include "plan/finding_parts.hpp"

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

bool is_about(const Finding& finding, const Assembly& assembly, const model::JointForm& joint) {
  return finding.about.size() == 2 && finding.about[0] == assembly.in_job_names(joint.a) &&
         finding.about[1] == assembly.in_job_names(joint.b);
}

class BridgeAdapter {
 public:
  BridgeAdapter(const Assembly& assembly, const BridgeCatalog& catalog, const model::JointForm& joint)
      : assembly_(assembly),
        catalog_(catalog),
        joint_(joint),
        a_(*assembly.interface(joint.a)),
        b_(*assembly.interface(joint.b)),
        judge_(assembly, catalog, joint) {}

  void propose(const std::vector<Finding*>& stops) {
    const auto start = catalog_.feature(a_);
    const auto goal = catalog_.feature(b_);
    if (!start || !goal) return;
    const Result result = engine::fit::bridge::solve(catalog_.index(), {*start, *goal, {}, k_most_bridge_pieces},
                                                     [&](const Chain& chain) { return judge_.accepts(chain); },
                                                     {k_most_bridge_proposals});
    for (Finding* finding : stops) {
      if (result.chain && !judge_.covers(*result.chain, *finding)) continue;
      if (result.chain)
        put_proposal(*result.chain, result.proposals, *finding);
      else if (judge_.refusal() && finding->verdict == Verdict::stop)
        put_refusal(result, *finding);
      else if (result.status == Status::none && finding->verdict == Verdict::stop)
        finding->facts.push_back({"bridge.none", ""});
    }
  }

 private:
  std::string price_text(const Chain& chain) const {
    const std::string& currency = catalog_.part(chain.links.front().piece).price->currency;
    return fmt::format("{}.{:02} {}", chain.cost / 100, chain.cost % 100, currency);
  }

  void put_chain(const std::string& key, const Chain& chain, std::int64_t proposals, Finding& finding) const {
    finding.facts.push_back({key, ""});
    finding.facts.push_back({"chain", catalog_.label(chain)});
    finding.facts.push_back({"price", price_text(chain)});
    finding.facts.push_back({"proposals", std::to_string(proposals)});
  }

  void put_refusal(const Result& result, Finding& finding) const {
    const ChainJudge::Refusal& refusal = *judge_.refusal();
    put_chain("bridge.refused", refusal.chain, result.proposals, finding);
    finding.facts.insert(finding.facts.end(), refusal.why.begin(), refusal.why.end());
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
    if (finding.guards == model::Guards::nothing) finding.guards = judge_.guards_of(chain);
    const bool guarded = finding.guards != model::Guards::nothing || judge_.guards_of(chain) != model::Guards::nothing;
    const bool attested = std::all_of(chain.joints.begin(), chain.joints.end(),
                                      [](const engine::fit::bridge::Joint& joint) { return joint.attested; });
    const bool open = !chain.certain || judge_.doubt().has_value();
    // Sizes alone do not say that a composite part bears the piece, or that a brake may hang on it: their makers do.
    const bool composite = guarded && (may_be_composite(joint_.a) || may_be_composite(joint_.b));
    const bool brake = finding.guards == model::Guards::brake || judge_.guards_of(chain) == model::Guards::brake;
    finding.verdict = open || composite || brake || (guarded && !attested) ? Verdict::measure : Verdict::add;
    put_chain("bridge.proposal", chain, proposals, finding);
    if (!chain.certain) finding.facts.push_back({"bridge.open_joint", ""});
    if (const auto& doubt = judge_.doubt()) finding.facts.insert(finding.facts.end(), doubt->begin(), doubt->end());
    if (composite) finding.facts.push_back({"bridge.composite", ""});
    if (brake) finding.facts.push_back({"bridge.brake", ""});
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

  /// What nobody states the material of may be composite.
  bool may_be_composite(const model::InterfaceRef& ref) const {
    const model::Part& part = *assembly_.place(ref.place)->part;
    return part.material == model::Material::composite || part.material == model::Material::unknown ||
           has_composite_feature(part);
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
  ChainJudge judge_;
};

/// A stop, or an addition that the rule names only by its kind. Of the joint itself: a length that does not come out is
/// no matter of what stands between two features, even where only these two make it up.
bool wants_a_bridge(const Finding& finding) {
  if (finding.law == "stack") return false;
  if (finding.verdict == Verdict::stop) return true;
  return finding.verdict == Verdict::add &&
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
