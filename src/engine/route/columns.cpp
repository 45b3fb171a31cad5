#include "engine/route/columns.hpp"

namespace cotter::engine::route {

namespace {

constexpr std::size_t k_bits = 64;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

}  // namespace

Columns::Columns(const Problem& problem, const std::vector<Way>& ways, LineSet lines)
    : problem_(problem),
      ways_(ways),
      lines_(lines),
      words_(problem.lines.size()),
      first_of_(problem.lines.size()),
      way_count_(problem.lines.size()),
      through_(problem.lines.size() * problem.apertures.size(), k_no_mask),
      seated_(problem.lines.size()),
      lines_at_(problem.devices.size()) {
  for (std::size_t w = 0; w < ways.size(); ++w) {
    if (way_count_[index(ways[w].line)]++ == 0) first_of_[index(ways[w].line)] = w;
  }
  for (const int line : listed(lines)) {
    words_[index(line)].from = word_count_;
    word_count_ += (way_count_[index(line)] + k_bits - 1) / k_bits;
    words_[index(line)].to = word_count_;
    for (std::size_t w = 0; w < words_[index(line)].size(); ++w)
      first_way_.push_back(first_of_[index(line)] + w * k_bits);
    for (std::size_t end = 0; end < 2; ++end) {
      const int device = problem.lines[index(line)].ends[end].device;
      lines_at_[index(device)] |= only(line);
      seated_[index(line)][end].assign(problem.devices[index(device)].seats.size(), k_no_mask);
    }
  }
  for (std::size_t w = 0; w < ways.size(); ++w) {
    const int line = ways[w].line;
    if (!has(lines, line)) continue;
    for (const int a : ways[w].path) set(through_[key(line, a)], line, w);
    for (std::size_t end = 0; end < 2; ++end) {
      auto& seats = seated_[index(line)][end];
      for (int seat = 0; seat < static_cast<int>(seats.size()); ++seat)
        if (ways[w].seats[end] == seat || ways[w].seats[end] == k_any_seat) set(seats[index(seat)], line, w);
    }
  }
}

void Columns::set(std::size_t& entry, int line, std::size_t way) {
  if (entry == k_no_mask) {
    entry = masks_.size();
    masks_.resize(masks_.size() + words_[index(line)].size());
  }
  const std::size_t bit = way - first_of_[index(line)];
  masks_[entry + bit / k_bits] |= Word{1} << bit % k_bits;
}

const Word* Columns::seated(int line, std::size_t end, int seat) const {
  return mask(seated_[index(line)][end], index(seat));
}

std::vector<Word> Columns::everything() const {
  std::vector<Word> alive(word_count_, ~Word{0});
  for (const int line : listed(lines_)) {
    const std::size_t rest = way_count_[index(line)] % k_bits;
    if (rest != 0) alive[words(line).to - 1] = (Word{1} << rest) - 1;
  }
  return alive;
}

}  // namespace cotter::engine::route
