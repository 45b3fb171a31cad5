#include "plan/bridge/bridge_problem.hpp"

#include <algorithm>

#include "plan/fit/fit_check.hpp"
#include "quantity/ensure.hpp"

namespace cotter::plan {
namespace {

using engine::fit::bridge::Amount;
using engine::fit::bridge::Feature;
using engine::fit::bridge::Kind;
using engine::fit::bridge::Meeting;
using engine::fit::bridge::Piece;
using engine::fit::bridge::Rule;
using engine::fit::bridge::RuleOperand;

template <class List>
std::uint32_t number_of(const List& list, const std::string& id) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const auto& one) { return one.id == id; });
  quantity::ensure(found != list.end(), "a rule names what its kind does not have");
  return static_cast<std::uint32_t>(found - list.begin());
}

Rule rule_of(const model::Rule& rule, const model::InterfaceKind& own, const model::InterfaceKind& other) {
  Rule out;
  out.law = *engine::fit::law_from_word(rule.law);
  out.must = window_of(rule.must);
  for (const auto& [role, ref] : rule.operands) {
    using Side = model::OperandRef::Side;
    RuleOperand operand;
    operand.role = role;
    if (ref.side == Side::fixed) {
      operand.side = RuleOperand::Side::fixed;
      operand.fixed = ref.fixed.nominal;
      operand.fixed_dimension = ref.fixed.dimension;
    } else {
      operand.side = ref.side == Side::own ? RuleOperand::Side::own : RuleOperand::Side::other;
      operand.dimension = number_of((ref.side == Side::own ? own : other).dimensions, ref.dimension);
    }
    out.operands.push_back(std::move(operand));
  }
  for (const auto& [role, words] : rule.words)
    out.words.push_back({role, number_of(own.words, words.first), number_of(other.words, words.second)});
  return out;
}

Amount amount_of(const quantity::Value& value) {
  Amount amount{value.range().low().base(), value.range().high().base()};
  amount.attested = quantity::is_attested(value);
  amount.known = value.origin.kind != quantity::OriginKind::unknown;
  return amount;
}

/// Only what costs money can be compared; a part without a price is never a proposal.
bool is_adapter(const model::Part& part) {
  return !part.joins.empty() && part.price.has_value() && part.price->hundredths >= 0 && !part.used;
}

}  // namespace

BridgeCatalog::BridgeCatalog(const model::Catalog& catalog) : catalog_(catalog) {
  std::vector<Kind> kinds;
  for (const auto& [id, kind] : catalog.kinds) {
    kinds_.emplace(id, static_cast<std::uint32_t>(kinds.size()));
    Kind& out = kinds.emplace_back();
    for (const model::KindDimension& dimension : kind.dimensions) out.dimensions.push_back(dimension.dimension);
    out.words = static_cast<std::uint32_t>(kind.words.size());
    for (const model::KindWord& word : kind.words)
      for (const std::string& accepted : word.accepted)
        words_.emplace(accepted, static_cast<std::uint32_t>(words_.size() + 1));
  }
  engine::fit::bridge::Catalog pieces(std::move(kinds), meetings());
  for (const auto& [id, part] : catalog.parts) {
    if (!is_adapter(part)) continue;
    Piece piece;
    piece.cost = part.price->hundredths;
    std::vector<const model::Interface*>& interfaces = interfaces_.emplace_back();
    std::map<std::string, std::uint32_t> numbers;
    for (const auto& [name, interface] : part.interfaces) {
      auto out = feature(interface);
      if (!out) continue;
      numbers.emplace(name, static_cast<std::uint32_t>(piece.features.size()));
      piece.features.push_back(*std::move(out));
      interfaces.push_back(&interface);
    }
    for (const model::Join& join : part.joins) piece.links.emplace_back(numbers.at(join.a), numbers.at(join.b));
    pieces.add(piece);
    parts_.push_back(&part);
  }
  index_ = std::make_unique<engine::fit::bridge::Index>(std::move(pieces));
}

const model::Interface& BridgeCatalog::interface(std::uint32_t piece, std::uint32_t feature) const {
  return *interfaces_[piece][feature];
}

std::string BridgeCatalog::label(const engine::fit::bridge::Chain& chain) const {
  std::string text;
  for (const engine::fit::bridge::Link& link : chain.links)
    text += (text.empty() ? "" : " + ") + part(link.piece).label;
  return text;
}

/// Only kinds that some adapter has: no other can be part of a chain but as its ends.
std::vector<Meeting> BridgeCatalog::meetings() const {
  std::vector<std::string> used;
  for (const auto& [id, part] : catalog_.parts)
    if (is_adapter(part))
      for (const auto& [name, interface] : part.interfaces) used.push_back(interface.kind);
  std::sort(used.begin(), used.end());
  const auto in_use = [&](const std::string& id) { return std::binary_search(used.begin(), used.end(), id); };
  std::vector<Meeting> out;
  for (const auto& [id, kind] : catalog_.kinds)
    for (const model::Meeting& meeting : kind.meets) {
      const auto other = catalog_.kinds.find(meeting.kind);
      // A kind that meets itself has no own side to hold a rule by.
      if (other == catalog_.kinds.end() || id == meeting.kind || (!in_use(id) && !in_use(meeting.kind))) continue;
      if (kind.never_bridged || other->second.never_bridged) continue;
      Meeting made{kinds_.at(id), kinds_.at(meeting.kind), {}};
      for (const model::Rule& rule : meeting.rules) made.rules.push_back(rule_of(rule, kind, other->second));
      out.push_back(std::move(made));
    }
  return out;
}

std::uint32_t BridgeCatalog::word_number(const std::string& word) const {
  const auto found = words_.find(word);
  return found == words_.end() ? 0 : found->second;
}

std::optional<Feature> BridgeCatalog::feature(const model::Interface& interface) const {
  const auto number = kinds_.find(interface.kind);
  if (number == kinds_.end()) return std::nullopt;
  const model::InterfaceKind& kind = catalog_.kinds.at(interface.kind);
  if (kind.never_bridged) return std::nullopt;
  Feature out;
  out.kind = number->second;
  for (const model::KindDimension& dimension : kind.dimensions) {
    const auto value = interface.values.find(dimension.id);
    out.amounts.push_back(value == interface.values.end() ? Amount{} : amount_of(value->second));
  }
  for (const model::KindWord& word : kind.words) {
    const auto found = interface.words.find(word.id);
    out.words.push_back(found == interface.words.end() ? 0 : word_number(found->second));
  }
  return out;
}

const model::Meeting* BridgeCatalog::meeting(const std::string& kind_a, const std::string& kind_b) const {
  return model::find_meeting(catalog_, kind_a, kind_b).meeting;
}

}  // namespace cotter::plan
