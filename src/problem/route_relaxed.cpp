// Relief of a route problem from its document, and what had to give way as one.
#include "engine/route/solve_relaxed.hpp"
#include "problem/route_problem.hpp"

namespace cotter::problem {

namespace {

using document::Node;
using engine::route::RelaxedResult;
using engine::route::Relief;

/// A cost, or none for -1 and where it is left out.
std::optional<std::int64_t> cost_in(const Node& relax, std::string_view key) {
  const std::int64_t cost = document::integer_or(relax, key, -1);
  return cost < 0 ? std::nullopt : std::optional(cost);
}

Relief read_relief(const Node& document) {
  Relief relief;
  for (const Node& aperture : document.find("apertures")->items()) {
    relief.apertures.emplace_back();
    const Node* relax = aperture.find("relax");
    const auto extra_cost = relax ? cost_in(*relax, "extra_cost") : std::nullopt;
    if (extra_cost) {
      relief.apertures.back().extra_cost = *extra_cost;
      relief.apertures.back().extra_steps = static_cast<int>(document::integer_or(*relax, "extra_steps", 0));
    }
    if (relax) relief.apertures.back().share_cost = cost_in(*relax, "share_cost");
  }
  for (const Node& line : document.find("lines")->items()) {
    const Node* relax = line.find("relax");
    relief.lines.emplace_back();
    if (relax) relief.lines.back() = {cost_in(*relax, "drop_cost"), cost_in(*relax, "length_cost")};
  }
  return relief;
}

Node numbers(const std::vector<int>& list) {
  Node node = Node::list();
  for (const int number : list) node.push(Node::integer(number));
  return node;
}

Node write_relaxed(const RelaxedResult& result, const std::string& name, const std::string& source) {
  Node node = Node::map();
  node.set("engine", Node::text("route"));
  node.set("instance", Node::text(name));
  node.set("status", Node::text(std::string(word_for(result.status))));
  node.set("nodes", Node::integer(result.nodes));
  node.set("relax_cost", result.relax_cost ? Node::integer(*result.relax_cost) : Node::null());
  if (!result.relax_cost) return node;
  node.set("objective", result.plan.objective ? Node::integer(*result.plan.objective) : Node::null());
  node.set("dropped", numbers(result.dropped));
  node.set("length_waived", numbers(result.waived));
  node.set("shared_exclusive", numbers(result.shared));
  node.set("extra_steps", numbers(result.extra_steps));
  node.set("plan_when_granted", write_route(result.granted, result.plan, source));
  return node;
}

}  // namespace

Node solve_route_relaxed(const Node& document, const engine::route::Problem& problem,
                         const engine::route::Options& options, const std::string& source) {
  return write_relaxed(engine::route::solve_relaxed(problem, read_relief(document), options), problem.name, source);
}

}  // namespace cotter::problem
