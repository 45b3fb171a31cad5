#pragma once
// What already lies on the sheet, so that what comes next can look for a clear place. Costs are only compared with each
// other; one is about one pixel of detour.

#include <vector>

#include "draw/plane.hpp"

namespace cotter::draw {

class Obstacles {
 public:
  explicit Obstacles(Box area) : area_(area) {}

  /// A drawn line that lettering should not lie on. Lettering on it costs three times its `weight`, a thin line across
  /// it half, one close along it six times.
  void add_line(Spot a, Spot b, double weight);
  void add_circle(Spot centre, double radius, double weight);
  /// Lettering: nothing may lie on it.
  void add_lettering(const Quad& quad);

  const Box& area() const { return area_; }
  /// Cost of lettering in `quad`. Off the sheet or over other lettering it is at least `k_forbidden`.
  double cost_of_lettering(const Quad& quad) const;
  /// Cost of a thin line: what it crosses, at `crossing` times the weight, and drawn lines it would run close along.
  double cost_of_line(Spot a, Spot b, double crossing) const;
  /// Cost of the part of a line that lies in busy places.
  double cost_in_busy(Spot a, Spot b) const;

  /// A place where long lines disturb: a wheel.
  void add_busy(Spot centre, double radius);

  static constexpr double k_forbidden = 10'000;

 private:
  struct Line {
    Spot a, b;
    double weight;
    Box around;
  };
  struct Disc {
    Spot centre;
    double radius;
  };
  Box area_;
  std::vector<Line> lines_;
  std::vector<Quad> lettering_;
  std::vector<Disc> busy_;
};

}  // namespace cotter::draw
