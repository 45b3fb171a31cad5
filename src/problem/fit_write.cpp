#include "problem/fit_write.hpp"

#include "problem/names.hpp"
#include "quantity/text.hpp"

namespace cotter::problem {
namespace {

using document::Node;
using engine::fit::Edge;
using engine::fit::k_open_end;
using quantity::Certainty;
using quantity::Dimension;
using quantity::Range;

Node optional_range(const std::optional<Range>& range, Dimension dimension) {
  return range ? range_node(*range, dimension) : Node::null();
}

Node texts(const std::vector<std::string>& list) {
  Node node = Node::list();
  for (const std::string& text : list) node.push(Node::text(text));
  return node;
}

Node mismatches(const engine::fit::CheckResult& result) {
  Node list = Node::list();
  for (const engine::fit::Mismatch& mismatch : result.mismatches) {
    Node node = Node::map();
    node.set("role", Node::text(mismatch.role));
    node.set("own", Node::text(mismatch.own));
    node.set("other", Node::text(mismatch.other));
    list.push(std::move(node));
  }
  return list;
}

Node operands(const engine::fit::Check& check) {
  Node map = Node::map();
  for (const engine::fit::Operand& operand : check.operands)
    map.set(operand.role, range_node(operand.range, operand.dimension));
  return map;
}

Dimension dimension_of(const engine::fit::Check& check, const std::string& role) {
  for (const engine::fit::Operand& operand : check.operands)
    if (operand.role == role) return operand.dimension;
  return Dimension::length;
}

Node influences(const engine::fit::Check& check, const engine::fit::CheckResult& result) {
  Node list = Node::list();
  for (const engine::fit::Influence& influence : result.influences) {
    const Dimension dimension = dimension_of(check, influence.role);
    Node node = Node::map();
    node.set("role", Node::text(influence.role));
    node.set("holds", optional_range(influence.holds, dimension));
    node.set("may_hold", optional_range(influence.may_hold, dimension));
    node.set("share", Node::real(influence.share));
    list.push(std::move(node));
  }
  return list;
}

}  // namespace

std::string word_for(Edge edge) {
  if (edge == Edge::none) return "none";
  return edge == Edge::from ? "from" : "to";
}

/// Lengths are counted in nanometres, everything else in its own base unit.
std::string counted(const std::string& name, Dimension dimension) {
  return name + (dimension == Dimension::length ? "_nm" : "_base");
}

/// An end that is not there is left out.
Node range_node(const Range& range, Dimension dimension) {
  Node node = Node::map();
  const auto add = [&](const std::string& name, std::int64_t amount) {
    if (amount <= -k_open_end || amount >= k_open_end) return;
    node.set(name, Node::text(quantity::print_amount(amount, dimension)));
    node.set(counted(name, dimension), Node::integer(amount));
  };
  add("low", range.low().base());
  add("high", range.high().base());
  return node;
}

Node fit_result_node(const engine::fit::Check& check, const engine::fit::CheckResult& result,
                     const std::string& source) {
  Node node = Node::map();
  node.set("id", Node::text(result.id));
  node.set("law", Node::text(std::string(engine::fit::word_for(check.law))));
  node.set("certainty", certainty_node(result.must));
  node.set("should", certainty_node(result.should));
  node.set("formula", Node::text(result.formula));
  if (result.result) node.set("result", range_node(*result.result, result.dimension));
  if (result.governs != Edge::none) {
    node.set("margin", Node::text(quantity::print_amount(result.margin, result.dimension)));
    node.set(counted("margin", result.dimension), Node::integer(result.margin));
  }
  node.set("governs", Node::text(word_for(result.governs)));
  node.set("too_low", Node::boolean(result.too_low));
  node.set("too_high", Node::boolean(result.too_high));
  node.set("mismatches", mismatches(result));
  node.set("unknown_words", texts(result.unknown_words));
  node.set("operands", operands(check));
  if (result.probability) node.set("probability", Node::real(*result.probability));
  node.set("influences", influences(check, result));
  node.set("rests_on", texts(result.rests_on));
  if (!source.empty()) node.set("source", Node::text(source));
  return node;
}

}  // namespace cotter::problem
