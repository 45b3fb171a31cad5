#include "serve/page.hpp"

#include <algorithm>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "serve/answer.hpp"

namespace cotter::serve {
namespace {

using session::Outcome;
using session::Sheet;
using testing::HasSubstr;
using testing::Not;

Sheet sheet() {
  return {.outcome = Outcome::done,
          .title = "All-road, steel, 56",
          .drawing = "<?xml version=\"1.0\"?>\n<svg class=\"cotter-sheet\" viewBox=\"0 0 1280 800\"></svg>\n",
          .plan = "Order of work\n  1  face the shell\n",
          .json = "{\"cotter\": \"plan 1\"}\n",
          .trouble = "",
          .cautions = {"The maker's limits go first."}};
}

Sheet broken() {
  return {.outcome = Outcome::bad_input,
          .title = "",
          .drawing = "",
          .plan = "",
          .json = "",
          .trouble = "job.yaml:3:5: <bore> is not a length\njob.yaml:9:1: no title\n",
          .cautions = {}};
}

std::size_t count(const std::string& text, std::string_view part) {
  std::size_t found = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++found;
  return found;
}

TEST(Escaped, ReadsTheSameInHtml) {
  EXPECT_EQ(escaped("1 < 2 & \"3\" > '2'"), "1 &lt; 2 &amp; &quot;3&quot; &gt; &#39;2&#39;");
  EXPECT_EQ(escaped("41 ±0.02 mm\n\tØ ≈ ≤"), "41 ±0.02 mm\n\tØ ≈ ≤");
  EXPECT_EQ(escaped(std::string_view("\0\x1B[31m\x7F", 7)), "\uFFFD\uFFFD[31m\uFFFD");
}

/// What a browser makes of the five entities; any other ampersand, quote or bracket fails.
std::string as_read(std::string_view html) {
  constexpr std::pair<std::string_view, char> k_entities[] = {
      {"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&#39;", '\''}};
  std::string out;
  while (!html.empty()) {
    const auto* entity =
        std::ranges::find_if(k_entities, [&](const auto& known) { return html.starts_with(known.first); });
    if (entity == std::end(k_entities)) {
      EXPECT_EQ(std::string_view("&<>\"'").find(html.front()), std::string_view::npos) << html;
      out += html.front();
      html.remove_prefix(1);
    } else {
      out += entity->second;
      html.remove_prefix(entity->first.size());
    }
  }
  return out;
}

RC_GTEST_PROP(Escaped, IsReadAsItWasWritten, ()) {
  const auto text = *rc::gen::container<std::string>(rc::gen::elementOf(std::string("&<>\"'aglt;m#39 \n")));
  RC_ASSERT(as_read(escaped(text)) == text);
}

TEST(Page, CautionsComeFirstThenDrawingThenPlan) {
  const std::string html = page(sheet());
  const auto cautions = html.find("The maker&#39;s limits go first.");
  const auto drawing = html.find("<svg class=\"cotter-sheet\"");
  const auto plan = html.find("face the shell");
  ASSERT_NE(cautions, std::string::npos);
  ASSERT_NE(drawing, std::string::npos);
  ASSERT_NE(plan, std::string::npos);
  EXPECT_LT(cautions, drawing);
  EXPECT_LT(drawing, plan);
}

TEST(Page, AHostileTitleStaysText) {
  Sheet hostile = sheet();
  hostile.title = "</title><script>alert(1)</script>\" onload='x'";
  hostile.plan = "</p><img src=x onerror=alert(1)>";
  hostile.cautions = {"<iframe src=/>"};
  hostile.trouble = "<b>";
  const std::string html = page(hostile);
  for (const char* raw : {"<script", "<img", "<iframe", "<b>", "onload='", "\" onload"})
    EXPECT_THAT(html, Not(HasSubstr(raw))) << raw;
  EXPECT_THAT(html, HasSubstr("<h1>&lt;/title&gt;&lt;script&gt;alert(1)&lt;/script&gt;&quot; onload=&#39;x&#39;</h1>"));
  EXPECT_EQ(count(html, "</title>"), 1U);
  EXPECT_EQ(count(html, "<p>"), 1U);
  EXPECT_EQ(count(html, "</p>"), 2U);
}

TEST(Page, CanBeReadAloudAndReachedByKeyboard) {
  const std::string html = page(sheet());
  EXPECT_TRUE(html.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"));
  EXPECT_THAT(html, HasSubstr("<title>All-road, steel, 56</title>"));
  for (const char* once : {"<header>", "<main>", "<footer>", "<h1>"}) EXPECT_EQ(count(html, once), 1U) << once;
  EXPECT_EQ(count(html, "<section"), 3U);
  EXPECT_EQ(count(html, "<h2 id="), 3U);
  EXPECT_THAT(html, HasSubstr("aria-label=\"Side elevation of All-road, steel, 56; the plan below says the same in "
                              "words.\""));
  EXPECT_THAT(html, HasSubstr("<div class=\"drawing\" tabindex=\"0\" role=\"group\""));
}

TEST(Page, HasNoScriptAndAsksNobodyElse) {
  const std::string html = page(sheet());
  for (const char* foreign : {"<script", "http:", "https:", "//", "@import", "javascript"})
    EXPECT_THAT(html, Not(HasSubstr(foreign))) << foreign;
}

TEST(Page, SaysWhetherSomethingStops) {
  EXPECT_THAT(page(sheet()), HasSubstr("<p>No finding says <strong>stop</strong>.</p>"));
  Sheet stopped = sheet();
  stopped.outcome = Outcome::stopped;
  EXPECT_THAT(page(stopped), HasSubstr("At least one finding says <strong>stop</strong>"));
}

TEST(Page, LeavesOutTheXmlDeclarationOfTheDrawing) {
  EXPECT_THAT(page(sheet()), Not(HasSubstr("<?xml")));
}

TEST(Page, AJobThatCannotBePlannedShowsWhy) {
  const std::string html = page(broken());
  EXPECT_THAT(html, HasSubstr("<p>The job cannot be planned as it is written.</p>"));
  EXPECT_THAT(
      html,
      HasSubstr("<ul>\n<li>job.yaml:3:5: &lt;bore&gt; is not a length</li>\n<li>job.yaml:9:1: no title</li>\n</ul>\n"));
  for (const char* absent : {"<svg", "plan.txt", "/drawing.svg"}) EXPECT_THAT(html, Not(HasSubstr(absent))) << absent;
}

TEST(Page, TroubleBesideAPlanHidesNeither) {
  Sheet torn = sheet();
  torn.trouble = "the last line of the journal is torn";
  const std::string html = page(torn);
  EXPECT_THAT(html, HasSubstr("the last line of the journal is torn"));
  EXPECT_THAT(html, HasSubstr("<svg"));
  EXPECT_THAT(html, HasSubstr("face the shell"));
}

TEST(Answer, EachRouteGivesItsPart) {
  EXPECT_EQ(answer(Route::drawing, sheet()).body, sheet().drawing);
  EXPECT_EQ(answer(Route::drawing, sheet()).type, "image/svg+xml; charset=utf-8");
  EXPECT_EQ(answer(Route::plan_json, sheet()).body, sheet().json);
  EXPECT_EQ(answer(Route::plan_json, sheet()).type, "application/json");
  EXPECT_EQ(answer(Route::plan_text, sheet()).body, sheet().plan);
  EXPECT_EQ(answer(Route::page, sheet()).body, page(sheet()));
  EXPECT_EQ(answer(Route::health).body, "ok\n");
  EXPECT_THAT(answer(Route::icon).body, HasSubstr("<svg xmlns="));
}

TEST(Answer, WhatCouldNotBeMadeIsNotThere) {
  for (const Route route : {Route::drawing, Route::plan_json, Route::plan_text}) {
    const Reply reply = answer(route, broken());
    EXPECT_EQ(reply.status, 404);
    EXPECT_EQ(reply.body,
              "The job could not be planned, so this is not there.\n\njob.yaml:3:5: <bore> is not a "
              "length\njob.yaml:9:1: no title\n");
    EXPECT_EQ(reply.type, "text/plain; charset=utf-8");
  }
  EXPECT_EQ(answer(Route::page, broken()).status, 200);
}

TEST(Answer, ABugGivesItsNumberOnly) {
  const Reply reply = bug_answer(7);
  EXPECT_EQ(reply.status, 500);
  EXPECT_THAT(reply.body, HasSubstr("<strong>report 7</strong>"));
}

}  // namespace
}  // namespace cotter::serve
