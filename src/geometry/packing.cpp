#include "geometry/packing.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "geometry/packing/bounds.hpp"
#include "geometry/packing/build.hpp"
#include "geometry/packing/search.hpp"
#include "geometry/packing/witness.hpp"

namespace cotter::geometry {

namespace {

using packing::Layout;
using packing::Scene;
using quantity::Length;

constexpr std::size_t k_most_circles = 12;
constexpr int k_rounds = 60;        ///< of pushing apart, from each start
constexpr int k_quick_starts = 2;   ///< without any effort
constexpr int k_starts = 8;         ///< before the search, which does better itself up to six bodies
constexpr int k_many_starts = 150;  ///< beyond six bodies
constexpr std::size_t k_few = 6;
constexpr int k_turned_tries = 256;  ///< roundings of a layout in a round opening
constexpr double k_near = 0.06;      ///< overlap from which a layout is worth improving
constexpr double k_tight = 1e-6;     ///< share of the length below which two circles count as filling it
constexpr Length k_room_step = quantity::micrometres(10);

std::vector<std::size_t> order_of(const std::vector<Length>& diameters) {
  std::vector<std::size_t> order(diameters.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return diameters[a] > diameters[b]; });
  return order;
}

Layout turned_layout(const Layout& layout, double angle) {
  Layout result = layout;
  for (packing::Vector& at : result.circles) at = packing::turned(at, packing::at_angle(angle));
  return result;
}

/// One question, from the bounds to the search.
class Judge {
 public:
  Judge(const Opening& opening, const Bodies& bodies) : opening_(opening), bodies_(bodies) {
    order_ = order_of(bodies.diameters);
    const auto unit = static_cast<double>(opening.length.base());
    scene_.hole = packing::hole_of(opening);
    for (const std::size_t i : order_)
      scene_.radii.push_back(static_cast<double>(bodies.diameters[i].base()) / unit / 2);
    if (bodies.plug) {
      const auto half = [&](Length side) { return static_cast<double>(side.base()) / unit / 2; };
      scene_.plug = packing::Vector{half(bodies.plug->width), half(bodies.plug->height)};
    }
  }

  PackingJudgement judge(Effort effort) {
    PackingJudgement judgement;
    std::int64_t steps = effort.steps;
    if (place_along() || place_beside_two(steps) || build(steps)) {
      judgement.answer = PackingAnswer::fits;
      judgement.bound = PackingBound::places;
    } else if (steps > 0 && order_.size() <= k_most_circles) {
      const auto accept = [this](const Layout& layout) { return accepted(layout); };
      const packing::Outcome outcome = packing::search_layout(scene_, accept, steps).outcome;
      if (outcome == packing::Outcome::found) judgement.answer = PackingAnswer::fits;
      if (outcome == packing::Outcome::found) judgement.bound = PackingBound::places;
      if (outcome == packing::Outcome::refuted) judgement.answer = PackingAnswer::cannot;
      if (outcome == packing::Outcome::refuted) judgement.bound = PackingBound::search;
    }
    judgement.steps = effort.steps - steps;
    judgement.witness = witness_;
    return judgement;
  }

 private:
  /// Circles in a row touching both ends, or a plug alone in the middle: exact places where those will do.
  bool place_along() {
    PackingWitness witness;
    witness.circles.resize(order_.size());
    if (bodies_.plug) {
      if (!order_.empty()) return false;
      for (const std::int64_t degrees : {0, 90}) {
        witness.turn = quantity::microdegrees(degrees * 1'000'000);
        if (keep(witness)) return true;
      }
      return false;
    }
    std::int64_t x = -opening_.length.base();
    for (const std::size_t i : order_) {
      const std::int64_t d = bodies_.diameters[i].base();
      witness.circles[i].x = order_.size() == 1 ? 0 : x + d;
      x += 2 * d;
    }
    if (order_.size() > 1) {
      const std::size_t last = order_.back();
      witness.circles[last].x = (opening_.length - bodies_.diameters[last]).base();
    }
    return keep(witness);
  }

  /// Two circles that fill the length have one place each; the others are found with those two a little smaller and
  /// themselves a little larger, and then the two are put where they belong.
  bool place_beside_two(std::int64_t& steps) {
    if (bodies_.plug || order_.size() < 3 || order_.size() > k_most_circles) return false;
    const Length a = bodies_.diameters[order_[0]];
    const Length b = bodies_.diameters[order_[1]];
    const auto spare = static_cast<double>((opening_.length - a - b).base());
    if (spare > k_tight * static_cast<double>(opening_.length.base())) return false;
    Scene eased = scene_;
    for (std::size_t i = 0; i < eased.circles(); ++i) eased.radii[i] += i < 2 ? -k_tight : 4 * k_tight;
    for (int start = 0; start < k_starts; ++start) {
      std::int64_t used = 0;
      Layout layout = packing::improved(eased, packing::pushed_apart(eased, start, k_rounds, used), used);
      steps -= used;
      if (packing::worst_overlap(eased, layout) > 0) continue;
      const packing::Vector along = layout.circles[1] - layout.circles[0];
      if (scene_.round()) layout = turned_layout(layout, -std::atan2(along.y, along.x));
      const std::int64_t side = scene_.round() || along.x > 0 ? 1 : -1;
      PackingWitness witness = packing::rounded_witness(layout, order_, opening_);
      witness.circles[order_[0]] = {-side * (opening_.length - a).base(), 0};
      witness.circles[order_[1]] = {side * (opening_.length - b).base(), 0};
      if (keep(witness)) return true;
    }
    return false;
  }

