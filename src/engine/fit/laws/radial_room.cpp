#include "engine/fit/laws/all.hpp"

namespace cotter::engine::fit::laws {

/// Radial room for a line between a shaft and the bore around it, when a wall (a cup), a sleeve and running clearance
/// have taken their share. The diameters count half, the others whole.
LawSpec radial_room() {
  using enum quantity::Dimension;
  return {.law = Law::radial_room,
          .word = "radial_room",
          .formula = "(bore - shaft)/2 - wall - sleeve - run",
          .roles = {{"bore", length}, {"shaft", length}, {"wall", length}, {"sleeve", length}, {"run", length}},
          .number = {{{1, -1, -2, -2, -2}, 0, 2}}};
}

}  // namespace cotter::engine::fit::laws
