#include "quantity/distribution.hpp"

#include <algorithm>
#include <boost/multiprecision/cpp_int.hpp>
#include <cmath>
#include <map>

namespace cotter::quantity {
namespace {

using boost::multiprecision::cpp_int;

/// Terms of one and the same width: choosing k of them can be done in binomial(count, k) ways.
struct Group {
  std::int64_t width;
  std::int64_t count;
};

std::vector<Group> group_by_width(const std::vector<std::int64_t>& widths) {
  std::map<std::int64_t, std::int64_t, std::greater<>> counts;
  for (const std::int64_t width : widths) ++counts[width];
  std::vector<Group> groups;
  for (const auto& [width, count] : counts) groups.push_back({width, count});
  return groups;
}

/// Sum over the corners of the box of errors of (-1)^|S| (rest - width(S))^power, corners beyond `rest` left out.
cpp_int sum_over_corners(const std::vector<Group>& groups, std::size_t first, std::int64_t rest, std::int64_t ways,
                         unsigned power) {
  if (first == groups.size()) return boost::multiprecision::pow(cpp_int(rest), power) * ways;
  const Group& group = groups[first];
  cpp_int sum = 0;
  std::int64_t chosen_ways = ways;
  for (std::int64_t chosen = 0; chosen <= group.count && rest > 0; ++chosen) {
    sum += sum_over_corners(groups, first + 1, rest, chosen_ways, power);
    rest -= group.width;
    chosen_ways = -chosen_ways * (group.count - chosen) / (chosen + 1);
  }
  return sum;
}

/// numerator / denominator with 0 <= numerator <= denominator, the relative error below 2^-52.
double ratio(const cpp_int& numerator, const cpp_int& denominator) {
  if (numerator <= 0) return 0;
  const auto shift = 62 + static_cast<int>(msb(denominator)) - static_cast<int>(msb(numerator));
  const cpp_int quotient = (numerator << static_cast<unsigned>(shift)) / denominator;
  return std::ldexp(static_cast<double>(quotient.convert_to<std::uint64_t>()), -shift);
}

}  // namespace

tl::expected<UniformSum, UniformSum::Refusal> UniformSum::of(const std::vector<Interval<Length>>& terms) {
  UniformSum sum;
  for (const Interval<Length>& term : terms) {
    sum.support_ = sum.support_ + term;
    if (term.width() != Length{}) sum.widths_.push_back(in_nanometres(term.width()));
  }
  if (sum.widths_.size() > k_most_terms) return tl::unexpected(Refusal::too_many_terms);
  return sum;
}

double UniformSum::probability_at_most(Length x) const {
  if (x >= support_.high()) return 1;
  if (x < support_.low()) return 0;
  // The sum is symmetric: work from the nearer end, where fewer corners count and small numbers stay sharp.
  const std::int64_t from_low = in_nanometres(x - support_.low());
  const std::int64_t from_high = in_nanometres(support_.high() - x);
  const auto power = static_cast<unsigned>(widths_.size());
  const cpp_int corners = sum_over_corners(group_by_width(widths_), 0, std::min(from_low, from_high), 1, power);
  cpp_int whole = 1;
  for (std::size_t i = 0; i < widths_.size(); ++i) whole *= cpp_int(widths_[i]) * (i + 1);
  const double tail = ratio(corners, whole);
  return from_low <= from_high ? tail : 1 - tail;
}

double UniformSum::probability_within(Interval<Length> window) const {
  if (support_.width() == Length{}) return window.contains(support_.low()) ? 1 : 0;
  return std::max(0.0, probability_at_most(window.high()) - probability_at_most(window.low()));
}

double UniformSum::variance() const {
  double sum = 0;
  for (const std::int64_t width : widths_) sum += static_cast<double>(width) * static_cast<double>(width);
  return sum / 12;
}

}  // namespace cotter::quantity
