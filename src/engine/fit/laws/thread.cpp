#include "engine/fit/laws/all.hpp"

namespace cotter::engine::fit::laws {

namespace {

/// Two pitches count as one when they differ by no more than this. The nearest pair in the trade, 24 threads per inch
/// (1.0583 mm) and 1 mm, is 0.058 mm apart; a pitch read from a gauge is written to two decimals.
constexpr std::int64_t k_pitch_tolerance_nm = 5'000;

}  // namespace

/// Clearance of the major diameters; pitch, hand and form must be the same.
LawSpec thread() {
  using enum quantity::Dimension;
  return {.law = Law::thread,
          .word = "thread",
          .formula = "internal_major - external_major",
          .roles = {{"internal_major", length},
                    {"external_major", length},
                    {"internal_pitch", length},
                    {"external_pitch", length}},
          .number = {{{1, -1, 0, 0}}},
          .unwindowed = Unwindowed::zero,
          .equalities = {{"pitch", 2, 3, k_pitch_tolerance_nm}},
          .words = {{"hand"}, {"form"}}};
}

}  // namespace cotter::engine::fit::laws
