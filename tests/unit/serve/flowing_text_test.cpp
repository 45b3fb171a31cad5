#include "serve/flowing_text.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "serve/page.hpp"

namespace cotter::serve {
namespace {

TEST(FlowingText, ParagraphsKeepTheirColumnAndHeadingsAreFound) {
  EXPECT_EQ(flowing_text("All-road\n"
                         "a trial\n"
                         "\n"
                         "Findings\n"
                         "  1  stop   too <large>\n"
                         "            by 2 mm\n"
                         "            at least\n"
                         "\n"
                         "  2  ok     fits\n"),
            "<p style=\"--c:0\">All-road\na trial</p>\n"
            "<h3>Findings</h3>\n"
            "<p style=\"--c:2\">1  stop   too &lt;large&gt;</p>\n"
            "<p style=\"--c:12\">by 2 mm\nat least</p>\n"
            "<p class=\"apart\" style=\"--c:2\">2  ok     fits</p>\n");
}

TEST(FlowingText, ALineAtTheEdgeThatHeadsNothingIsNoHeading) {
  EXPECT_EQ(flowing_text("one\n\ntwo\nthree\n"),
            "<p style=\"--c:0\">one</p>\n<p class=\"apart\" style=\"--c:0\">two\nthree</p>\n");
  EXPECT_EQ(flowing_text("one\n  two\n"), "<p style=\"--c:0\">one</p>\n<p style=\"--c:2\">two</p>\n");
}

TEST(FlowingText, NothingGivesNothing) {
  EXPECT_EQ(flowing_text(""), "");
  EXPECT_EQ(flowing_text("\n  \n\n"), "");
}

std::string without_blanks_and_tags(const std::string& html) {
  std::string out;
  bool tag = false;
  for (const char c : html) {
    if (c == '<') tag = true;
    if (!tag && c != ' ' && c != '\n') out += c;
    if (c == '>') tag = false;
  }
  return out;
}

RC_GTEST_PROP(FlowingText, LosesNoWord, ()) {
  const auto text = *rc::gen::container<std::string>(rc::gen::elementOf(std::string("ab<&  \n\n")));
  RC_ASSERT(without_blanks_and_tags(flowing_text(text)) == without_blanks_and_tags(escaped(text)));
}

}  // namespace
}  // namespace cotter::serve
