#pragma once
// Colours, line kinds and lettering of a sheet as style rules. All rules are kept inside `.cotter-sheet`, so that a
// sheet set into a page changes nothing around it.

#include <string>

#include "draw/style.hpp"

namespace cotter::draw {

std::string stylesheet(const Style& style);

/// The shipped fonts as @font-face rules with their data inside, for `Style::fonts_css`.
std::string embedded_fonts_css();

}  // namespace cotter::draw
