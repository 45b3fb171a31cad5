#pragma once
// A finding in one or two lines, for a list beside a drawing.

#include <string>

#include "model/finding.hpp"

namespace cotter::words {

/// What it is about and what to do, without the numbers that `number_shown` gives.
std::string brief(const model::Finding& finding);

}  // namespace cotter::words
