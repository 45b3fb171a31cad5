#pragma once
// Whether a chain of adapters is an answer at all: the stacks allow what it adds, its other features find their places,
// and it asks of both ends what the rule it answers asked. Inside of this folder.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "model/finding.hpp"
#include "plan/assembly.hpp"
#include "plan/bridge/bridge_problem.hpp"
#include "plan/stack/added_lengths.hpp"

namespace cotter::plan {

class ChainJudge {
 public:
  using Chain = engine::fit::bridge::Chain;
  using Link = engine::fit::bridge::Link;
  using Facts = std::vector<std::pair<std::string, std::string>>;
  /// A chain that will not do, and why.
  struct Refusal {
    Chain chain;
    Facts why;
  };

  /// All of them must outlive this; both features of the joint must be stated.
  ChainJudge(const Assembly& assembly, const BridgeCatalog& catalog, const model::JointForm& joint);

  /// Whether the stacks and the adapters' other features allow the chain. Keeps the first refusal, and what stays open
  /// about the chain that was accepted.
  bool accepts(const Chain& chain);
  const std::optional<Refusal>& refusal() const { return refusal_; }
  const std::optional<Facts>& doubt() const { return doubt_; }

  /// Whether the chain asks of both ends all that the finding's rule reads of them: a plate for a larger rotor says
  /// nothing of a worn one.
  bool covers(const Chain& chain, const model::Finding& finding) const;
  /// The first guard that any joint of the chain carries.
  model::Guards guards_of(const Chain& chain) const;

 private:
  using Side = model::OperandRef::Side;
  bool reads_as_much(const model::Rule& rule, Side side, const model::Interface& end,
                     const model::Interface& adapter) const;
  void refuse(const Chain& chain, Facts why);
  bool other_joins_fit(const Link& link) const;
  bool fits_somewhere(const model::Interface& one, const model::Interface& two) const;
  bool mate(const model::Interface& a, const model::Interface& b) const;
  std::optional<std::vector<AddedLength>> added_by(const Chain& chain) const;
  std::optional<model::ValueRef> target_of(const std::string& dimension) const;
  model::Guards guards_between(const std::string& kind_a, const std::string& kind_b) const;

  const Assembly& assembly_;
  const BridgeCatalog& catalog_;
  const model::JointForm& joint_;
  const model::Interface& a_;
  const model::Interface& b_;
  std::optional<Refusal> refusal_;  ///< of the cheapest
  std::optional<Facts> doubt_;
};

}  // namespace cotter::plan
