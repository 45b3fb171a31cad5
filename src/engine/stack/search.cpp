#include "engine/stack/search.hpp"

#include <algorithm>
#include <limits>
#include <tuple>

#include "engine/stack/assess.hpp"
#include "engine/stack/tally.hpp"

namespace cotter::engine::stack {
namespace {

constexpr Whole k_no_miss = std::numeric_limits<Whole>::max();

/// How long sets are gone through before they are counted by sums instead, and in how many sums at most. A sum costs a
/// small part of what a partial set costs, but there may be many more of them.
struct Stage {
  std::int64_t nodes;
  std::int64_t sums;
};
constexpr Stage k_second_stage{50'000, 4'000'000};
constexpr std::int64_t k_few_sums = 200'000;
constexpr std::int64_t k_sums_of_a_node = 16;  ///< weighed as one against the node limit

/// The best ranked candidates, and how many were met. A heap with the worst on top: most sets are let go at a glance.
class Shortlist {
 public:
  explicit Shortlist(std::size_t most) : most_(most) {}

  void add(const Candidate& candidate) {
    ++seen_;
    if (heap_.size() == most_) {
      if (!ranks_before(candidate, heap_.front())) return;
      std::pop_heap(heap_.begin(), heap_.end(), ranks_before);
      heap_.back() = candidate;
    } else {
      heap_.push_back(candidate);
    }
    std::push_heap(heap_.begin(), heap_.end(), ranks_before);
  }
  void clear() {
    seen_ = 0;
    heap_.clear();
  }
  /// Of `seen` candidates these are the best.
  void set(std::vector<Candidate> best, Whole seen) {
    heap_ = std::move(best);
    seen_ = seen;
  }
  bool empty() const { return seen_ == 0; }
  Whole seen() const { return seen_; }
  std::vector<Candidate> ranked() const {
    std::vector<Candidate> list = heap_;
    std::sort(list.begin(), list.end(), ranks_before);
    return list;
  }

 private:
  std::size_t most_;
  Whole seen_ = 0;
  std::vector<Candidate> heap_;
};

class Search {
 public:
  Search(const Linear& linear, const Problem& problem, const Options& options)
      : linear_(linear),
        problem_(problem),
        node_limit_(options.node_limit),
        few_nodes_(options.few_nodes),
        most_sets_(std::max<std::size_t>(options.most_sets, 1)),
        tables_(linear, problem),
        stop_(node_limit_),
        sums_(tables_.forms(), 0),
        certain_(most_sets_),
        open_(most_sets_) {
    candidate_.counts.assign(linear.variables.size(), 0);
  }

  Found run() {
    for (int pieces = 0; pieces <= tables_.most_pieces() && certain_.empty() && !cut_; ++pieces) {
      goal_ = open_.empty() ? Goal::possible : Goal::certain;
      if (tables_.out_of_reach(goal_)) break;
      if (open_.empty()) open_pieces_ = pieces;
      pieces_ = pieces;
      find_sets();
    }
    Found found;
    found.complete = !cut_;
    append(certain_, pieces_, Certainty::holds, found);
    append(open_, open_pieces_, Certainty::open, found);
    found.none = found.sets.empty() && !cut_;
    if (found.none) look_for_nearest_miss(found);
    found.nodes = nodes_;
    return found;
  }

 private:
  /// All sets of `pieces_` pieces: gone through when they are few, else counted, and gone through when counting fails.
  void find_sets() {
    for (const Stage& stage : {Stage{few_nodes_, k_few_sums}, k_second_stage}) {
      stop_ = std::min(node_limit_, nodes_ + stage.nodes);
      go_through();
      if (!cut_ || stop_ == node_limit_ || count(stage.sums)) return;
    }
    stop_ = node_limit_;
    go_through();
  }

  void go_through() {
    cut_ = false;
    certain_.clear();
    if (goal_ == Goal::possible) open_.clear();
    descend_from_root();
  }

  /// Whether the sets could be counted in no more than `most` sums.
  bool count(std::int64_t most) {
    const std::int64_t allowed = (node_limit_ - nodes_) / 2;
    const auto counted = tally(tables_, goal_, pieces_, most_sets_, std::min(most, allowed * k_sums_of_a_node));
    if (!counted) return false;
    cut_ = false;
    nodes_ += counted->sums / k_sums_of_a_node;
    const auto first_open = std::find_if(counted->best.begin(), counted->best.end(),
                                         [](const Candidate& candidate) { return candidate.rank.open; });
    if (goal_ == Goal::possible) open_.set({first_open, counted->best.end()}, counted->open);
    certain_.set({counted->best.begin(), first_open}, counted->certain);
    return true;
  }

  void descend_from_root() {
    slot_left_.clear();
    for (const Slot& slot : problem_.slots) slot_left_.push_back(slot.most_pieces);
    kit_left_.clear();
    for (const Piece& piece : problem_.kit) kit_left_.push_back(piece.count);
    descend(0, pieces_);
  }

  /// Puts `left` more pieces into the variables from v on.
  void descend(std::size_t v, int left) {
    if (++nodes_ > stop_) cut_ = true;
    if (cut_) return;
    if (left == 0) {
      if (!hopeless(v, 0)) take();
      return;
    }
    for (; v < linear_.variables.size() && !cut_; ++v) {
      // Fewer variables can only do less: when these cannot, none after them can.
      if (tables_.too_few(v, left) || hopeless(v, left)) return;
      const Variable& variable = linear_.variables[v];
      int& slot_left = slot_left_[variable.slot];
      int& kit_left = kit_left_[variable.piece];
      for (int count = std::min({variable.most, left, slot_left, kit_left}); count > 0; --count) {
        use(v, count);
        slot_left -= count;
        kit_left -= count;
        descend(v + 1, left - count);
        slot_left += count;
        kit_left += count;
        use(v, -count);
      }
    }
  }

  void use(std::size_t v, int count) {
    std::uint8_t& counted = candidate_.counts[v];
    counted = static_cast<std::uint8_t>(counted + count);
    for (std::size_t f = 0; f < sums_.size(); ++f) sums_[f] += tables_.gain(v, f) * count;
  }

  bool hopeless(std::size_t v, int left) const {
    if (nearest_) return tables_.misses_by_more(best_miss_ - 1, v, left, sums_.data());
    return tables_.hopeless(goal_, v, left, sums_.data());
  }

  /// No piece is left to place and no bound objects: a set, or a nearer miss.
  void take() {
    if (nearest_) return take_miss();
    candidate_.rank = tables_.rank(sums_.data());
    (candidate_.rank.open ? open_ : certain_).add(candidate_);
  }

  void take_miss() {
    Whole worst = std::numeric_limits<Whole>::min();
    for (std::size_t f = 0; f < tables_.windows(); ++f) {
      const LinearForm& form = linear_.forms[tables_.form(f)];
      const Length below = form.window->low() - (form.range.high() + quantity::nanometres(sums_[f]));
      const Length above = (form.range.low() + quantity::nanometres(sums_[f])) - form.window->high();
      const Whole miss = std::max(in_nanometres(below), in_nanometres(above)) * (2 / form.divisor);
      if (miss <= worst) continue;
      worst = miss;
      miss_.form = tables_.form(f);
      miss_.off = below > above ? -divided_up(below, form.divisor) : divided_up(above, form.divisor);
    }
    best_miss_ = worst;
    miss_.uses = uses(candidate_.counts);
  }

  std::vector<Use> uses(const std::vector<std::uint8_t>& counts) const {
    std::vector<Use> list;
    for (std::size_t v = 0; v < counts.size(); ++v) {
      const Variable& variable = linear_.variables[v];
      if (counts[v] > 0) list.push_back({variable.slot, variable.piece, counts[v]});
    }
    std::sort(list.begin(), list.end(),
              [](const Use& a, const Use& b) { return std::tuple(a.slot, a.piece) < std::tuple(b.slot, b.piece); });
    return list;
  }

  void look_for_nearest_miss(Found& found) {
    nearest_ = true;
    best_miss_ = k_no_miss;
    stop_ = node_limit_;
    for (pieces_ = 0; pieces_ <= tables_.most_pieces() && !cut_; ++pieces_) descend_from_root();
    if (best_miss_ != k_no_miss) found.nearest_miss = miss_;
    found.complete = !cut_;
  }

  void append(const Shortlist& list, int pieces, Certainty status, Found& found) {
    Whole kept = 0;
    for (const Candidate& candidate : list.ranked()) {
      if (found.sets.size() >= most_sets_) break;
      SpacerSet& set = found.sets.emplace_back();
      set.uses = uses(candidate.counts);
      set.pieces = pieces;
      set.status = status;
      set.off_target = divided_up(quantity::nanometres(candidate.rank.off_target), 2);
      ++kept;
    }
    found.left_out += static_cast<std::size_t>(list.seen() - kept);
  }

  const Linear& linear_;
  const Problem& problem_;
  std::int64_t node_limit_, few_nodes_;
  std::size_t most_sets_;
  Tables tables_;
  Goal goal_ = Goal::possible;
  bool nearest_ = false;  ///< no set will do: the nearest miss is looked for
  int pieces_ = 0;
  int open_pieces_ = 0;
  std::int64_t stop_;
  bool cut_ = false;
  std::int64_t nodes_ = 0;
  std::vector<Whole> sums_;
  Candidate candidate_;  ///< the set in hand
  std::vector<int> slot_left_, kit_left_;
  Shortlist certain_, open_;
  Whole best_miss_ = 0;  ///< half nanometres
  NearestMiss miss_;
};

}  // namespace

Found search(const Linear& linear, const Problem& problem, const Options& options) {
  return Search(linear, problem, options).run();
}

}  // namespace cotter::engine::stack
