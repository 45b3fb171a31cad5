#include "engine/route/search.hpp"

#include <algorithm>
#include <utility>

#include "engine/route/branching.hpp"
#include "engine/route/insertion.hpp"
#include "engine/route/multipliers.hpp"
#include "engine/route/propagation.hpp"
#include "engine/route/tree.hpp"

namespace cotter::engine::route {

namespace {

constexpr int k_rounds_before_insertion = 12;
constexpr int k_insertions = 3;
constexpr int k_rounds_at_the_root = 60;
constexpr int k_rounds_of_doubt = 60;
constexpr int k_rounds_at_a_node = 6;
constexpr int k_rounds_in_doubt = 3;
/// Where nothing costs anything, a bound of this much says that there is no plan.
constexpr std::int64_t k_no_plan = 1;

/// A bound, in thousandths, that only plans which are not cheaper reach.
std::int64_t target_of(const Plan& plan) {
  return (plan.cost - 1) * k_price_unit + 1;
}

std::int64_t up_to_whole(std::int64_t thousandths) {
  return thousandths > 0 ? (thousandths + k_price_unit - 1) / k_price_unit : -(-thousandths / k_price_unit);
}

class Search {
 public:
  Search(const Problem& problem, Apertures& apertures, const OpeningCosts& costs, const std::vector<Way>& ways,
         LineSet lines, Aim aim, std::int64_t node_limit)
      : apertures_(apertures),
        costs_(costs),
        columns_(problem, ways, lines),
        aim_(aim),
        node_limit_(node_limit),
        priced_choice_(problem, apertures, costs, k_price_unit),
        free_choice_(problem, apertures, costs, 0),
        propagation_(columns_, priced_choice_),
        prices_(columns_, priced_choice_, k_price_unit),
        doubts_(columns_, free_choice_, 0),
        branching_(columns_, propagation_.variables()) {}

  SearchOutcome run() {
    outcome_.nodes = 1;
    outcome_.complete = true;
    for (const int line : listed(columns_.lines()))
      if (columns_.words(line).size() == 0) return std::move(outcome_);
    Domains root = propagation_.everything();
    if (!propagation_.settle(root)) return std::move(outcome_);
    insert(root);
    if (!outcome_.plan) outcome_.complete = find_any(root);
    if (outcome_.plan && aim_ == Aim::best_plan) outcome_.complete = prove_best(root);
    return std::move(outcome_);
  }

 private:
  /// First plans from prices that get better.
  void insert(const Domains& root) {
    for (int i = 0; i < k_insertions && !(outcome_.plan && aim_ == Aim::any_plan); ++i) {
      const std::int64_t bound = prices_.bound(root);
      const std::int64_t goal = outcome_.plan ? target_of(*outcome_.plan) : bound + std::max(bound / 20, k_price_unit);
      raise(prices_.tune(root, k_rounds_before_insertion, goal));
      if (outcome_.plan && outcome_.bound >= outcome_.plan->cost) return;
      if (const auto leaf = insert_lines(columns_, propagation_, prices_, root)) keep(*leaf);
    }
  }

  void raise(std::int64_t bound) { outcome_.bound = std::max(outcome_.bound, up_to_whole(bound)); }

  /// Any plan at all; false when the limit cut it short.
  bool find_any(const Domains& root) {
    if (doubts_.tune(root, k_rounds_of_doubt, k_no_plan) >= k_no_plan) return true;
    Tree tree(propagation_, doubts_, branching_,
              {.rounds = k_rounds_in_doubt, .restarts = true, .node_limit = node_limit_});
    const Tree::End end = tree.run(root, k_no_plan, [&](const Domains& leaf, std::int64_t&) {
      keep(leaf);
      return outcome_.plan.has_value();
    });
    outcome_.nodes += tree.nodes();
    return end != Tree::End::limit;
  }

  bool prove_best(Domains root) {
    const std::int64_t target = target_of(*outcome_.plan);
    raise(prices_.tune(root, k_rounds_at_the_root, target));
    if (outcome_.bound >= outcome_.plan->cost) return true;
    Tree tree(propagation_, prices_, branching_,
              {.rounds = k_rounds_at_a_node, .restarts = false, .node_limit = node_limit_ - outcome_.nodes});
    const Tree::End end = tree.run(std::move(root), target, [&](const Domains& leaf, std::int64_t& lowered) {
      keep(leaf);
      lowered = target_of(*outcome_.plan);
      return false;
    });
    outcome_.nodes += tree.nodes();
    return end != Tree::End::limit;
  }

  void keep(const Domains& domains) {
    auto plan = plan_of(columns_, apertures_, costs_, domains);
    if (!plan) return;
    Plan improved = *plan;
    reinsert_lines(columns_, priced_choice_, improved);
    const auto better = finish_plan(columns_, apertures_, costs_, std::move(improved));
    if (better && better->cost < plan->cost) plan = better;
    if (!outcome_.plan || plan->cost < outcome_.plan->cost) outcome_.plan = std::move(plan);
  }

  Apertures& apertures_;
  const OpeningCosts& costs_;
  Columns columns_;
  Aim aim_;
  std::int64_t node_limit_;
  ApertureChoice priced_choice_;
  ApertureChoice free_choice_;
  Propagation propagation_;
  Multipliers prices_;
  Multipliers doubts_;  ///< prices where nothing else costs anything
  Branching branching_;
  SearchOutcome outcome_;
};

}  // namespace

SearchOutcome search(const Problem& problem, Apertures& apertures, const OpeningCosts& costs,
                     const std::vector<Way>& ways, LineSet lines, Aim aim, std::int64_t node_limit) {
  return Search(problem, apertures, costs, ways, lines, aim, node_limit).run();
}

}  // namespace cotter::engine::route
