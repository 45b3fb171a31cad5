#pragma once
// The tree of questions: depth first, with the bound re-tuned at every node; what fails is shrunk to a nogood, and the
// search jumps back to where that nogood says something new.

#include <cstdint>
#include <functional>
#include <vector>

#include "engine/route/branching.hpp"
#include "engine/route/columns.hpp"
#include "engine/route/multipliers.hpp"
#include "engine/route/propagation.hpp"

namespace cotter::engine::route {

/// What a node may spend on its bound, and when to start over.
struct TreeOptions {
  int rounds = 0;         ///< of tuning at each node
  bool restarts = false;  ///< start over, with all nogoods kept, at growing numbers of conflicts
  std::int64_t node_limit = 0;
};

class Tree {
 public:
  enum class End { exhausted, stopped, limit };
  /// What to do with domains in which everything is decided. May lower `target`. Returns true to stop the search.
  using Leaf = std::function<bool(const Domains& domains, std::int64_t& target)>;

  Tree(Propagation& propagation, Multipliers& multipliers, Branching& branching, TreeOptions options);

  /// Searches below `root`, which must be settled, for leaves with a bound below `target` (thousandths).
  End run(Domains root, std::int64_t target, const Leaf& leaf);

  std::int64_t nodes() const { return nodes_; }

 private:
  bool settle(Domains& domains, int rounds);
  bool prune(Domains& domains);
  bool contradicts(const std::vector<Literal>& decisions);
  std::vector<Literal> shrunk();
  bool back_out();
  bool jump_back(const std::vector<Literal>& nogood);
  bool decide(Literal literal);

  Propagation& propagation_;
  Multipliers& multipliers_;
  Branching& branching_;
  TreeOptions options_;
  std::int64_t target_ = 0;
  std::int64_t nodes_ = 0;
  std::int64_t conflicts_ = 0;
  std::vector<Domains> levels_;  ///< the root, then one for each decision; slots are kept for reuse
  std::vector<Literal> decisions_;
  Domains trial_;
};

}  // namespace cotter::engine::route
