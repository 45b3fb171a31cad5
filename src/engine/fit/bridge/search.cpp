#include "engine/fit/bridge/search.hpp"

#include <algorithm>

#include "quantity/ensure.hpp"

namespace cotter::engine::fit::bridge {
namespace {

/// The first ceiling as a part of the dearest piece, and how much higher each next one is.
constexpr std::int64_t k_first_part = 64;
constexpr std::int64_t k_rise = 2;

Joint joint_of(const Rules& rules, const FeatureView& a, const FeatureView& b) {
  const ReadyMeeting* meeting = rules.find(a.kind, b.kind);
  quantity::ensure(meeting != nullptr, "a chain joins two kinds that do not meet");
  return rules.judged(*meeting, a, b);
}

}  // namespace

bool Search::Ways::operator>(const Ways& other) const {
  if (cost != other.cost) return cost > other.cost;
  if (ways.size() != other.ways.size()) return ways.size() > other.ways.size();
  return ways > other.ways;
}

Search::Search(const Index& index, const Query& query, Ask ask, std::int64_t node_limit)
    : index_(index), query_(query), ask_(ask), node_limit_(node_limit), ceiling_(index.most_cost() / k_first_part + 1) {
  quantity::ensure(1 <= query.most_pieces && query.most_pieces <= k_most_pieces, "the pieces of a chain are bounded");
  ends_[0].feature = view(query_.start);
  ends_[1].feature = view(query_.goal);
  ends_[0].most = (query.most_pieces + 1) / 2;
  ends_[1].most = query.most_pieces / 2;
  begin();
}

void Search::begin() {
  too_dear_ = false;
  found_ = {};
  for (End& end : ends_) {
    end.nodes.clear();
    end.queue = {};
    end.settled.assign(static_cast<std::size_t>(end.most) + 1, {});
  }
  bool barren = false, shut = false, too_dear = false;
  for (const int side : {0, 1}) {
    too_dear_ = met_[side] = false;
    grow(side, -1);
    barren = barren || !met_[side];
    shut = shut || (!met_[side] && !too_dear_);
    too_dear = too_dear || too_dear_;
    met_[side] = met_[side] || too_dear_;
  }
  too_dear_ = too_dear && !shut;
  // Where nothing below the ceiling mates with one end, what grows from the other leads nowhere.
  if (barren)
    for (End& end : ends_) end.queue = {};
}

bool Search::forbidden(std::uint32_t piece) const {
  return std::ranges::find(query_.forbidden, piece) != query_.forbidden.end();
}

FeatureView Search::head(const End& end, std::int32_t node) const {
  return node < 0 ? end.feature : index_.catalog().exit(end.nodes[static_cast<std::size_t>(node)].way);
}

bool Search::holds(const FeatureView& a, const FeatureView& b) const {
  const ReadyMeeting* meeting = index_.rules().find(a.kind, b.kind);
  return meeting != nullptr && index_.rules().certain(*meeting, a, b);
}

/// Queues every part chain that is one piece longer.
void Search::grow(int side, std::int32_t from) {
  End& end = ends_[side];
  const Node base = from < 0 ? Node{} : end.nodes[static_cast<std::size_t>(from)];
  if (from >= 0 && base.length >= end.most) return;
  const FeatureView anchor = head(end, from);
  const auto looked = index_.each_meeting(anchor, ask_, ceiling_ - base.cost, [&](Way way) {
    const std::uint32_t piece = index_.catalog().piece_of(way);
    if (forbidden(piece)) return;
    met_[side] = true;
    if (base.length >= end.most) return;
    const bool open = base.open || (ask_ == Ask::possible && !holds(anchor, index_.catalog().entrance(way)));
    const auto number = static_cast<std::uint32_t>(end.nodes.size());
    end.nodes.push_back({base.cost + index_.catalog().cost(piece), way, from, base.length + 1, open});
    end.queue.push({end.nodes.back().cost, number});
  });
  candidates_ += looked.candidates;
  too_dear_ = too_dear_ || looked.too_dear;
}

/// Takes up the cheapest part chain that is left.
bool Search::step() {
  if (ends_[0].queue.empty() && ends_[1].queue.empty()) return false;
  if (settled_count_ >= node_limit_) {
    limit_reached_ = true;
    return false;
  }
  const bool goal_side =
      ends_[0].queue.empty() || (!ends_[1].queue.empty() && ends_[1].queue.top().cost < ends_[0].queue.top().cost);
  const int side = goal_side ? 1 : 0;
  const std::uint32_t number = ends_[side].queue.top().node;
  ends_[side].queue.pop();
  settle(side, number);
  return true;
}

void Search::settle(int side, std::uint32_t number) {
  ++settled_count_;
  const std::int32_t length = ends_[side].nodes[number].length;
  // From the start come as many pieces as from the goal, or one more: each chain has one middle.
  if (side == 0) {
    if (length == 1) join_with_far_end(side, number);
    join_with_settled(side, number, length);
    join_with_settled(side, number, length - 1);
  } else {
    join_with_settled(side, number, length);
    join_with_settled(side, number, length + 1);
  }
  file(ends_[side], number);
  grow(side, static_cast<std::int32_t>(number));
}

void Search::file(End& end, std::uint32_t number) {
  const Node& node = end.nodes[number];
  const FeatureView feature = head(end, static_cast<std::int32_t>(number));
  Settled& settled = end.settled[static_cast<std::size_t>(node.length)];
  for (const ReadyMeeting& seen : index_.rules().met_by(feature.kind)) {
    const ReadyMeeting* meeting = index_.rules().find(seen.candidate_kind, feature.kind);
    const Deciding by = deciding(*meeting);
    Settled::List& list = settled.lists[{feature.kind, by}];
    const Amount size = deciding_size(by, feature);
    if (!size.stated() || size.high - size.low > k_loose) {
      if (list.loose.empty() || list.loose.back() != number) list.loose.push_back(number);
      continue;
    }
    const auto at = list.by_size.equal_range(size.low);
    const bool there = std::any_of(at.first, at.second, [&](const auto& entry) { return entry.second == number; });
    if (!there) list.by_size.emplace(size.low, number);
    list.widest = std::max(list.widest, size.high - size.low);
  }
}

void Search::join_with_far_end(int side, std::uint32_t number) {
  const FeatureView own = head(ends_[side], static_cast<std::int32_t>(number));
  const FeatureView& far = ends_[1 - side].feature;
  const ReadyMeeting* meeting = index_.rules().find(own.kind, far.kind);
  if (meeting == nullptr) return;
  ++candidates_;
  const bool certain = index_.rules().certain(*meeting, own, far);
  if (certain || (ask_ == Ask::possible && index_.rules().possible(*meeting, own, far)))
    propose(side, number, -1, !certain);
}

void Search::join_with_settled(int side, std::uint32_t number, std::int32_t length) {
  const End& other = ends_[1 - side];
  if (length < 1 || length > other.most) return;
  const FeatureView own = head(ends_[side], static_cast<std::int32_t>(number));
  const auto& lists = other.settled[static_cast<std::size_t>(length)].lists;
  for (const ReadyMeeting& meeting : index_.rules().met_by(own.kind)) {
    const Deciding by = deciding(meeting);
    const auto found = lists.find({meeting.candidate_kind, by});
    if (found == lists.end()) continue;
    const auto window = window_for(meeting, by, own, ask_);
    if (!window) continue;
    const auto try_one = [&](std::uint32_t candidate) {
      ++candidates_;
      const FeatureView feature = head(other, static_cast<std::int32_t>(candidate));
      const bool certain = index_.rules().certain(meeting, own, feature);
      if (certain || (ask_ == Ask::possible && index_.rules().possible(meeting, own, feature)))
        propose(side, number, static_cast<std::int32_t>(candidate), !certain);
    };
    const Settled::List& list = found->second;
    for (const std::uint32_t candidate : list.loose) try_one(candidate);
    const std::int64_t first = std::max(window->low_from, window->high_from - list.widest);
    const std::int64_t last = std::min(window->low_to, window->high_to);
    for (auto at = list.by_size.lower_bound(first); at != list.by_size.end() && at->first <= last; ++at)
      try_one(at->second);
  }
}

/// Puts the two part chains together.
void Search::propose(int side, std::uint32_t own, std::int32_t other, bool open) {
  const std::int32_t nodes[2] = {side == 0 ? static_cast<std::int32_t>(own) : other,
                                 side == 0 ? other : static_cast<std::int32_t>(own)};
  Ways found;
  std::vector<Way> from_goal;
  append_ways(ends_[0], nodes[0], found.ways);
  append_ways(ends_[1], nodes[1], from_goal);
  std::reverse(found.ways.begin(), found.ways.end());
  for (const Way way : from_goal) found.ways.push_back(Catalog::turned(way));
  for (int i = 0; i < 2; ++i) {
    if (nodes[i] < 0) continue;
    const Node& node = ends_[i].nodes[static_cast<std::size_t>(nodes[i])];
    found.cost += node.cost;
    open = open || node.open;
  }
  if (ask_ == Ask::possible && !open) return;
  found_.push(std::move(found));
}

/// Its pieces, the newest first.
void Search::append_ways(const End& end, std::int32_t node, std::vector<Way>& out) const {
  for (; node >= 0; node = end.nodes[static_cast<std::size_t>(node)].before)
    out.push_back(end.nodes[static_cast<std::size_t>(node)].way);
}

/// A chain that was not put together yet has a part chain in one of the queues, one that grows from there, or one above
/// the ceiling.
std::optional<std::int64_t> Search::least_left() const {
  std::optional<std::int64_t> least;
  if (too_dear_) least = ceiling_ + 1;
  for (const End& end : ends_)
    if (!end.queue.empty()) least = least ? std::min(*least, end.queue.top().cost) : end.queue.top().cost;
  return least;
}

/// The next chain below the ceiling.
std::optional<Search::Ways> Search::next_ways() {
  while (true) {
    const auto left = least_left();
    // Chains of equal cost must all be known before the first of them is named.
    if (!found_.empty() && (!left || found_.top().cost < *left)) {
      Ways best = found_.top();
      found_.pop();
      return best;
    }
    if (!step()) return std::nullopt;
  }
}

std::optional<Chain> Search::next() {
  while (true) {
    if (const auto best = next_ways()) {
      ++named_;
      return chain_of(*best);
    }
    if (limit_reached_ || !too_dear_) return std::nullopt;
    ceiling_ *= k_rise;
    begin();
    for (std::int64_t i = 0; i < named_; ++i)
      if (!next_ways()) return std::nullopt;  // only at the limit: they were found before
  }
}

Chain Search::chain_of(const Ways& found) const {
  const Catalog& catalog = index_.catalog();
  Chain chain;
  chain.cost = found.cost;
  FeatureView before = ends_[0].feature;
  for (const Way way : found.ways) {
    chain.links.push_back(catalog.link(way));
    chain.joints.push_back(joint_of(index_.rules(), before, catalog.entrance(way)));
    before = catalog.exit(way);
  }
  chain.joints.push_back(joint_of(index_.rules(), before, ends_[1].feature));
  chain.certain =
      std::ranges::all_of(chain.joints, [](const Joint& joint) { return joint.certainty == Certainty::holds; });
  return chain;
}

Proof Search::proof() const {
  std::optional<std::int64_t> left = least_left();
  if (!found_.empty()) left = left ? std::min(*left, found_.top().cost) : found_.top().cost;
  return {settled_count_, candidates_, left};
}

}  // namespace cotter::engine::fit::bridge
