#include <algorithm>
#include <vector>

#include "quantity/edit_distance.hpp"
#include "quantity/text.hpp"

namespace cotter::quantity {
namespace {

/// Longer words are sentences or garbage, not a slip of the finger; also bounds the work on hostile text.
constexpr std::size_t k_longest_word = 100;

char lowered(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

}  // namespace

std::string lower_case(std::string_view word) {
  std::string lower(word);
  std::transform(lower.begin(), lower.end(), lower.begin(), lowered);
  return lower;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t exchange = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, exchange});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return row[b.size()];
}

std::optional<std::string> nearest_word(std::string_view word, const std::vector<std::string>& candidates) {
  if (word.empty() || word.size() > k_longest_word) return std::nullopt;
  const std::string typed = lower_case(word);
  std::optional<std::string> nearest;
  std::size_t least = k_longest_word;
  for (const std::string& candidate : candidates) {
    if (candidate.size() > k_longest_word) continue;
    const std::size_t distance = edit_distance(typed, lower_case(candidate));
    if (distance < least && 3 * distance <= std::max(word.size(), candidate.size())) {
      least = distance;
      nearest = candidate;
    }
  }
  return nearest;
}

}  // namespace cotter::quantity
