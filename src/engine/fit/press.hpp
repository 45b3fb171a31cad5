#pragma once
// Two concentric cylinders pressed together: pressure between them, hoop stress, press force, and by how much the
// diameters beside the joint change. Every input is an interval, every output encloses what follows from all of them.
//
// Valid for thick, isotropic, elastic cylinders of equal length at one temperature; rough surfaces flatten, so the true
// pressure is at most the one given. Not for: yield, layered composite (an order of magnitude only), shells whose wall
// changes along the seat. Formulas, proofs and sources: docs/fit.md.

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fit/problem.hpp"
#include "engine/fit/standards/elastic.hpp"

namespace cotter::engine::fit {

/// Beyond these the problem is refused, so that no result leaves its integer.
inline constexpr std::int64_t k_most_press_size = 1'000'000'000;    ///< nanometres: a metre
inline constexpr std::int64_t k_most_modulus = 10'000'000'000'000;  ///< pascals
inline constexpr std::int64_t k_most_poisson = 500'000;             ///< millionths
inline constexpr std::int64_t k_most_friction = 2'000'000;          ///< millionths
/// The interference may be at most this part of either wall (difference of its two diameters). Beyond it the linear
/// theory is meaningless; within it every result is monotone in bore and shaft.
inline constexpr std::int64_t k_walls_per_interference = 10;

/// What is computed, in this order.
enum class PressNumber {
  interference,   ///< diametral; negative: clearance
  pressure,       ///< between the two; 0 when there is clearance
  hub_hoop,       ///< tension at the bore of the outer part
  shaft_hoop,     ///< compression at the bore of the inner part; of a solid one, anywhere in it
  force,          ///< to press it home
  torque,         ///< that the joint holds by friction
  inner_shrinks,  ///< by how much the bore of the inner part becomes smaller; 0 for a solid one
  outer_grows     ///< by how much the outside of the outer part becomes larger
};
inline constexpr std::size_t k_press_numbers = 8;
std::string_view word_for(PressNumber number);
Dimension dimension_of(PressNumber number);
std::string_view formula_of(PressNumber number);

/// The hub has the bore, the shaft is pressed into it. All lengths are diameters but `length`.
struct PressFit {
  std::string id;
  Operand bore;
  Operand shaft;
  Operand outer;   ///< outside of the hub
  Operand inner;   ///< inside of the shaft; exactly 0: solid
  Operand length;  ///< of the seat
  Elastic hub_material;
  Elastic shaft_material;
  Range friction;   ///< coefficient in millionths
  Window pressure;  ///< where the pressure must lie
  Window hub_hoop;  ///< where the tension at the hub's bore must lie
};

struct PressStep {
  PressNumber number;
  Range range;  ///< rounded outward to whole base units
};

/// One window against its number.
struct PressBound {
  PressNumber number;
  Certainty must = Certainty::holds;
  std::int64_t margin = 0;  ///< at the worst corner; negative: short by so much
  Edge governs = Edge::none;
};

struct PressResult {
  std::string id;
  std::array<PressStep, k_press_numbers> steps;
  std::vector<PressBound> bounds;  ///< of the windows that are stated
  Certainty must = Certainty::holds;
  std::vector<std::string> rests_on;  ///< roles and materials that nobody vouches for

  const Range& range(PressNumber number) const { return steps[static_cast<std::size_t>(number)].range; }
};

/// What keeps a press fit from being computed.
struct PressFault {
  enum class Kind {
    wrong_dimension,
    out_of_bounds,
    wall,          ///< a wall that is not there
    solid_or_not,  ///< an inside diameter from 0 up: a hole of no size doubles the stress of a solid shaft
    too_much,      ///< interference beyond what the theory is for
    window_swapped
  };
  Kind kind;
  std::string name;      ///< role
  std::string accepted;  ///< what would be taken
  bool operator==(const PressFault&) const = default;
};

/// Everything that keeps a press fit from being computed; empty when it can be.
std::vector<PressFault> faults(const PressFit& fit);

/// **Method** Lamé's thick cylinders. Each number is monotone in each operand while the others stand still, so its
/// extremes lie at corners of the box, which are all computed; `inner_shrinks` alone may rise and fall with the inside
/// diameter, and its crest is computed too (docs/fit.md has the proofs).
/// **Accuracy** rounded outward by 1e-12 of the number and to whole base units; a verdict is never better than exact
/// arithmetic would give.
/// **Requires** a press fit without faults.
PressResult press(const PressFit& fit);

}  // namespace cotter::engine::fit
