#include "engine/route/prices.hpp"

#include <algorithm>
#include <limits>
#include <optional>

#include "engine/route/apertures.hpp"
#include "geometry/wide.hpp"

namespace cotter::engine::route {

namespace {

using geometry::Wide;

/// Weights are in 1/10000 of the widest circle of the aperture, rounded down.
constexpr std::int64_t k_whole = 10'000;

Wide square(quantity::Length length) {
  return static_cast<Wide>(length.base()) * length.base();
}

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

/// An upper limit to the sum of squared diameters in a shared aperture of the given width.
class Capacity {
 public:
  Capacity(const Problem& problem, LineSet users) : problem_(problem), users_(users) {}

  Wide at(quantity::Length width) const { return std::max(of_one(width), of_several(width)); }

 private:
  Wide of_one(quantity::Length width) const {
    Wide most = 0;
    for (const int k : listed(users_)) {
      if (line(k).diameter <= width) most = std::max(most, square(line(k).diameter));
    }
    return most;
  }

  Wide of_several(quantity::Length width) const {
    if (problem_.rules.packing == Packing::exact) return square(width);
    Wide most = problem_.rules.pack_permille * square(width) / 1000;
    for (const int k : listed(users_)) most = std::max(most, of_equals(line(k).diameter, width));
    return std::min(most, before_the_last(width));
  }

  Wide of_equals(quantity::Length diameter, quantity::Length width) const {
    Wide n = 0;
    const auto& table = problem_.rules.equal_table;
    for (std::size_t i = 0; i < table.size(); ++i) {
      if (k_whole * static_cast<Wide>(width.base()) >= static_cast<Wide>(table[i]) * diameter.base())
        n = static_cast<Wide>(i) + 1;
    }
    return n * square(diameter);
  }

  /// The line pulled last brings its connector: the bodies are within the pulling share less the least excess of a
  /// connector over its body.
  Wide before_the_last(quantity::Length width) const {
    std::optional<Wide> least;
    for (const int k : listed(users_)) {
      const Line& last = line(k);
      const auto& connector = last.ends[index(leading_end(last))].connector;
      const Wide excess = square(connector.diameter) - square(last.diameter);
      if (!least || excess < *least) least = excess;
    }
    return std::max<Wide>(0, problem_.rules.pull_permille * square(width) / 1000 - least.value_or(0));
  }

  const Line& line(int k) const { return problem_.lines[index(k)]; }

  const Problem& problem_;
  LineSet users_;
};

}  // namespace

Prices::Prices(const Problem& problem, const std::vector<Way>& ways, LineSet lines)
    : lines_(problem.lines.size()), rooms_(problem.apertures.size()), price_(problem.apertures.size()) {
  std::vector<LineSet> users(problem.apertures.size());
  for (const Way& way : ways) {
    for (const int a : way.path) users[index(a)] |= only(way.line) & lines;
  }
  for (std::size_t a = 0; a < rooms_.size(); ++a) {
    const Aperture& aperture = problem.apertures[a];
    const bool exclusive = aperture.kind == ApertureKind::exclusive;
    const auto width_at = [&](int steps) { return aperture.opening.width + k_enlarge_step * steps; };
    const Wide whole = square(width_at(aperture.enlarge_max));
    for (const Line& line : problem.lines)
      rooms_[a].weights.push_back(exclusive ? k_whole
                                            : static_cast<std::int64_t>(square(line.diameter) * k_whole / whole));
    const Capacity capacity(problem, users[a]);
    for (int steps = 0; steps <= aperture.enlarge_max; ++steps) {
      const Wide room = exclusive ? k_whole : capacity.at(width_at(steps)) * k_whole / whole;
      rooms_[a].levels.push_back({static_cast<std::int64_t>(room), aperture.enlarge_cost * steps * k_price_unit});
    }
  }
  apply(ways);
}

const Prices::Level& Prices::dearest_level(std::size_t aperture) const {
  const auto worth = [&](const Level& level) { return price_[aperture] * level.capacity - level.cost; };
  const auto& levels = rooms_[aperture].levels;
  return *std::max_element(levels.begin(), levels.end(),
                           [&](const Level& x, const Level& y) { return worth(x) < worth(y); });
}

void Prices::apply(const std::vector<Way>& ways) {
  priced_.resize(ways.size());
  for (std::size_t w = 0; w < ways.size(); ++w) {
    std::int64_t cost = ways[w].cost * k_price_unit;
    for (const int a : ways[w].path) cost += price_[index(a)] * rooms_[index(a)].weights[index(ways[w].line)];
    priced_[w] = cost;
  }
  worth_ = 0;
  for (std::size_t a = 0; a < rooms_.size(); ++a) {
    const Level& level = dearest_level(a);
    worth_ += price_[a] * level.capacity - level.cost;
  }
}

std::int64_t Prices::bound(const std::vector<Way>& ways, const std::vector<char>& alive,
                           std::vector<std::int64_t>& use) const {
  std::vector<std::optional<std::size_t>> cheapest(lines_);
  for (std::size_t w = 0; w < ways.size(); ++w) {
    if (alive[w] == 0) continue;
    auto& best = cheapest[index(ways[w].line)];
    if (!best || priced_[w] < priced_[*best]) best = w;
  }
  std::fill(use.begin(), use.end(), 0);
  std::int64_t total = -worth_;
  for (const auto& best : cheapest) {
    if (!best) continue;
    total += priced_[*best];
    for (const int a : ways[*best].path) use[index(a)] += rooms_[index(a)].weights[index(ways[*best].line)];
  }
  return total;
}

void Prices::tune(const std::vector<Way>& ways, const std::vector<char>& alive, int rounds) {
  std::vector<std::int64_t> use(rooms_.size());
  std::vector<std::int64_t> best_price = price_;
  std::int64_t best = bound(ways, alive, use);
  double length = 0.05;
  int since_better = 0;
  for (int round = 0; round < rounds; ++round) {
    double norm = 0;
    for (std::size_t a = 0; a < use.size(); ++a) {
      const auto over = static_cast<double>(use[a] - dearest_level(a).capacity);
      if (over > 0 || price_[a] > 0) norm += over * over;
    }
    if (norm == 0) break;
    const double stride = length * static_cast<double>(std::max<std::int64_t>(best, k_price_unit)) / norm;
    for (std::size_t a = 0; a < use.size(); ++a) {
      const auto move = static_cast<double>(use[a] - dearest_level(a).capacity) * stride;
      price_[a] = std::max<std::int64_t>(0, price_[a] + static_cast<std::int64_t>(move));
    }
    apply(ways);
    const std::int64_t now = bound(ways, alive, use);
    if (now > best) {
      best = now;
      best_price = price_;
      since_better = 0;
    } else if (++since_better >= 5) {
      length *= 0.6;
      since_better = 0;
      price_ = best_price;
      apply(ways);
      bound(ways, alive, use);
    }
  }
  price_ = best_price;
  apply(ways);
}

}  // namespace cotter::engine::route
