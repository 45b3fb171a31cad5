#pragma once
// What one body at a time can be pushed straight through: round holes and slots, round bodies and rectangular plugs.

#include "quantity/amount.hpp"

namespace cotter::geometry {

/// Clear size of a hole. A slot has two half circles of diameter `width` at its ends; a round hole has both sizes
/// equal. Requires 0 < width <= length.
struct Opening {
  quantity::Length width;
  quantity::Length length;

  bool operator==(const Opening&) const = default;
};

/// Cross-section of a rectangular plug.
struct Rectangle {
  quantity::Length width;
  quantity::Length height;

  bool operator==(const Rectangle&) const = default;
};

/// Diagonal of the rectangle, rounded up to a whole nanometre: the smallest round body that encloses it.
quantity::Length diagonal(Rectangle rectangle);

/// True when the rectangle passes the opening with its sides along those of the slot, either way round. Exact.
///
/// **Method** a side h across the slot leaves w <= (L - W) + sqrt(W^2 - h^2) along it; for a round hole that is
/// w^2 + h^2 <= D^2.
/// **Not for** plugs that would pass only tilted: they are refused.
bool passes(Rectangle plug, Opening opening);

/// True when a round body passes the opening: its diameter is at most the width.
bool passes(quantity::Length diameter, Opening opening);

}  // namespace cotter::geometry
