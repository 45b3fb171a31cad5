#pragma once
// The ways of all lines as columns of bits, so that a line's ways are kept or dropped many at a time. The ways of each
// line start at a fresh word.

#include <array>
#include <cstdint>
#include <vector>

#include "engine/route/line_set.hpp"
#include "engine/route/problem.hpp"
#include "engine/route/ways.hpp"

namespace cotter::engine::route {

using Word = std::uint64_t;
using SeatSet = std::uint64_t;

inline SeatSet seat_bit(int seat) {
  return SeatSet{1} << seat;
}

class Columns {
 public:
  /// `ways` must outlive it and be grouped by line.
  Columns(const Problem& problem, const std::vector<Way>& ways, LineSet lines);

  struct Words {
    std::size_t from = 0;
    std::size_t to = 0;
    std::size_t size() const { return to - from; }
  };
  Words words(int line) const { return words_[static_cast<std::size_t>(line)]; }
  std::size_t word_count() const { return word_count_; }
  /// The word in which a bit for each way of the routed lines is set.
  std::vector<Word> everything() const;

  std::size_t way(std::size_t word, int bit) const { return first_way_[word] + static_cast<std::size_t>(bit); }
  const Way& at(std::size_t way) const { return ways_[way]; }
  const std::vector<Way>& ways() const { return ways_; }

  /// Ways of a line through an aperture, in the line's words; null when there are none.
  const Word* through(int line, int aperture) const { return mask(through_, key(line, aperture)); }
  /// Ways of a line that suit a seat at one of its ends.
  const Word* seated(int line, std::size_t end, int seat) const;

  LineSet lines() const { return lines_; }
  LineSet lines_at(int device) const { return lines_at_[static_cast<std::size_t>(device)]; }
  const Problem& problem() const { return problem_; }

 private:
  static constexpr std::size_t k_no_mask = static_cast<std::size_t>(-1);

  std::size_t key(int line, int aperture) const {
    return static_cast<std::size_t>(line) * problem_.apertures.size() + static_cast<std::size_t>(aperture);
  }
  const Word* mask(const std::vector<std::size_t>& table, std::size_t entry) const {
    return table[entry] == k_no_mask ? nullptr : &masks_[table[entry]];
  }
  void set(std::size_t& entry, int line, std::size_t way);

  const Problem& problem_;
  const std::vector<Way>& ways_;
  LineSet lines_;
  std::vector<Words> words_;  ///< by line
  std::size_t word_count_ = 0;
  std::vector<std::size_t> first_way_;  ///< by word
  std::vector<std::size_t> first_of_;   ///< by line: its first way
  std::vector<std::size_t> way_count_;  ///< by line
  std::vector<Word> masks_;
  std::vector<std::size_t> through_;
  std::vector<std::array<std::vector<std::size_t>, 2>> seated_;
  std::vector<LineSet> lines_at_;
};

/// Calls `visit(way)` for each way of a line whose bit is set.
template <class Visit>
void each_way(const Columns& columns, const std::vector<Word>& alive, int line, const Visit& visit) {
  const Columns::Words words = columns.words(line);
  for (std::size_t w = words.from; w < words.to; ++w) {
    for (Word rest = alive[w]; rest != 0; rest &= rest - 1) visit(columns.way(w, std::countr_zero(rest)));
  }
}

}  // namespace cotter::engine::route
