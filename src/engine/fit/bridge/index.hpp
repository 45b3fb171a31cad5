#pragma once
// The catalog sorted for searching: by the kind of a feature, and within the kind by the size that decides whether it
// mates, so that a query touches only what lies within the windows. Built once, asked many times.

#include <algorithm>
#include <map>
#include <tuple>
#include <vector>

#include "engine/fit/bridge/rules.hpp"

namespace cotter::engine::fit::bridge {

/// Sizes wider than this would spoil the narrow windows of all others; in base units, 1 mm for a length.
inline constexpr std::int64_t k_loose = 1'000'000;

/// Ends between which a size must lie; an end that is missing is open.
struct SizeWindow {
  std::int64_t low_from, low_to;    ///< for the lower limit of the size
  std::int64_t high_from, high_to;  ///< for its upper limit
};

/// Whether a joint must hold for certain, or only must not fail for certain.
enum class Ask { certain, possible };

/// What decides in a meeting: a dimension of the candidate, a word of it, or nothing.
struct Deciding {
  enum class By { dimension, word, nothing };
  By by = By::nothing;
  std::uint32_t number = 0;
  auto operator<=>(const Deciding&) const = default;
};
Deciding deciding(const ReadyMeeting& meeting);

/// The sizes of a feature's deciding dimension; a word counts as a size without width. Unstated: `low` above `high`.
Amount deciding_size(const Deciding& by, const FeatureView& feature);

/// Where the deciding size of a candidate must lie beside this anchor; nothing: no candidate will do.
std::optional<SizeWindow> window_for(const ReadyMeeting& meeting, const Deciding& by, const FeatureView& anchor,
                                     Ask ask);

class Index {
 public:
  /// **Accuracy** exact: the same answers as without an index (tests hold it against a search that has none).
  explicit Index(Catalog catalog);
  Index(const Index&) = delete;
  Index& operator=(const Index&) = delete;

  const Catalog& catalog() const { return catalog_; }
  const Rules& rules() const { return rules_; }

  /// The dearest piece.
  std::int64_t most_cost() const { return most_cost_; }

  struct Looked {
    std::int64_t candidates = 0;  ///< features held against a rule
    bool too_dear = false;        ///< some were passed over for their cost
  };
  /// Calls `take(way)` for each way whose entrance mates with the anchor and whose piece costs no more than
  /// `most_cost`, in a fixed order.
  template <class Take>
  Looked each_meeting(const FeatureView& anchor, Ask ask, std::int64_t most_cost, Take take) const;

 private:
  /// All that a first look needs, side by side in memory.
  struct Entry {
    std::int64_t low, high;  ///< deciding size of the entrance; not stated: `low` above `high`
    std::int64_t cost;
    Way way;
    bool operator<(const Entry& other) const { return std::tie(low, way) < std::tie(other.low, other.way); }
  };
  /// Ways by the deciding size of their entrance.
  struct Sorted {
    std::vector<Entry> entries;  ///< ascending
    std::int64_t widest = 0;
    std::vector<Entry> loose;  ///< of sizes too wide, or not stated: looked at every time
  };
  using Key = std::pair<std::uint32_t, Deciding>;

  void add_ways(const std::map<Key, std::uint32_t>& wanted);
  template <class Visit>
  static void each_candidate(const Sorted& sorted, const SizeWindow& window, Visit visit);

  Catalog catalog_;
  Rules rules_;
  std::vector<Sorted> sorted_;
  std::int64_t most_cost_ = 0;
  /// In the order of Rules::met_by: what decides, and where the candidates stand.
  struct Access {
    Deciding by;
    std::uint32_t sorted;
  };
  std::vector<std::vector<Access>> access_;
};

// --- inline bodies ---

template <class Visit>
void Index::each_candidate(const Sorted& sorted, const SizeWindow& window, Visit visit) {
  const auto within = [&](const Entry& entry) {
    return window.low_from <= entry.low && entry.low <= window.low_to && window.high_from <= entry.high &&
           entry.high <= window.high_to;
  };
  for (const Entry& entry : sorted.loose)
    if (entry.low > entry.high || within(entry)) visit(entry);
  // A size reaches at most `widest` above its lower limit.
  const std::int64_t first = std::max(window.low_from, window.high_from - sorted.widest);
  const std::int64_t last = std::min(window.low_to, window.high_to);
  const auto begin = std::ranges::lower_bound(sorted.entries, first, {}, &Entry::low);
  for (auto at = begin; at != sorted.entries.end() && at->low <= last; ++at)
    if (within(*at)) visit(*at);
}

template <class Take>
Index::Looked Index::each_meeting(const FeatureView& anchor, Ask ask, std::int64_t most_cost, Take take) const {
  Looked looked;
  const std::vector<ReadyMeeting>& met = rules_.met_by(anchor.kind);
  for (std::size_t i = 0; i < met.size(); ++i) {
    const Access& access = access_[anchor.kind][i];
    const auto window = window_for(met[i], access.by, anchor, ask);
    if (!window) continue;
    // What nobody states holds nothing for certain.
    const bool needs_size = ask == Ask::certain && access.by.by != Deciding::By::nothing;
    each_candidate(sorted_[access.sorted], *window, [&](const Entry& entry) {
      if (needs_size && entry.low > entry.high) return;
      if (entry.cost > most_cost) {
        looked.too_dear = true;
        return;
      }
      ++looked.candidates;
      const FeatureView entrance = catalog_.entrance(entry.way);
      const bool mates =
          ask == Ask::certain ? rules_.certain(met[i], anchor, entrance) : rules_.possible(met[i], anchor, entrance);
      if (mates) take(entry.way);
    });
  }
  return looked;
}

}  // namespace cotter::engine::fit::bridge
