#pragma once
// The rules of all meetings, made ready to be asked millions of times. Inside of this box.

#include <map>
#include <vector>

#include "engine/fit/bridge/catalog.hpp"
#include "engine/fit/linear.hpp"

namespace cotter::engine::fit::bridge {

/// factor * amount, of the anchor's or of the candidate's feature.
struct Term {
  std::int64_t factor = 0;
  std::uint32_t dimension = 0;
  bool of_candidate = false;
};

/// The sum of the terms and the constant must be at least 0.
struct ReadyDemand {
  std::vector<Term> terms;
  Wide constant = 0;
};

struct ReadyWord {
  std::uint32_t anchor = 0;
  std::uint32_t candidate = 0;
};

/// A meeting seen from one of its sides: the anchor is at hand, candidates are held against it.
struct ReadyMeeting {
  std::uint32_t candidate_kind = 0;
  const Meeting* meeting = nullptr;
  bool anchor_is_own = true;
  std::vector<ReadyDemand> demands;
  std::vector<ReadyWord> words;
  bool demands_decide = true;  ///< a rule whose demands can each be met does not fail
  bool complete = true;        ///< false: some rule has more to it than its demands, so the law itself is asked
};

class Rules {
 public:
  /// `catalog` must outlive this.
  explicit Rules(const Catalog& catalog);

  /// All that features of this kind can meet.
  const std::vector<ReadyMeeting>& met_by(std::uint32_t kind) const { return by_anchor_[kind]; }
  const ReadyMeeting* find(std::uint32_t anchor_kind, std::uint32_t candidate_kind) const;

  /// Exact: holds for certain.
  bool certain(const ReadyMeeting& meeting, const FeatureView& anchor, const FeatureView& candidate) const;
  /// Exact: does not fail for certain.
  bool possible(const ReadyMeeting& meeting, const FeatureView& anchor, const FeatureView& candidate) const;
  /// In full, by the laws themselves.
  Joint judged(const ReadyMeeting& meeting, const FeatureView& anchor, const FeatureView& candidate) const;

 private:
  ReadyMeeting ready(const Meeting& meeting, bool anchor_is_own) const;
  void add_rule(const Rule& rule, ReadyMeeting& out) const;

  const Catalog& catalog_;
  std::vector<std::vector<ReadyMeeting>> by_anchor_;
};

}  // namespace cotter::engine::fit::bridge
