#include "engine/route/tree.hpp"

#include <algorithm>
#include <utility>

namespace cotter::engine::route {

namespace {

constexpr std::int64_t k_first_restart = 30;
constexpr double k_restart_growth = 1.3;

}  // namespace

Tree::Tree(Propagation& propagation, Multipliers& multipliers, Branching& branching, TreeOptions options)
    : propagation_(propagation), multipliers_(multipliers), branching_(branching), options_(options) {}

/// Follows consequences and drops what is too dear until nothing changes; false when the bound reaches the target.
bool Tree::prune(Domains& domains) {
  while (true) {
    if (!propagation_.settle(domains)) return false;
    if (multipliers_.bound(domains) >= target_) return false;
    if (!multipliers_.drop_dear(domains, propagation_, target_)) return true;
  }
}

bool Tree::settle(Domains& domains, int rounds) {
  if (!prune(domains)) return false;
  if (rounds == 0) return true;
  if (multipliers_.tune(domains, rounds, target_) >= target_) return false;
  return !multipliers_.drop_dear(domains, propagation_, target_) || prune(domains);
}

bool Tree::contradicts(const std::vector<Literal>& decisions) {
  trial_ = levels_.front();
  for (const Literal literal : decisions) propagation_.assume(trial_, literal);
  return !prune(trial_);
}

/// The decisions that fail together, each needed where that can be shown at the present prices.
std::vector<Literal> Tree::shrunk() {
  std::vector<Literal> nogood = decisions_;
  if (nogood.size() < 2 || !contradicts(nogood)) return nogood;
  for (std::size_t i = nogood.size(); i-- > 0;) {
    std::vector<Literal> rest = nogood;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
    if (contradicts(rest)) nogood = std::move(rest);
  }
  return nogood;
}

/// Goes back to the level before the nogood's last decision but one, and denies the last; false when that fails again.
bool Tree::jump_back(const std::vector<Literal>& nogood) {
  const Literal last = nogood.back();
  std::size_t level = 0;
  if (nogood.size() > 1) {
    const auto before = std::find(decisions_.begin(), decisions_.end(), nogood[nogood.size() - 2]);
    level = static_cast<std::size_t>(before - decisions_.begin()) + 1;
    propagation_.nogoods().add(nogood);
  }
  decisions_.resize(level);
  propagation_.assume(levels_[level], last.negated());
  return settle(levels_[level], options_.rounds);
}

/// After a failure: learns and jumps back until a node stands; false when nothing is left, or the limit is reached.
bool Tree::back_out() {
  while (++nodes_ <= options_.node_limit) {
    ++conflicts_;
    const std::vector<Literal> nogood = shrunk();
    if (nogood.empty()) return false;
    branching_.blame(nogood);
    if (jump_back(nogood)) return true;
  }
  return false;
}

bool Tree::decide(Literal literal) {
  const std::size_t level = decisions_.size() + 1;
  if (levels_.size() <= level) levels_.resize(level + 1);
  levels_[level] = levels_[level - 1];
  decisions_.push_back(literal);
  propagation_.assume(levels_[level], literal);
  return settle(levels_[level], options_.rounds);
}

Tree::End Tree::run(Domains root, std::int64_t target, const Leaf& leaf) {
  target_ = target;
  decisions_.clear();
  levels_.assign(1, std::move(root));
  double restart = k_first_restart;
  if (!settle(levels_.front(), options_.rounds)) return End::exhausted;
  while (true) {
    const Domains& domains = levels_[decisions_.size()];
    const auto literal = branching_.next(domains, multipliers_);
    bool stands = false;
    if (!literal) {
      if (leaf(domains, target_)) return End::stopped;
    } else {
      if (++nodes_ > options_.node_limit) return End::limit;
      stands = decide(*literal);
    }
    if (!stands && !back_out()) return nodes_ > options_.node_limit ? End::limit : End::exhausted;
    if (options_.restarts && static_cast<double>(conflicts_) > restart) {
      restart = restart * k_restart_growth + static_cast<double>(k_first_restart);
      decisions_.clear();
      if (!settle(levels_.front(), options_.rounds)) return End::exhausted;
    }
  }
}

}  // namespace cotter::engine::route
