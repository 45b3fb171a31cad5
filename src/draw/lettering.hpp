#pragma once
// How wide text is and where its lines break, from the two fonts' own advance widths: no font is opened here.

#include <string>
#include <string_view>
#include <vector>

namespace cotter::draw {

/// `technical` for numbers and labels of the drawing, `plain` for sentences.
enum class Face { technical, plain };

/// Width in pixels. **Accuracy** exact for ASCII without kerning; letters beyond it count as a wide letter each.
/// **Valid for** the shipped fonts; a stand-in font may be a tenth wider.
double text_width(std::string_view text, Face face, double size);

/// The text, or its start with an ellipsis when it is wider than `width`.
std::string fitted(std::string_view text, Face face, double size, double width);

/// The text in lines no wider than `width`, broken at spaces; a word wider than a line is broken inside. What does not
/// go into `most_lines` ends in an ellipsis.
std::vector<std::string> wrapped(std::string_view text, Face face, double size, double width, std::size_t most_lines);

}  // namespace cotter::draw
