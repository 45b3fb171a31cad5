#pragma once
// Chains in the order of their cost. From both ends at once: a chain of k pieces is met in its middle, so that only
// part chains of half its length are ever built, and of those only the cheap ones: up to a ceiling, which rises when no
// chain lies below it.

#include <queue>

#include "engine/fit/bridge/index.hpp"

namespace cotter::engine::fit::bridge {

/// Part chains taken up; a query that needs more ends without a proof.
inline constexpr std::int64_t k_usual_node_limit = 100'000;

class Search {
 public:
  /// Certain: only chains whose joints all hold for certain. Possible: only chains with at least one open joint.
  Search(const Index& index, const Query& query, Ask ask, std::int64_t node_limit);

  /// The next chain: never cheaper than the one before; of equal cost first the one with fewer pieces, then the one
  /// whose pieces stand earlier in the catalog. Nothing: there is none left, or the limit was reached.
  std::optional<Chain> next();

  bool limit_reached() const { return limit_reached_; }
  bool start_meets_something() const { return met_[0]; }
  bool goal_meets_something() const { return met_[1]; }
  Proof proof() const;

 private:
  /// A part chain that grows from one end. `way` is its last piece, entered from that end.
  struct Node {
    std::int64_t cost = 0;
    Way way = 0;
    std::int32_t before = -1;
    std::int32_t length = 0;
    bool open = false;  ///< some joint of it does not hold for certain
  };
  struct Queued {
    std::int64_t cost;
    std::uint32_t node;
    bool operator>(const Queued& other) const { return cost != other.cost ? cost > other.cost : node > other.node; }
  };
  struct Ways {
    std::int64_t cost = 0;
    std::vector<Way> ways;  ///< from the start on
    bool operator>(const Ways& other) const;
  };
  /// Settled part chains of one length by the deciding size of the feature they end in.
  struct Settled {
    struct List {
      std::multimap<std::int64_t, std::uint32_t> by_size;
      std::int64_t widest = 0;
      std::vector<std::uint32_t> loose;
    };
    std::map<std::pair<std::uint32_t, Deciding>, List> lists;
  };
  struct End {
    FeatureView feature;
    int most = 0;  ///< pieces that may be added from this end
    std::vector<Node> nodes;
    std::priority_queue<Queued, std::vector<Queued>, std::greater<>> queue;
    std::vector<Settled> settled;  ///< by length
  };

  bool forbidden(std::uint32_t piece) const;
  FeatureView head(const End& end, std::int32_t node) const;
  bool holds(const FeatureView& a, const FeatureView& b) const;
  void begin();
  void grow(int side, std::int32_t from);
  void settle(int side, std::uint32_t number);
  void file(End& end, std::uint32_t number);
  void join_with_far_end(int side, std::uint32_t number);
  void join_with_settled(int side, std::uint32_t number, std::int32_t length);
  void propose(int side, std::uint32_t own, std::int32_t other, bool open);
  void append_ways(const End& end, std::int32_t node, std::vector<Way>& out) const;
  bool step();
  std::optional<Ways> next_ways();
  std::optional<std::int64_t> least_left() const;
  Chain chain_of(const Ways& found) const;

  const Index& index_;
  const Query query_;
  Ask ask_;
  std::int64_t node_limit_;
  End ends_[2];
  bool met_[2] = {false, false};
  bool limit_reached_ = false;
  /// Part chains above this are not built yet; when they are wanted the search begins again with a higher one.
  std::int64_t ceiling_;
  bool too_dear_ = false;   ///< the ceiling kept something out
  std::int64_t named_ = 0;  ///< chains given out
  std::int64_t candidates_ = 0;
  std::int64_t settled_count_ = 0;
  std::priority_queue<Ways, std::vector<Ways>, std::greater<>> found_;
};

}  // namespace cotter::engine::fit::bridge
