#pragma once
// The pieces in one block of numbers, so that a million of them fit into memory.

#include <span>
#include <vector>

#include "engine/fit/bridge/problem.hpp"

namespace cotter::engine::fit::bridge {

/// A feature without its own storage.
struct FeatureView {
  std::uint32_t kind = 0;
  std::span<const Amount> amounts;
  std::span<const std::uint32_t> words;
};

FeatureView view(const Feature& feature);

/// A link and the direction it is walked in: 2 * link, plus 1 from its second feature to its first.
using Way = std::uint32_t;

class Catalog {
 public:
  Catalog(std::vector<Kind> kinds, std::vector<Meeting> meetings);

  /// Number of the new piece. **Requires** features that state what their kinds ask, links between features that exist,
  /// a cost within bounds.
  std::uint32_t add(const Piece& piece);

  const std::vector<Kind>& kinds() const { return kinds_; }
  const std::vector<Meeting>& meetings() const { return meetings_; }
  std::uint32_t piece_count() const { return static_cast<std::uint32_t>(pieces_.size()); }
  std::uint32_t way_count() const { return static_cast<std::uint32_t>(2 * links_.size()); }

  std::int64_t cost(std::uint32_t piece) const { return pieces_[piece].cost; }
  std::uint32_t piece_of(Way way) const { return links_[way / 2].piece; }
  /// The feature by which the way enters its piece, and the one by which it leaves.
  FeatureView entrance(Way way) const { return feature(way % 2 == 0 ? links_[way / 2].a : links_[way / 2].b); }
  FeatureView exit(Way way) const { return feature(way % 2 == 0 ? links_[way / 2].b : links_[way / 2].a); }
  Link link(Way way) const;
  static Way turned(Way way) { return way ^ 1U; }

 private:
  struct StoredFeature {
    std::uint32_t kind, first_amount, first_word;
  };
  struct StoredPiece {
    std::int64_t cost;
    std::uint32_t first_feature;
  };
  struct StoredLink {
    std::uint32_t piece, a, b;
  };
  FeatureView feature(std::uint32_t number) const;

  std::vector<Kind> kinds_;
  std::vector<Meeting> meetings_;
  std::vector<StoredFeature> features_;
  std::vector<StoredPiece> pieces_;
  std::vector<StoredLink> links_;
  std::vector<Amount> amounts_;
  std::vector<std::uint32_t> words_;
};

}  // namespace cotter::engine::fit::bridge
