#pragma once
// The bridge without an index, as its checker: every feature is held against every other by the laws themselves, then
// Dijkstra's method over (way, pieces used). Written apart from the engine: it shares the problem's types and the laws,
// and nothing that the search is made of.

#include <limits>
#include <optional>
#include <queue>
#include <tuple>
#include <vector>

#include "engine/fit/bridge/problem.hpp"
#include "engine/fit/solve.hpp"

namespace cotter::engine::fit::bridge::peer {

struct PlainCatalog {
  std::vector<Kind> kinds;
  std::vector<Meeting> meetings;
  std::vector<Piece> pieces;
};

inline Operand plain_operand(const RuleOperand& operand, const Amount& amount, Dimension dimension) {
  Operand out;
  out.role = operand.role;
  out.range = Range(Mixed::from_base(amount.low), Mixed::from_base(amount.high));
  out.dimension = dimension;
  return out;
}

/// By the laws; fails when the kinds do not meet.
inline Certainty plain_joint(const PlainCatalog& catalog, const Feature& a, const Feature& b) {
  for (const Meeting& meeting : catalog.meetings) {
    const bool straight = meeting.own == a.kind && meeting.other == b.kind;
    const bool turned = meeting.own == b.kind && meeting.other == a.kind;
    if (!straight && !turned) continue;
    const Feature& own = straight ? a : b;
    const Feature& other = straight ? b : a;
    Certainty all = Certainty::holds;
    for (const Rule& rule : meeting.rules) {
      Check check;
      check.law = rule.law;
      check.must = rule.must;
      bool stated = true;
      for (const RuleOperand& operand : rule.operands) {
        if (operand.side == RuleOperand::Side::fixed) {
          check.operands.push_back(plain_operand(operand, {operand.fixed, operand.fixed}, operand.fixed_dimension));
          continue;
        }
        const bool is_own = operand.side == RuleOperand::Side::own;
        const Amount& amount = (is_own ? own : other).amounts[operand.dimension];
        stated = stated && amount.stated();
        if (stated)
          check.operands.push_back(plain_operand(
              operand, amount, catalog.kinds[is_own ? meeting.own : meeting.other].dimensions[operand.dimension]));
      }
      for (const RuleWord& word : rule.words) {
        const auto text = [](std::uint32_t number) { return number == 0 ? std::string() : std::to_string(number); };
        check.words[word.role] = {text(own.words[word.own]), text(other.words[word.other])};
      }
      all = both(all, stated ? judge(check).must : Certainty::open);
    }
    return all;
  }
  return Certainty::fails;
}

struct PlainWay {
  std::uint32_t piece, enters, leaves;
};

/// All joints between pieces, judged once.
class Peer {
 public:
  explicit Peer(const PlainCatalog& catalog) : catalog_(catalog) {
    for (std::uint32_t p = 0; p < catalog.pieces.size(); ++p)
      for (const auto& [a, b] : catalog.pieces[p].links) {
        ways_.push_back({p, a, b});
        ways_.push_back({p, b, a});
      }
    for (const PlainWay& from : ways_) {
      joints_.emplace_back();
      for (const PlainWay& to : ways_) joints_.back().push_back(plain_joint(catalog, exit(from), entrance(to)));
    }
  }

  /// Least cost of a chain whose joints all hold for certain; nothing when there is none.
  std::optional<std::int64_t> least_certain(const Query& query) const { return least(query, false); }
  /// Least cost of a chain with at least one open joint.
  std::optional<std::int64_t> least_open(const Query& query) const { return least(query, true); }

 private:
  const Feature& entrance(const PlainWay& way) const { return catalog_.pieces[way.piece].features[way.enters]; }
  const Feature& exit(const PlainWay& way) const { return catalog_.pieces[way.piece].features[way.leaves]; }

  std::optional<std::int64_t> least(const Query& query, bool open_wanted) const {
    using State = std::tuple<std::int64_t, int, std::size_t, bool>;  // cost, pieces, way, open so far
    std::priority_queue<State, std::vector<State>, std::greater<>> queue;
    std::vector<char> done(ways_.size() * static_cast<std::size_t>(k_most_pieces + 1) * 2, 0);
    const auto forbidden = [&](std::size_t way) {
      return std::find(query.forbidden.begin(), query.forbidden.end(), ways_[way].piece) != query.forbidden.end();
    };
    const auto push = [&](std::int64_t cost, int pieces, std::size_t way, Certainty joint, bool open) {
      if (joint == Certainty::fails || forbidden(way) || pieces > query.most_pieces) return;
      if (joint == Certainty::open && !open_wanted) return;
      queue.emplace(cost + catalog_.pieces[ways_[way].piece].cost, pieces, way, open || joint == Certainty::open);
    };
    for (std::size_t way = 0; way < ways_.size(); ++way)
      push(0, 1, way, plain_joint(catalog_, query.start, entrance(ways_[way])), false);
    std::optional<std::int64_t> best;
    while (!queue.empty()) {
      const auto [cost, pieces, way, open] = queue.top();
      queue.pop();
      if (best && cost >= *best) break;
      char& settled = done[(way * static_cast<std::size_t>(k_most_pieces + 1) + static_cast<std::size_t>(pieces)) * 2 +
                           (open ? 1 : 0)];
      if (settled) continue;
      settled = 1;
      const Certainty last = plain_joint(catalog_, exit(ways_[way]), query.goal);
      const bool is_open = open || last == Certainty::open;
      if (last != Certainty::fails && is_open == open_wanted) best = cost;
      for (std::size_t next = 0; next < ways_.size(); ++next) push(cost, pieces + 1, next, joints_[way][next], open);
    }
    return best;
  }

  const PlainCatalog& catalog_;
  std::vector<PlainWay> ways_;
  std::vector<std::vector<Certainty>> joints_;
};

/// Whether the result is a chain at all: from start to goal, piece by piece, with the cost and the certainty it says.
inline bool valid(const PlainCatalog& catalog, const Query& query, const Chain& chain) {
  std::int64_t cost = 0;
  bool certain = true;
  Feature before = query.start;
  for (const Link& link : chain.links) {
    const Piece& piece = catalog.pieces[link.piece];
    const bool linked = std::any_of(piece.links.begin(), piece.links.end(), [&](const auto& pair) {
      return (pair.first == link.enters && pair.second == link.leaves) ||
             (pair.second == link.enters && pair.first == link.leaves);
    });
    const Certainty joint = plain_joint(catalog, before, piece.features[link.enters]);
    if (!linked || joint == Certainty::fails) return false;
    certain = certain && joint == Certainty::holds;
    cost += piece.cost;
    before = piece.features[link.leaves];
  }
  const Certainty last = plain_joint(catalog, before, query.goal);
  certain = certain && last == Certainty::holds;
  return last != Certainty::fails && cost == chain.cost && certain == chain.certain &&
         chain.joints.size() == chain.links.size() + 1 &&
         chain.links.size() <= static_cast<std::size_t>(query.most_pieces);
}

}  // namespace cotter::engine::fit::bridge::peer
