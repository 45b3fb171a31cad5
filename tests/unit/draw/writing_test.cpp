// Numbers, escaping and lettering.

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "draw/lettering.hpp"
#include "draw/plane.hpp"
#include "draw/stylesheet.hpp"
#include "draw/svg_writer.hpp"
#include "quantity/ensure.hpp"
#include "svg_reader.hpp"

namespace cotter::draw {
namespace {

TEST(SvgNumbers, TwoDecimalsWithoutTrailingZeros) {
  EXPECT_EQ(number_text(12.345678), "12.35");
  EXPECT_EQ(number_text(12.5), "12.5");
  EXPECT_EQ(number_text(-3), "-3");
  EXPECT_EQ(number_text(100), "100");
  EXPECT_EQ(number_text(-0.001), "0");
}

TEST(SvgNumbers, APlaceThatIsNoNumberIsABug) {
  EXPECT_THROW(number_text(std::nan("")), quantity::BugError);
}

TEST(SvgEscaping, MarkupAndQuotes) {
  EXPECT_EQ(escaped("a < b & c > \"d\" 'e'"), "a &lt; b &amp; c &gt; &quot;d&quot; &#39;e&#39;");
}

TEST(SvgEscaping, ControlCharactersAndBrokenTextBecomeTheReplacementMark) {
  EXPECT_EQ(escaped(std::string_view("a\0b", 3)),
            "a\xEF\xBF\xBD"
            "b");
  EXPECT_EQ(escaped("x\x1By"), "x\xEF\xBF\xBDy");
  EXPECT_EQ(escaped("\xFF"), "\xEF\xBF\xBD");
  EXPECT_EQ(escaped("\xC3"), "\xEF\xBF\xBD");
  EXPECT_EQ(escaped("\xED\xA0\x80"), "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");  // half of a surrogate pair
  EXPECT_EQ(escaped("\xE2\x80\xAE"), "\xEF\xBF\xBD");                          // turns the direction of writing
  EXPECT_EQ(escaped("tab\tline\n"), "tab line ");
  EXPECT_EQ(escaped("≈ 48 ± 1 Ø"), "≈ 48 ± 1 Ø");
}

RC_GTEST_PROP(SvgEscaping, AnyBytesStayInsideTheirElement, (const std::string& text)) {
  SvgWriter svg;
  svg.open("svg", {{"data-name", text}});
  svg.text("text", {}, text);
  svg.close();
  const test::Element root = test::read_svg(svg.take());
  RC_ASSERT(root.tag == "svg");
  RC_ASSERT(root.inside.size() == 1u);
}

TEST(SvgWriting, AnElementLeftOpenIsABug) {
  SvgWriter svg;
  svg.open("g");
  EXPECT_THROW(svg.take(), quantity::BugError);
}

TEST(Lettering, WidthsAreThoseOfTheFonts) {
  // Advance widths of the digit 0 in the shipped fonts: 1162 of 2048 and 1300 of 2000 units (read with fonttools).
  EXPECT_NEAR(text_width("0", Face::technical, 1000), 567, 1);
  EXPECT_NEAR(text_width("0", Face::plain, 1000), 650, 1);
  EXPECT_NEAR(text_width("00", Face::plain, 10), 13, 0.01);
}

TEST(Lettering, TooWideTextEndsInAnEllipsis) {
  EXPECT_EQ(fitted("short", Face::plain, 13, 100), "short");
  const std::string cut = fitted("a label that is far too long", Face::plain, 13, 100);
  EXPECT_TRUE(cut.ends_with("…"));
  EXPECT_LE(text_width(cut, Face::plain, 13), 100);
}

TEST(Lettering, BreaksAtSpaces) {
  const auto lines = wrapped("one two three", Face::plain, 10, text_width("one two", Face::plain, 10), 5);
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_EQ(lines[0], "one two");
  EXPECT_EQ(lines[1], "three");
}

TEST(Lettering, BreaksAWordThatIsWiderThanTheLine) {
  EXPECT_EQ(wrapped("mmmm", Face::plain, 10, 19, 5).size(), 2u);
  EXPECT_TRUE(wrapped("   ", Face::plain, 10, 50, 5).empty());
}

RC_GTEST_PROP(Lettering, NoLineIsWiderThanAsked, (const std::string& text)) {
  const double width = 80;
  const auto lines = wrapped(text, Face::plain, 12, width, 4);
  RC_ASSERT(lines.size() <= 4u);
  for (const std::string& line : lines) RC_ASSERT(text_width(line, Face::plain, 12) <= width + 1e-9);
}

TEST(Plane, RectanglesOverlapInAnyDirection) {
  const Quad level = quad_around({0, 0}, {1, 0}, 10, 4);
  EXPECT_TRUE(overlap(level, quad_around({4, 0}, {1, 1}, 10, 2)));
  EXPECT_FALSE(overlap(level, quad_around({0, 8}, {1, 0.2}, 10, 4)));
  EXPECT_TRUE(touches(level, {-20, 0}, {20, 1}));
  EXPECT_TRUE(touches(level, {-1, 0}, {1, 0}));
  EXPECT_FALSE(touches(level, {-20, 5}, {20, 5}));
}

TEST(Plane, DistanceToASegmentEndsAtItsEnds) {
  EXPECT_DOUBLE_EQ(distance_to_segment({5, 3}, {0, 0}, {10, 0}), 3);
  EXPECT_DOUBLE_EQ(distance_to_segment({13, 4}, {0, 0}, {10, 0}), 5);
}

TEST(Fonts, ThreeFacesAreBuiltIn) {
  const std::string css = embedded_fonts_css();
  std::size_t faces = 0;
  for (auto at = css.find("@font-face"); at != std::string::npos; at = css.find("@font-face", at + 1)) ++faces;
  EXPECT_EQ(faces, 3u);
  EXPECT_NE(css.find("base64,d09GMg"), std::string::npos);  // "wOF2", how every woff2 file starts
}

}  // namespace
}  // namespace cotter::draw
