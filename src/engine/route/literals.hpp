#pragma once
// Yes-or-no questions of the search: does a line pass an aperture, does a device sit on a seat.

#include <cstdint>
#include <vector>

#include "engine/route/problem.hpp"

namespace cotter::engine::route {

/// A question and its answer; `code` is twice the number of the question, plus one for no.
struct Literal {
  std::uint32_t code = 0;

  std::size_t variable() const { return code >> 1U; }
  bool yes() const { return (code & 1U) == 0; }
  Literal negated() const { return {code ^ 1U}; }
  bool operator==(const Literal&) const = default;
};

class Variables {
 public:
  explicit Variables(const Problem& problem) : apertures_(problem.apertures.size()) {
    std::size_t next = problem.lines.size() * apertures_;
    for (const Device& device : problem.devices) {
      first_seat_.push_back(next);
      next += device.seats.size();
    }
    count_ = next;
  }

  std::size_t count() const { return count_; }
  Literal passes(int line, int aperture, bool yes = true) const {
    return make(static_cast<std::size_t>(line) * apertures_ + static_cast<std::size_t>(aperture), yes);
  }
  Literal sits(int device, int seat, bool yes = true) const {
    return make(first_seat_[static_cast<std::size_t>(device)] + static_cast<std::size_t>(seat), yes);
  }

  bool is_passing(Literal literal) const { return first_seat_.empty() || literal.variable() < first_seat_.front(); }
  int line(Literal literal) const { return static_cast<int>(literal.variable() / apertures_); }
  int aperture(Literal literal) const { return static_cast<int>(literal.variable() % apertures_); }
  int device(Literal literal) const {
    std::size_t device = first_seat_.size() - 1;
    while (first_seat_[device] > literal.variable()) --device;
    return static_cast<int>(device);
  }
  int seat(Literal literal) const {
    return static_cast<int>(literal.variable() - first_seat_[static_cast<std::size_t>(device(literal))]);
  }

 private:
  static Literal make(std::size_t variable, bool yes) {
    return {static_cast<std::uint32_t>(2 * variable + (yes ? 0 : 1))};
  }

  std::size_t apertures_;
  std::vector<std::size_t> first_seat_;  ///< by device
  std::size_t count_ = 0;
};

}  // namespace cotter::engine::route
