#pragma once
// A small linear program: the least slack with which all rows hold. Rows come in one at a time, from outside, so that
// a curve can be given as its tangents, each made when it is needed.

#include <array>
#include <cstddef>

namespace cotter::geometry::packing {

constexpr int k_most_bodies = 13;
constexpr int k_most_unknowns = 2 * k_most_bodies + 2;  ///< two places a body, a turn, and the slack

/// sum of value * unknown, plus the slack, is at least `bound`.
struct Row {
  struct Entry {
    int unknown = 0;
    double value = 0;
  };
  std::array<Entry, 5> entries;
  int size = 0;
  double bound = 0;

  void add(int unknown, double value) { entries[static_cast<std::size_t>(size++)] = {unknown, value}; }
};

/// Minimises the slack over unknowns of either sign.
///
/// **Method** simplex on the dual, where a new row is a new column: the basis stays feasible, so a program is copied
/// and goes on from where it was when more rows come. The slack only rises, and is at any time a lower bound.
class Program {
 public:
  /// Starts with each unknown bounded above by `above[k]` plus the slack, unknown 0 also below by minus that.
  Program(int unknowns, const std::array<double, k_most_unknowns>& above);

  double slack() const { return at_[static_cast<std::size_t>(unknowns_)]; }
  const std::array<double, k_most_unknowns>& point() const { return at_; }
  /// By how much the row fails at the present point; positive = fails.
  double shortfall(const Row& row) const;
  /// Brings in a row that fails. False when no basis can be found: numbers too poor.
  bool enter(const Row& row);
  /// A lower bound of the slack that holds whatever was rounded, when every unknown is within 1 and -1.
  double certain_slack() const;

 private:
  using Numbers = std::array<double, k_most_unknowns>;
  int leaving_row(const Numbers& step) const;

  int unknowns_ = 0;
  int size_ = 0;
  std::array<Numbers, k_most_unknowns> inverse_{};  ///< of the matrix whose columns are the basis rows
  std::array<Row, k_most_unknowns> basis_{};
  Numbers weight_{};  ///< multiplier of each basis row
  Numbers at_{};
};

}  // namespace cotter::geometry::packing
