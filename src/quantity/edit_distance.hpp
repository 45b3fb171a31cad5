#pragma once
// How many slips of the finger lie between two words. Inside of this box; others call `nearest_word`.

#include <cstddef>
#include <string>
#include <string_view>

namespace cotter::quantity {

/// Fewest single bytes inserted, left out, exchanged or swapped with their neighbour that turn `a` into `b`, no byte
/// touched twice (optimal string alignment).
std::size_t edit_distance(std::string_view a, std::string_view b);

/// The word with A-Z as a-z; other bytes stay.
std::string lower_case(std::string_view word);

}  // namespace cotter::quantity
