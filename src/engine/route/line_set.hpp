#pragma once
// Sets of lines and of apertures as bits.

#include <bit>
#include <bitset>
#include <cstdint>
#include <vector>

#include "engine/route/problem.hpp"

namespace cotter::engine::route {

using LineSet = std::uint64_t;
using ApertureSet = std::bitset<k_most_apertures>;

inline LineSet only(int line) {
  return LineSet{1} << line;
}
inline bool has(LineSet set, int line) {
  return (set >> line & 1U) != 0;
}
inline int count(LineSet set) {
  return std::popcount(set);
}
/// Lowest line of a set that is not empty.
inline int first(LineSet set) {
  return std::countr_zero(set);
}
inline LineSet without_first(LineSet set) {
  return set & (set - 1);
}
inline LineSet all_lines(std::size_t n) {
  return n == k_most_lines ? ~LineSet{0} : (LineSet{1} << n) - 1;
}

inline std::vector<int> listed(LineSet set) {
  std::vector<int> lines;
  for (; set != 0; set = without_first(set)) lines.push_back(first(set));
  return lines;
}

}  // namespace cotter::engine::route
