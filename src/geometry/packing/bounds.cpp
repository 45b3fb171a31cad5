#include "geometry/packing/bounds.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <numeric>

#include "geometry/wide.hpp"

namespace cotter::geometry::packing {

namespace {

constexpr std::size_t k_most_equal = 7;
constexpr Wide k_ratio_unit = 10'000'000'000;
// Opening over diameter for n equal circles, in units of 1e-10, rounded up and down:
// 1, 2, 1 + 2/sqrt 3, 1 + sqrt 2, 1 + sqrt(2 (1 + 1/sqrt 5)), 3, 3.
constexpr std::array<std::int64_t, k_most_equal> k_equal_enough = {
    10'000'000'000, 20'000'000'000, 21'547'005'384, 24'142'135'624, 27'013'016'167, 30'000'000'000, 30'000'000'000};
constexpr std::array<std::int64_t, k_most_equal> k_equal_least = {
    10'000'000'000, 20'000'000'000, 21'547'005'383, 24'142'135'623, 27'013'016'166, 30'000'000'000, 30'000'000'000};
/// What doubles may be wrong by in the bounds below, with much to spare.
constexpr double k_rounding = 1e-12;

Wide wide(std::int64_t n) {
  return n;
}

double real(std::int64_t n) {
  return static_cast<double>(n);
}

quantity::Length rounded(double nanometres) {
  return quantity::nanometres(std::llround(nanometres));
}

PackingJudgement judged(PackingAnswer answer, PackingBound bound, std::int64_t needed, std::int64_t offered) {
  return {answer, bound, quantity::nanometres(needed), quantity::nanometres(offered), 0, std::nullopt};
}

class Bounds {
 public:
  Bounds(const Opening& opening, const Diameters& d, const std::optional<Rectangle>& plug)
      : opening_(opening), d_(d), plug_(plug), w_(opening.width.base()), l_(opening.length.base()) {}

  PackingJudgement judge() const {
    if (plug_ && !passes(*plug_, opening_)) return {PackingAnswer::cannot, PackingBound::plug, {}, {}, 0, {}};
    if (d_.empty()) return {PackingAnswer::fits, plug_ ? PackingBound::plug : PackingBound::single, {}, {}, 0, {}};
    if (d_[0] > w_) return judged(PackingAnswer::cannot, PackingBound::single, d_[0], w_);
    if (d_.size() == 1 && !plug_) return judged(PackingAnswer::fits, PackingBound::single, d_[0], w_);
    for (const auto rule :
         {&Bounds::pair, &Bounds::row, &Bounds::area, &Bounds::triple, &Bounds::equal, &Bounds::spread}) {
      const PackingJudgement judgement = (this->*rule)();
      if (judgement.answer != PackingAnswer::undecided) return judgement;
    }
    return {};
  }

 private:
  bool round() const { return w_ == l_; }
  bool oval() const { return opening_.shape == Shape::oval && !round(); }

  /// Two circles lie along the opening, one at each end.
  PackingJudgement pair() const {
    if (d_.size() < 2) return {};
    const std::int64_t both = d_[0] + d_[1];
    const bool alone = d_.size() == 2 && !plug_;
    if (!oval()) {
      if (both > l_) return judged(PackingAnswer::cannot, PackingBound::pair, both, l_);
      return alone ? judged(PackingAnswer::fits, PackingBound::pair, both, l_) : PackingJudgement{};
    }
    // Twice the distance between the outermost centres, against twice what the circles need.
    const double offered = outermost(d_[0]) + outermost(d_[1]);
    const auto answer = [&](PackingAnswer a) { return judged(a, PackingBound::pair, both, std::llround(offered)); };
    if (real(both) > offered * (1 + k_rounding)) return answer(PackingAnswer::cannot);
    const bool at_the_tips = wide(d_[0]) * l_ <= wide(w_) * w_ && both <= l_;
    return alone && (at_the_tips || real(both) <= offered * (1 - k_rounding)) ? answer(PackingAnswer::fits)
                                                                              : PackingJudgement{};
  }

  /// Twice the greatest distance of a circle's centre from the middle of an oval: at the tip, unless the circle is
  /// blunter than the tip; then it touches above and below.
  double outermost(std::int64_t d) const {
    if (wide(d) * l_ <= wide(w_) * w_) return real(l_ - d);
    const double share = real(d) / real(w_);
    return std::sqrt((1 - share * share) * (real(l_) * real(l_) - real(w_) * real(w_)));
  }

  PackingJudgement row() const {
    const std::int64_t sum = std::accumulate(d_.begin(), d_.end(), std::int64_t{0});
    return !plug_ && !oval() && sum <= l_ ? judged(PackingAnswer::fits, PackingBound::row, sum, l_)
                                          : PackingJudgement{};
  }

  PackingJudgement area() const {
    // Of circles in units of pi/4, so that round openings compare in whole numbers.
    Wide circles = 0;
    for (const std::int64_t d : d_) circles += wide(d) * d;
    const double plug = plug_ ? real(plug_->width.base()) * real(plug_->height.base()) * 4 / std::numbers::pi : 0;
    const double needed = static_cast<double>(circles) + plug;
    const double offered =
        oval() ? real(w_) * real(l_) : real(w_) * real(w_) + real(l_ - w_) * real(w_) * 4 / std::numbers::pi;
    const bool exact = round() && !plug_;
    const bool beyond = exact ? circles > wide(w_) * w_ : needed > offered * (1 + k_rounding);
    const auto answer = [&](PackingAnswer a, PackingBound b) {
      return judged(a, b, std::llround(std::sqrt(needed)), std::llround(std::sqrt(offered)));
    };
    if (beyond) return answer(PackingAnswer::cannot, PackingBound::whole_area);
    if (exact && 2 * circles <= wide(w_) * w_) return answer(PackingAnswer::fits, PackingBound::half_area);
    return {};
  }

  PackingJudgement triple() const {
    if (!round() || d_.size() < 3) return {};
    const bool alone = d_.size() == 3 && !plug_;
    if (third_lies_beside(d_[0], d_[1], d_[2]))
      return alone ? judged(PackingAnswer::fits, PackingBound::pair, d_[0] + d_[1], l_) : PackingJudgement{};
    const Enclosure needed = enclosing_three(d_[0], d_[1], d_[2]);
    const auto answer = [&](PackingAnswer a) {
      return judged(a, PackingBound::triple, rounded(needed.above).base(), l_);
    };
    if (real(l_) < needed.below) return answer(PackingAnswer::cannot);
    return alone && real(l_) >= needed.above ? answer(PackingAnswer::fits) : PackingJudgement{};
  }

  PackingJudgement equal() const {
    if (!round()) return {};
    for (std::size_t m = 4; m <= std::min(d_.size(), k_most_equal); ++m) {
      const Wide least = wide(k_equal_least[m - 1]) * d_[m - 1];
      if (wide(l_) * k_ratio_unit < least)
        return judged(PackingAnswer::cannot, PackingBound::equal_circles,
                      static_cast<std::int64_t>(least / k_ratio_unit), l_);
    }
    if (plug_ || d_.size() > k_most_equal) return {};
    const Wide enough = wide(k_equal_enough[d_.size() - 1]) * d_[0];
    if (wide(l_) * k_ratio_unit < enough) return {};
    return judged(PackingAnswer::fits, PackingBound::equal_circles, static_cast<std::int64_t>(enough / k_ratio_unit),
                  l_);
  }

  /// Oler: points at least d apart in a convex set of area A and girth P number at most
  /// 2/sqrt 3 A/d^2 + P/(2 d) + 1. The centres of the m largest circles are such points.
  PackingJudgement spread() const {
    if (oval()) return {};
    for (std::size_t m = 4; m <= d_.size(); ++m) {
      const double d = real(d_[m - 1]);
      const double cap = (real(w_) - d) / 2;
      const double straight = real(l_ - w_);
      const double area = std::numbers::pi * cap * cap + 2 * cap * straight;
      const double girth = 2 * std::numbers::pi * cap + 2 * straight;
      const double most = 2 / std::numbers::sqrt3 * area / (d * d) + girth / (2 * d) + 1;
      if (static_cast<double>(m) > most + 1e-9) return {PackingAnswer::cannot, PackingBound::spread, {}, {}, 0, {}};
    }
    return {};
  }

  const Opening& opening_;
  const Diameters& d_;
  const std::optional<Rectangle>& plug_;
  std::int64_t w_;
  std::int64_t l_;
};

}  // namespace

Diameters largest_first(const std::vector<quantity::Length>& diameters) {
  Diameters d;
  d.reserve(diameters.size());
  for (const quantity::Length diameter : diameters) d.push_back(diameter.base());
  std::sort(d.begin(), d.end(), std::greater<>());
  return d;
}

bool third_lies_beside(std::int64_t a, std::int64_t b, std::int64_t c) {
  return wide(c) * (wide(a) * a + wide(a) * b + wide(b) * b) <= wide(a) * b * (wide(a) + b);
}

Enclosure enclosing_three(std::int64_t a, std::int64_t b, std::int64_t c) {
  const auto [da, db, dc] = std::array{real(a), real(b), real(c)};
  const double product = da * db * dc;
  const double diameter = product / (2 * std::sqrt(product * (da + db + dc)) - (da * db + db * dc + dc * da));
  // The denominator is a difference whose terms exceed it by about da/dc at most.
  const double error = diameter * 1e-14 * (1 + da / dc);
  return {diameter - error, diameter + error};
}

PackingJudgement judge_by_bounds(const Opening& opening, const Diameters& d, const std::optional<Rectangle>& plug) {
  return Bounds(opening, d, plug).judge();
}

}  // namespace cotter::geometry::packing