  bool build(std::int64_t& steps) {
    const bool few = order_.size() + (bodies_.plug ? 1 : 0) <= k_few;
    const int starts = steps <= 0 ? k_quick_starts : few ? k_starts : k_many_starts;
    for (int start = 0; start < starts && (start < k_quick_starts || steps > 0); ++start) {
      std::int64_t used = 0;
      const Layout pushed = packing::pushed_apart(scene_, start, k_rounds, used);
      const double overlap = packing::worst_overlap(scene_, pushed);
      const bool near = overlap < k_near && order_.size() <= k_most_circles;
      const bool good = accepted(pushed) || (near && accepted(packing::improved(scene_, pushed, used)));
      steps -= used;
      if (good) return true;
    }
    return false;
  }

  /// Rounds the layout and checks what came out; a round opening may be turned until the rounding falls well.
  bool accepted(const Layout& layout) {
    const double overlap = packing::worst_overlap(scene_, layout);
    const double half_nanometre = 0.5 / static_cast<double>(opening_.length.base());
    if (overlap > 2 * half_nanometre) return false;
    if (keep(packing::rounded_witness(layout, order_, opening_))) return true;
    if (!scene_.round() || bodies_.plug || order_.size() > 3 || overlap < -8 * half_nanometre) return false;
    for (int i = 1; i < k_turned_tries; ++i) {
      const Layout turned = turned_layout(layout, i * 2 * std::numbers::pi / k_turned_tries);
      if (keep(packing::rounded_witness(turned, order_, opening_))) return true;
    }
    return false;
  }

  bool keep(const PackingWitness& witness) {
    if (!witness_holds(opening_, bodies_, witness)) return false;
    witness_ = witness;
    return true;
  }

  const Opening& opening_;
  const Bodies& bodies_;
  std::vector<std::size_t> order_;
  Scene scene_;
  std::optional<PackingWitness> witness_;
};

}  // namespace

PackingJudgement judge_packing(const Opening& opening, const Bodies& bodies, Effort effort) {
  const PackingJudgement quick =
      packing::judge_by_bounds(opening, packing::largest_first(bodies.diameters), bodies.plug);
  return quick.answer != PackingAnswer::undecided ? quick : Judge(opening, bodies).judge(effort);
}

std::optional<PackingWitness> packing_witness(const Opening& opening, const Bodies& bodies, Effort effort) {
  const PackingJudgement judgement = judge_packing(opening, bodies, effort);
  if (judgement.answer != PackingAnswer::fits || judgement.witness) return judgement.witness;
  return Judge(opening, bodies).judge(effort).witness;
}

Length room_beside(const Opening& opening, Bodies bodies, Effort effort) {
  if (judge_packing(opening, bodies, effort).answer != PackingAnswer::fits) return {};
  const bool along = opening.shape == Shape::slot || opening.width == opening.length;
  if (!bodies.plug && bodies.diameters.empty()) return opening.width;
  if (!bodies.plug && bodies.diameters.size() == 1 && along)
    return std::min(opening.length - bodies.diameters[0], opening.width);
  bodies.diameters.emplace_back();
  // Three circles in a round opening have a closed form, which costs nothing to ask often.
  const bool closed = opening.width == opening.length && !bodies.plug && bodies.diameters.size() <= 3;
  const Length step = closed ? quantity::nanometres(1) : k_room_step;
  std::int64_t low = 0;
  for (std::int64_t high = opening.width.base() / step.base(); low < high;) {
    const std::int64_t middle = low + (high - low + 1) / 2;
    bodies.diameters.back() = step * middle;
    if (judge_packing(opening, bodies, effort).answer == PackingAnswer::fits) {
      low = middle;
    } else {
      high = middle - 1;
    }
  }
  return step * low;
}

Length opening_for_three(Length a, Length b, Length c) {
  const packing::Diameters d = packing::largest_first({a, b, c});
  if (packing::third_lies_beside(d[0], d[1], d[2])) return quantity::nanometres(d[0] + d[1]);
  return quantity::nanometres(static_cast<std::int64_t>(std::ceil(packing::enclosing_three(d[0], d[1], d[2]).above)));
}

std::string_view word_for(PackingBound bound) {
  switch (bound) {
    case PackingBound::single:
      return "single";
    case PackingBound::plug:
      return "plug";
    case PackingBound::pair:
      return "pair";
    case PackingBound::row:
      return "row";
    case PackingBound::triple:
      return "triple";
    case PackingBound::equal_circles:
      return "equal_circles";
    case PackingBound::half_area:
      return "half_area";
    case PackingBound::whole_area:
      return "whole_area";
    case PackingBound::spread:
      return "spread";
    case PackingBound::places:
      return "places";
    case PackingBound::search:
      return "search";
    case PackingBound::none:
      return "none";
  }
  return "none";
}

}  // namespace cotter::geometry
