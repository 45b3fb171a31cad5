#include "engine/route/nogoods.hpp"

#include <algorithm>
#include <utility>

namespace cotter::engine::route {

namespace {

constexpr std::size_t k_most_nogoods = 2'000;
/// Longer ones say too little to be worth looking at.
constexpr std::size_t k_longest = 16;
/// Nogoods up to this length are never forgotten while others are left.
constexpr std::size_t k_short = 4;

}  // namespace

void Nogoods::add(std::vector<Literal> literals) {
  if (literals.size() > k_longest) return;
  if (list_.size() >= k_most_nogoods) forget();
  for (const Literal literal : literals) at_[literal.code].push_back(static_cast<std::uint32_t>(list_.size()));
  list_.push_back(std::move(literals));
}

void Nogoods::forget() {
  std::vector<std::vector<Literal>> kept;
  for (std::size_t i = 0; i < list_.size(); ++i) {
    if (list_[i].size() <= k_short || 2 * i >= list_.size()) kept.push_back(std::move(list_[i]));
  }
  if (4 * kept.size() > 3 * k_most_nogoods)
    kept.erase(kept.begin(), kept.begin() + static_cast<std::ptrdiff_t>(kept.size() / 2));
  for (auto& at : at_) at.clear();
  list_.clear();
  for (auto& nogood : kept) add(std::move(nogood));
}

Nogoods::Check Nogoods::follow(const Domains& domains, const Variables& variables, Literal now,
                               std::vector<Literal>& forbidden) const {
  for (const std::uint32_t i : at_[now.code]) {
    const Literal* open = nullptr;
    bool idle = false;
    for (const Literal& literal : list_[i]) {
      const Truth truth = truth_of(domains, variables, literal);
      idle = truth == Truth::no || (truth == Truth::open && open != nullptr);
      if (idle) break;
      if (truth == Truth::open) open = &literal;
    }
    if (idle) continue;
    if (open == nullptr) return Check::broken;
    forbidden.push_back(*open);
  }
  return Check::holds;
}

}  // namespace cotter::engine::route
