#include "engine/fit/bridge/index.hpp"

#include <algorithm>
#include <numeric>

namespace cotter::engine::fit::bridge {
namespace {

/// Amounts stay below 1e15, so this is outside of all.
constexpr std::int64_t k_far = 4'000'000'000'000'000;
/// Sizes wider than this would spoil the narrow windows of all others; in base units, 1 mm for a length.
constexpr std::int64_t k_loose = 1'000'000;

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
  return static_cast<std::int64_t>(std::clamp<Wide>(quotient, -k_far, k_far));
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
  return {-k_far, k_far, -k_far, k_far};
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
  std::vector<std::vector<std::pair<std::int64_t, Way>>> found(sorted_.size());
  for (Way way = 0; way < catalog_.way_count(); ++way) {
    const FeatureView entrance = catalog_.entrance(way);
    for (const auto& [by, number] : by_kind[entrance.kind]) {
      const Amount size = deciding_size(by, entrance);
      if (!size.stated() || size.high - size.low > k_loose) {
        sorted_[number].loose.push_back(way);
        continue;
      }
      sorted_[number].widest = std::max(sorted_[number].widest, size.high - size.low);
      found[number].emplace_back(size.low, way);
    }
  }
  for (std::size_t i = 0; i < sorted_.size(); ++i) {
    std::sort(found[i].begin(), found[i].end());
    sorted_[i].low.reserve(found[i].size());
    sorted_[i].ways.reserve(found[i].size());
    for (const auto& [low, way] : found[i]) {
      sorted_[i].low.push_back(low);
      sorted_[i].ways.push_back(way);
    }
    found[i] = {};
  }
}

}  // namespace cotter::engine::fit::bridge
