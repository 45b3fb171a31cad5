#pragma once
// What one body at a time can be pushed straight through: round holes, slots and ovals, round bodies and rectangular
// plugs.

#include "quantity/amount.hpp"

namespace cotter::geometry {

enum class Shape {
  slot,  ///< two half circles of diameter `width` joined by straight sides
  oval,  ///< an ellipse
};

/// Clear size of a hole; a round one has both sizes equal. Requires 0 < width <= length.
struct Opening {
  quantity::Length width;
  quantity::Length length;
  Shape shape = Shape::slot;

  bool operator==(const Opening&) const = default;
};

/// Cross-section of a rectangular plug.
struct Rectangle {
  quantity::Length width;
  quantity::Length height;

  bool operator==(const Rectangle&) const = default;
};

/// Diameter of the round opening of the same area, rounded down to a whole nanometre.
quantity::Length equal_round(const Opening& opening);

/// Diagonal of the rectangle, rounded up to a whole nanometre: the smallest round body that encloses it.
quantity::Length diagonal(Rectangle rectangle);

/// True when the rectangle passes the opening, either way round. Exact for openings up to 0.2 m.
///
/// **Method** a side h across a slot leaves w <= (L - W) + sqrt(W^2 - h^2) along it; for a round hole that is
/// w^2 + h^2 <= D^2, for an oval (w/L)^2 + (h/W)^2 <= 1. A tilted rectangle never does better: two of its corners then
/// lie further from the opening's length, where the wall is nearer to the middle.
bool passes(Rectangle plug, Opening opening);

/// True when a round body passes the opening: its diameter is at most the width.
bool passes(quantity::Length diameter, Opening opening);

}  // namespace cotter::geometry
