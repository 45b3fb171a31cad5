#pragma once
// Catalogs of invented adapters: tubes and sleeves in many sizes, for tests and for the bench.

#include <random>

#include "bridge_peer.hpp"

namespace cotter::engine::fit::bridge::invented {

struct Shape {
  std::uint32_t families = 4;  ///< each a kind of bore, the kind of shaft that goes into it, and a word
  std::uint32_t pieces = 40;
  std::int64_t least = 20'000'000;  ///< nm
  std::int64_t most = 24'000'000;
  std::int64_t step = 100'000;
  std::int64_t most_cost = 5'000;
  std::uint32_t loose_percent = 10;  ///< features with a value that nobody knows, or a word left out
};

class Maker {
 public:
  Maker(std::uint64_t seed, Shape shape) : random_(seed), shape_(shape) {}

  std::vector<Kind> kinds() const {
    return std::vector<Kind>(2 * shape_.families, Kind{{Dimension::length, Dimension::angle}, 1});
  }

  /// Bore 2f takes shaft 2f + 1: a clearance window, an angle, and in every second family a word.
  std::vector<Meeting> meetings() const {
    std::vector<Meeting> out;
    for (std::uint32_t family = 0; family < shape_.families; ++family) {
      using enum RuleOperand::Side;
      Rule clearance{Law::bore_on_shaft, {{"bore", own, 0, 0, {}}, {"shaft", other, 0, 0, {}}}, {}, {}};
      clearance.must = {Mixed::from_base(10'000), Mixed::from_base(250'000)};
      Meeting meeting{2 * family, 2 * family + 1, {clearance}};
      if (family % 2 == 1) meeting.rules.push_back({Law::equal_family, {}, {{"family", 0, 0}}, {}});
      out.push_back(meeting);
    }
    return out;
  }

  Feature feature() { return feature(number(2 * shape_.families)); }

  Piece piece() {
    Piece out;
    out.cost = static_cast<std::int64_t>(number(static_cast<std::uint32_t>(shape_.most_cost)));
    out.features = {feature(), feature()};
    out.links = {{0, 1}};
    return out;
  }

  std::uint32_t number(std::uint32_t below) { return static_cast<std::uint32_t>(random_() % below); }

 private:
  Feature feature(std::uint32_t kind) {
    const auto steps = static_cast<std::uint32_t>((shape_.most - shape_.least) / shape_.step);
    const std::int64_t size = shape_.least + shape_.step * number(steps) - (kind % 2 == 1 ? 60'000 : 0);
    Feature out{kind, {{size - 20'000, size + 20'000}, {0, 0}}, {1 + number(2)}};
    if (number(100) < shape_.loose_percent) {
      if (number(2) == 0)
        out.amounts[0] = {shape_.least, shape_.most, false, false};
      else
        out.words[0] = 0;
      if (number(4) == 0) out.amounts[0] = {};
    }
    return out;
  }

  std::mt19937_64 random_;
  Shape shape_;
};

inline peer::PlainCatalog catalog(Maker& maker, std::uint32_t pieces) {
  peer::PlainCatalog out{maker.kinds(), maker.meetings(), {}};
  for (std::uint32_t i = 0; i < pieces; ++i) out.pieces.push_back(maker.piece());
  return out;
}

}  // namespace cotter::engine::fit::bridge::invented
