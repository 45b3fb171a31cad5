#include "engine/fit/bridge/index.hpp"

#include <algorithm>

namespace cotter::engine::fit::bridge {
namespace {

/// The one candidate term of the demand, when it has exactly one.
const Term* candidate_term(const ReadyDemand& demand) {
  const Term* found = nullptr;
  for (const Term& term : demand.terms) {
    if (!term.of_candidate) continue;
    if (found != nullptr) return nullptr;
    found = &term;
  }
  return found;
}

/// Whether some demand bounds the dimension on this side: +1 from below, -1 from above.
bool bounded(const ReadyMeeting& meeting, std::uint32_t dimension, int side) {
  return std::ranges::any_of(meeting.demands, [&](const ReadyDemand& demand) {
    const Term* term = candidate_term(demand);
    return term != nullptr && term->dimension == dimension && (term->factor > 0) == (side > 0);
  });
}

std::int64_t floor_of(Wide numerator, Wide divisor) {
  Wide quotient = numerator / divisor;
  if (numerator % divisor != 0 && (numerator < 0) != (divisor < 0)) --quotient;
  return static_cast<std::int64_t>(std::clamp<Wide>(quotient, -k_open_end, k_open_end));
}

/// What the anchor and the constant bring to a demand at their worst or best; nothing when a value is not stated.
std::optional<Wide> rest_of(const ReadyDemand& demand, const FeatureView& anchor, Ask ask) {
  Wide rest = demand.constant;
  for (const Term& term : demand.terms) {
    if (term.of_candidate) continue;
    const Amount& amount = anchor.amounts[term.dimension];
    if (!amount.stated()) return std::nullopt;
    const bool high = (term.factor > 0) == (ask == Ask::possible);
    rest += Wide{term.factor} * (high ? amount.high : amount.low);
  }
  return rest;
}

SizeWindow everything() {
  return {-k_open_end, k_open_end, -k_open_end, k_open_end};
}

void narrow(SizeWindow& window, std::int64_t factor, Wide rest, Ask ask) {
  if (factor > 0) {
    std::int64_t& least = ask == Ask::certain ? window.low_from : window.high_from;
    least = std::max(least, -floor_of(rest, factor));
  } else {
    std::int64_t& most = ask == Ask::certain ? window.high_to : window.low_to;
    most = std::min(most, floor_of(rest, -factor));
  }
}

}  // namespace

Deciding deciding(const ReadyMeeting& meeting) {
  for (const ReadyDemand& demand : meeting.demands)
    if (const Term* term = candidate_term(demand);
        term != nullptr && bounded(meeting, term->dimension, 1) && bounded(meeting, term->dimension, -1))
      return {Deciding::By::dimension, term->dimension};
  if (!meeting.words.empty()) return {Deciding::By::word, meeting.words.front().candidate};
  for (const ReadyDemand& demand : meeting.demands)
    if (const Term* term = candidate_term(demand)) return {Deciding::By::dimension, term->dimension};
  return {};
}

Amount deciding_size(const Deciding& by, const FeatureView& feature) {
  if (by.by == Deciding::By::dimension) return feature.amounts[by.number];
  if (by.by == Deciding::By::nothing) return {};
  const std::int64_t word = feature.words[by.number];
  return word == 0 ? Amount{} : Amount{word, word};
}

std::optional<SizeWindow> window_for(const ReadyMeeting& meeting, const Deciding& by, const FeatureView& anchor,
                                     Ask ask) {
  SizeWindow window = everything();
  if (by.by == Deciding::By::word) {
    const auto used = std::ranges::find(meeting.words, by.number, &ReadyWord::candidate);
    const std::int64_t word = anchor.words[used->anchor];
    if (word != 0) return SizeWindow{word, word, word, word};
    if (ask == Ask::certain) return std::nullopt;
    return window;
  }
  for (const ReadyDemand& demand : meeting.demands) {
    const Term* term = candidate_term(demand);
    if (term == nullptr || by.by == Deciding::By::nothing || term->dimension != by.number) continue;
    const auto rest = rest_of(demand, anchor, ask);
    if (rest)
      narrow(window, term->factor, *rest, ask);
    else if (ask == Ask::certain)
      return std::nullopt;
  }
  return window;
}

Index::Index(Catalog catalog) : catalog_(std::move(catalog)), rules_(catalog_), access_(catalog_.kinds().size()) {
  std::map<Key, std::uint32_t> wanted;
  for (std::uint32_t kind = 0; kind < catalog_.kinds().size(); ++kind)
    for (const ReadyMeeting& meeting : rules_.met_by(kind)) {
      const Deciding by = deciding(meeting);
      const auto number = static_cast<std::uint32_t>(wanted.size());
      access_[kind].push_back({by, wanted.emplace(Key{meeting.candidate_kind, by}, number).first->second});
    }
  sorted_.resize(wanted.size());
  add_ways(wanted);
}

void Index::add_ways(const std::map<Key, std::uint32_t>& wanted) {
  std::vector<std::vector<std::pair<Deciding, std::uint32_t>>> by_kind(catalog_.kinds().size());
  for (const auto& [key, number] : wanted) by_kind[key.first].emplace_back(key.second, number);
  for (Way way = 0; way < catalog_.way_count(); ++way) {
    const FeatureView entrance = catalog_.entrance(way);
    const std::int64_t cost = catalog_.cost(catalog_.piece_of(way));
    most_cost_ = std::max(most_cost_, cost);
    for (const auto& [by, number] : by_kind[entrance.kind]) {
      Sorted& sorted = sorted_[number];
      const Amount size = deciding_size(by, entrance);
      const bool loose = !size.stated() || size.high - size.low > k_loose;
      (loose ? sorted.loose : sorted.entries).push_back({size.low, size.high, cost, way});
      if (!loose) sorted.widest = std::max(sorted.widest, size.high - size.low);
    }
  }
  for (Sorted& sorted : sorted_) std::sort(sorted.entries.begin(), sorted.entries.end());
}

}  // namespace cotter::engine::fit::bridge
