#pragma once
// A 128-bit integer for products of lengths that must be compared exactly.

namespace cotter::geometry {

/// Holds any product of four lengths below 0.2 m in nanometres, and any product of two lengths and a ratio.
__extension__ using Wide = __int128;

}  // namespace cotter::geometry
