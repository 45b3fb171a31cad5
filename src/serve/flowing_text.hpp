#pragma once
// Text that was laid out for a terminal, as HTML that also reads well on a narrow screen and by ear.

#include <string>
#include <string_view>

namespace cotter::serve {

/// The lines of `text`, escaped, in paragraphs that carry their indent in columns as `--c`, so that the stylesheet can
/// keep the columns or let the text flow. A line at the left edge that follows an empty one and heads indented ones
/// becomes a heading of level 3.
std::string flowing_text(std::string_view text);

}  // namespace cotter::serve
