#include "engine/fit/bridge/catalog.hpp"

#include "quantity/ensure.hpp"

namespace cotter::engine::fit::bridge {

using quantity::ensure;

FeatureView view(const Feature& feature) {
  return {feature.kind, feature.amounts, feature.words};
}

Catalog::Catalog(std::vector<Kind> kinds, std::vector<Meeting> meetings)
    : kinds_(std::move(kinds)), meetings_(std::move(meetings)) {
  for (const Meeting& meeting : meetings_) {
    ensure(meeting.own < kinds_.size() && meeting.other < kinds_.size(), "a meeting names a kind that is not there");
    ensure(meeting.own != meeting.other, "a kind that meets itself has no own side");
  }
}

std::uint32_t Catalog::add(const Piece& piece) {
  ensure(piece.cost >= 0 && piece.cost <= k_most_cost, "the cost of a piece is out of bounds");
  const auto first = static_cast<std::uint32_t>(features_.size());
  for (const Feature& feature : piece.features) {
    ensure(feature.kind < kinds_.size(), "a feature names a kind that is not there");
    const Kind& kind = kinds_[feature.kind];
    ensure(feature.amounts.size() == kind.dimensions.size() && feature.words.size() == kind.words,
           "a feature does not state what its kind asks");
    features_.push_back(
        {feature.kind, static_cast<std::uint32_t>(amounts_.size()), static_cast<std::uint32_t>(words_.size())});
    amounts_.insert(amounts_.end(), feature.amounts.begin(), feature.amounts.end());
    words_.insert(words_.end(), feature.words.begin(), feature.words.end());
  }
  const auto number = static_cast<std::uint32_t>(pieces_.size());
  for (const auto& [a, b] : piece.links) {
    ensure(a < piece.features.size() && b < piece.features.size() && a != b,
           "a link names a feature that is not there");
    links_.push_back({number, first + a, first + b});
  }
  pieces_.push_back({piece.cost, first});
  return number;
}

Link Catalog::link(Way way) const {
  const StoredLink& stored = links_[way / 2];
  const std::uint32_t first = pieces_[stored.piece].first_feature;
  if (way % 2 == 0) return {stored.piece, stored.a - first, stored.b - first};
  return {stored.piece, stored.b - first, stored.a - first};
}

FeatureView Catalog::feature(std::uint32_t number) const {
  const StoredFeature& stored = features_[number];
  const Kind& kind = kinds_[stored.kind];
  return {stored.kind,
          {amounts_.data() + stored.first_amount, kind.dimensions.size()},
          {words_.data() + stored.first_word, kind.words}};
}

}  // namespace cotter::engine::fit::bridge
