#include "problem/bridge_problem.hpp"

#include "problem/names.hpp"
#include "quantity/text.hpp"

namespace cotter::problem {
namespace {

using document::Node;
using engine::fit::bridge::Chain;
using engine::fit::bridge::Joint;
using engine::fit::bridge::Reason;
using engine::fit::bridge::Result;
using engine::fit::bridge::RuleState;
using engine::fit::bridge::Status;

std::string word_for(Status status) {
  if (status == Status::found) return "found";
  return status == Status::none ? "none" : "unfinished";
}

std::string word_for(Reason reason) {
  switch (reason) {
    case Reason::start_meets_nothing:
      return "start_meets_nothing";
    case Reason::goal_meets_nothing:
      return "goal_meets_nothing";
    case Reason::too_many_pieces:
      return "too_many_pieces";
    case Reason::all_refused:
    case Reason::nothing:
      break;
  }
  return "nothing";
}

Node joint_node(const Joint& joint) {
  Node node = Node::map();
  node.set("certainty", certainty_node(joint.certainty)).set("attested", Node::boolean(joint.attested));
  Node rules = Node::list();
  for (const RuleState& state : joint.rules) {
    Node rule = Node::map();
    rule.set("certainty", certainty_node(state.certainty));
    if (state.margin) {
      const bool length = state.dimension == quantity::Dimension::length;
      rule.set("margin", Node::text(quantity::print_amount(*state.margin, state.dimension)));
      rule.set(length ? "margin_nm" : "margin_base", Node::integer(*state.margin));
    }
    rules.push(std::move(rule));
  }
  node.set("rules", std::move(rules));
  return node;
}

Node chain_node(const BridgeProblem& problem, const Chain& chain) {
  Node node = Node::map();
  node.set("cost", Node::integer(chain.cost)).set("certain", Node::boolean(chain.certain));
  Node links = Node::list();
  for (const auto& link : chain.links)
    links.push(Node::map()
                   .set("piece", Node::text(problem.piece_ids[link.piece]))
                   .set("enters", Node::text(problem.feature_names[link.piece][link.enters]))
                   .set("leaves", Node::text(problem.feature_names[link.piece][link.leaves])));
  node.set("links", std::move(links));
  Node joints = Node::list();
  for (const Joint& joint : chain.joints) joints.push(joint_node(joint));
  node.set("joints", std::move(joints));
  return node;
}

}  // namespace

document::Read<Node> solve_bridge(const Node& problem, const std::string& file) {
  const auto read = read_bridge(problem, file);
  if (!read) return tl::unexpected(read.error());
  engine::fit::bridge::Catalog catalog(read->kinds, read->meetings);
  for (const auto& piece : read->pieces) catalog.add(piece);
  const engine::fit::bridge::Index index(std::move(catalog));
  std::vector<Chain> chains;
  const auto wanted = static_cast<std::size_t>(read->options.most_proposals);
  const Result result = engine::fit::bridge::solve(
      index, read->query,
      [&](const Chain& chain) {
        chains.push_back(chain);
        return chains.size() == wanted;
      },
      read->options);
  Node node = Node::map();
  node.set("engine", Node::text("bridge"));
  node.set("status", Node::text(chains.empty() ? word_for(result.status) : "found"));
  node.set("complete", Node::boolean(result.status != Status::unfinished));
  node.set("reason", Node::text(word_for(result.reason)));
  Node list = Node::list();
  for (const Chain& chain : chains) list.push(chain_node(*read, chain));
  node.set("chains", std::move(list));
  Node proof = Node::map();
  proof.set("settled", Node::integer(result.proof.settled)).set("candidates", Node::integer(result.proof.candidates));
  if (result.proof.least_left) proof.set("least_left", Node::integer(*result.proof.least_left));
  node.set("proof", std::move(proof));
  return node;
}

}  // namespace cotter::problem
