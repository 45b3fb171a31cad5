#pragma once
// Writes SVG text: elements, attributes and numbers, the same bytes under every locale. Whatever comes from a job is
// escaped here and nowhere else.

#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "draw/plane.hpp"

namespace cotter::draw {

/// At most two decimals, no trailing zeros, never "-0". **Accuracy** 0.005.
std::string number_text(double value);
/// "x,y"
std::string spot_text(Spot p);

/// Text safe inside an element and inside a quoted attribute. Characters that XML does not allow, broken UTF-8 and
/// marks that reverse the direction of writing become U+FFFD.
std::string escaped(std::string_view text);

using Attribute = std::pair<std::string_view, std::string>;
using Attributes = std::vector<Attribute>;

/// The `d` of a path.
class Path {
 public:
  Path& move(Spot p);
  Path& line(Spot p);
  Path& quadratic(Spot control, Spot p);
  Path& cubic(Spot control_a, Spot control_b, Spot p);
  /// Part of a circle, the shorter way round; `clockwise` as seen on the sheet.
  Path& arc(double radius, int clockwise, Spot p);
  Path& close();
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

class SvgWriter {
 public:
  void open(std::string_view tag, const Attributes& attributes = {});
  void close();
  void leaf(std::string_view tag, const Attributes& attributes);
  /// An element around text; `text` is escaped.
  void text(std::string_view tag, const Attributes& attributes, std::string_view text);
  /// Text that is already markup, such as style rules made in this program.
  void raw(std::string_view markup);

  void line(std::string_view kind, Spot a, Spot b);
  void circle(std::string_view kind, Spot centre, double radius);
  void path(std::string_view kind, const Path& path);
  void rectangle(std::string_view kind, const Box& box);

  /// The finished text. Every opened element must be closed.
  std::string take();

 private:
  void start(std::string_view tag, const Attributes& attributes);
  std::string out_;
  std::vector<std::string> open_;
};

}  // namespace cotter::draw
