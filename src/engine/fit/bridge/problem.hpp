#pragma once
// Two interfaces that do not mate: which chain of pieces joins them at the least cost? A catalog here is numbers only:
// features of numbered kinds with their dimensions and words, pieces that carry a joint from one of their features to
// another, and the rules by which two kinds meet.
//
// Not for: whether there is room for the chain along an axis (the stack says that, see `accept` of solve.hpp), or
// whether anybody should use it. Method and bounds: docs/bridge.md.

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/fit/problem.hpp"

namespace cotter::engine::fit::bridge {

/// More pieces in one chain are refused: a tower of adapters is no repair.
inline constexpr int k_most_pieces = 6;
inline constexpr std::int64_t k_most_cost = 1'000'000'000'000;

/// One dimension of a feature in the base unit of its dimension. Without a stated value `low` is above `high`.
struct Amount {
  std::int64_t low = 1;
  std::int64_t high = 0;
  bool attested = true;  ///< measured, or from a maker's or a standard's paper
  bool known = true;     ///< false: merely what is possible
  bool stated() const { return low <= high; }
};

/// What features of this kind state, by number.
struct Kind {
  std::vector<Dimension> dimensions;
  std::uint32_t words = 0;  ///< how many words
};

/// Amounts and words in the order of the kind. Words are numbers of one list for the whole catalog; 0 is not known.
struct Feature {
  std::uint32_t kind = 0;
  std::vector<Amount> amounts;
  std::vector<std::uint32_t> words;
};

/// A dimension of the kind that the rule stands under, of the kind it meets, or an exact amount of the rule.
struct RuleOperand {
  enum class Side { own, other, fixed };
  std::string role;
  Side side = Side::own;
  std::uint32_t dimension = 0;  ///< number within the kind
  std::int64_t fixed = 0;
  Dimension fixed_dimension = Dimension::length;
};

struct RuleWord {
  std::string role;
  std::uint32_t own = 0;    ///< number within the kind
  std::uint32_t other = 0;  ///< likewise
};

struct Rule {
  Law law = Law::difference;
  std::vector<RuleOperand> operands;
  std::vector<RuleWord> words;
  Window must;
};

/// How two different kinds meet; at most one for each pair, whichever side it stands under.
struct Meeting {
  std::uint32_t own = 0;
  std::uint32_t other = 0;
  std::vector<Rule> rules;
};

/// A part that joins pairs of its features, in either direction.
struct Piece {
  std::int64_t cost = 0;  ///< hundredths of a currency unit or of a minute; the caller's choice, never negative
  std::vector<Feature> features;
  std::vector<std::pair<std::uint32_t, std::uint32_t>> links;  ///< numbers within `features`
};

struct Query {
  Feature start;
  Feature goal;
  std::vector<std::uint32_t> forbidden;  ///< pieces
  int most_pieces = 4;
};

/// What one rule says of a joint.
struct RuleState {
  Certainty certainty = Certainty::open;
  std::optional<std::int64_t> margin;  ///< as in CheckResult; none: words only, or a value that nobody states
  Dimension dimension = Dimension::length;
};

struct Joint {
  Certainty certainty = Certainty::open;
  bool attested = true;  ///< every value under it is vouched for
  std::vector<RuleState> rules;
};

/// One piece of a chain, from the feature that faces the start to the one that faces the goal.
struct Link {
  std::uint32_t piece = 0;
  std::uint32_t enters = 0;  ///< number within the piece's features
  std::uint32_t leaves = 0;
  bool operator==(const Link&) const = default;
};

struct Chain {
  std::int64_t cost = 0;
  std::vector<Link> links;
  std::vector<Joint> joints;  ///< one more than links, from the start on
  bool certain = true;        ///< every joint holds for certain; false: something must be measured first
};

enum class Status {
  found,       ///< the cheapest chain that was accepted
  none,        ///< proven: there is no chain, or every one was refused
  unfinished,  ///< the node limit came first
};

enum class Reason { nothing, start_meets_nothing, goal_meets_nothing, too_many_pieces, all_refused };

/// What was looked at, so that a reader can see why no chain can be cheaper.
struct Proof {
  std::int64_t settled = 0;                ///< part chains taken up, cheapest first, from both ends
  std::int64_t candidates = 0;             ///< features held against a rule
  std::optional<std::int64_t> least_left;  ///< every chain not looked at costs at least this; none: nothing is left
};

struct Result {
  Status status = Status::none;
  Reason reason = Reason::nothing;
  std::optional<Chain> chain;
  std::int64_t proposals = 0;  ///< chains shown to the caller, the accepted one included
  Proof proof;
};

}  // namespace cotter::engine::fit::bridge
