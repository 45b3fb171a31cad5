#include "plan/stack/stack_choice.hpp"

#include <algorithm>

namespace cotter::plan {
namespace {

using engine::stack::Problem;
using engine::stack::Result;
using quantity::Length;
using Uses = std::vector<engine::stack::Use>;

constexpr std::int64_t k_stretches = 16;
constexpr std::int64_t k_fine = 1000;  // nm
constexpr std::int64_t k_most_nodes = 20'000;

Uses chosen(const Result& result) {
  return result.sets.empty() ? Uses{} : result.sets.front().uses;
}

/// The choice as a function of one term's length.
class Choice {
 public:
  Choice(const Problem& problem, const Result& today, std::size_t term)
      : problem_(problem), today_(chosen(today)), term_(term) {}

  bool is_other(std::int64_t at) {
    engine::stack::Term& term = problem_.terms[term_];
    term.nominal = Length::from_base(at);
    term.interval = quantity::Interval<Length>(term.nominal);
    term.known = true;
    const Result result = engine::stack::solve(problem_, {k_most_nodes, 1});
    return result.status != engine::stack::Status::unfinished && chosen(result) != today_;
  }

  /// Between two lengths that answer differently: the last that still answers as `low` does.
  std::int64_t change_between(std::int64_t low, std::int64_t high) {
    const bool at_low = is_other(low);
    while (high - low > k_fine) {
      const std::int64_t middle = low + (high - low) / 2;
      (is_other(middle) == at_low ? low : high) = middle;
    }
    return low;
  }

 private:
  Problem problem_;
  Uses today_;
  std::size_t term_;
};

bool has_pieces(const Problem& problem) {
  return !problem.kit.empty() &&
         std::ranges::any_of(problem.slots, [](const engine::stack::Slot& slot) { return slot.most_pieces > 0; });
}

}  // namespace

std::vector<quantity::Range> other_choices(const Problem& problem, const Result& today, std::size_t term) {
  std::vector<quantity::Range> out;
  const quantity::Interval<Length> interval = problem.terms[term].interval;
  const std::int64_t width = interval.width().base();
  if (width == 0 || !has_pieces(problem)) return out;
  Choice choice(problem, today, term);
  std::int64_t begin = interval.low().base();  // of the stretch that answers as `other` does
  bool other = choice.is_other(begin);
  std::int64_t last = begin;
  const auto close = [&](std::int64_t end) {
    if (other) out.emplace_back(quantity::Mixed::from_base(begin), quantity::Mixed::from_base(end));
  };
  for (std::int64_t k = 1; k <= k_stretches; ++k) {
    const std::int64_t at = interval.low().base() + width / k_stretches * k + width % k_stretches * k / k_stretches;
    if (choice.is_other(at) != other) {
      const std::int64_t change = choice.change_between(last, at);
      close(change);
      begin = change;
      other = !other;
    }
    last = at;
  }
  close(interval.high().base());
  return out;
}

}  // namespace cotter::plan
