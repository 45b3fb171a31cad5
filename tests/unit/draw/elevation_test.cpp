// The whole sheet, read back from its SVG text.

#include "draw/elevation.hpp"

#include <cmath>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <numbers>
#include <rapidcheck/gtest.h>
#include <set>

#include "demonstration_plan.hpp"
#include "svg_reader.hpp"

namespace cotter::draw {
namespace {

using test::Element;
using test::read_svg;
using test::with_attribute;
using testing::HasSubstr;
using testing::Not;

struct Pair {
  double x = 0, y = 0;
};
Pair pair_of(const std::string& text) {
  const auto comma = text.find(',');
  Element e;
  e.attributes = {{"x", text.substr(0, comma)}, {"y", text.substr(comma + 1)}};
  return {e.number("x"), e.number("y")};
}

Element sheet_of(const model::Plan& plan, const Style& style = {}) {
  return read_svg(elevation_svg(plan, style));
}

/// Whether a line between the two places, or an arrow's tip at each, is really drawn in the group.
bool drawn_between(const Element& group, const std::string& from, const std::string& to) {
  std::set<std::string> tips;
  for (const Element& e : group.inside) {
    if (e.tag == "line") {
      const std::string a = e.attributes.at("x1") + "," + e.attributes.at("y1");
      const std::string b = e.attributes.at("x2") + "," + e.attributes.at("y2");
      if (a == from && b == to) return true;
    }
    if (e.tag == "path") tips.insert(e.attributes.at("d").substr(1, e.attributes.at("d").find('L') - 1));
  }
  return tips.contains(from) && tips.contains(to);
}

TEST(Elevation, LengthsMeasuredInTheSvgAgreeWithTheirValues) {
  for (const model::Plan& plan : {test::demonstration_plan(), test::crowded_plan()}) {
    const Element root = sheet_of(plan);
    ASSERT_EQ(root.tag, "svg");
    const double scale = root.number("data-scale");
    ASSERT_GE(scale, 0.29);
    int measured = 0;
    for (const Element* d : with_attribute(root, "data-nm")) {
      if (d->attributes.at("data-span") == "angle") continue;
      const std::string from = d->attributes.at("data-from"), to = d->attributes.at("data-to");
      EXPECT_TRUE(drawn_between(*d, from, to)) << d->attributes.at("data-id");
      const Pair a = pair_of(from), b = pair_of(to);
      EXPECT_NEAR(std::hypot(b.x - a.x, b.y - a.y) / scale, d->number("data-nm") / 1e6, 0.05)
          << d->attributes.at("data-id");
      ++measured;
    }
    EXPECT_GE(measured, 10);
  }
}

TEST(Elevation, AnglesMeasuredInTheSvgAgreeWithTheirValues) {
  const Element root = sheet_of(test::demonstration_plan());
  int measured = 0;
  for (const Element* d : with_attribute(root, "data-nm")) {
    if (d->attributes.at("data-span") != "angle") continue;
    const Pair apex = pair_of(d->attributes.at("data-from")), leg = pair_of(d->attributes.at("data-to"));
    const double degrees = std::atan2(apex.y - leg.y, apex.x - leg.x) * 180 / std::numbers::pi;
    EXPECT_NEAR(degrees, d->number("data-nm") / 1e6, 0.05);
    ++measured;
  }
  EXPECT_EQ(measured, 2);
}

TEST(Elevation, OpeningsRunsAndTubesCarryTheirData) {
  const model::Plan plan = test::crowded_plan();
  const Element root = sheet_of(plan);
  const double scale = root.number("data-scale");
  const Pair origin = pair_of(root.attributes.at("data-origin"));
  const auto openings = with_attribute(root, "data-opening");
  ASSERT_EQ(openings.size(), 14u);
  for (const Element* opening : openings) {
    EXPECT_NEAR((opening->number("cx") - origin.x) / scale, opening->number("data-x-um") / 1000, 0.03);
    EXPECT_NEAR((origin.y - opening->number("cy")) / scale, opening->number("data-y-um") / 1000, 0.03);
  }
  const auto lines = with_attribute(root, "data-line");
  ASSERT_EQ(lines.size(), 6u);
  EXPECT_EQ(lines[1]->attributes.at("data-way-mm"), "1622");
  std::set<std::string> tubes;
  for (const Element* tube : with_attribute(root, "data-tube")) tubes.insert(tube->attributes.at("data-tube"));
  EXPECT_TRUE(tubes.contains("frame.down_tube"));
  EXPECT_TRUE(tubes.contains("frame.shell"));
  EXPECT_TRUE(tubes.contains("fork.fork_blade_right"));
  EXPECT_FALSE(tubes.contains("fork.fork_blade_left"));  // the right one covers it
}

TEST(Elevation, NothingIsDrawnOffTheSheet) {
  for (const model::Plan& plan : {test::demonstration_plan(), test::crowded_plan()}) {
    const Element root = sheet_of(plan);
    for (const auto& [name, most] : {std::pair{"x", 1280.0},
                                     {"x1", 1280.0},
                                     {"x2", 1280.0},
                                     {"cx", 1280.0},
                                     {"y", 800.0},
                                     {"y1", 800.0},
                                     {"y2", 800.0},
                                     {"cy", 800.0}}) {
      for (const Element* e : with_attribute(root, name)) {
        EXPECT_GE(e->number(name), 0);
        EXPECT_LE(e->number(name), most);
      }
    }
  }
}

TEST(Elevation, FindingsAreNumberedWorstFirstAndOkIsCounted) {
  const Element root = sheet_of(test::crowded_plan());
  const auto rows = with_attribute(root, "data-finding");
  ASSERT_EQ(rows.size(), 8u);
  EXPECT_EQ(rows[0]->attributes.at("data-verdict"), "stop");
  EXPECT_EQ(rows[1]->attributes.at("data-verdict"), "stop");
  EXPECT_EQ(rows[7]->attributes.at("data-verdict"), "accept");
  EXPECT_THAT(text_of(*rows[7]), HasSubstr("8"));
  const std::string all = text_of(root);
  EXPECT_THAT(all, HasSubstr("126 findings, 118 of them ok"));
  EXPECT_THAT(all, HasSubstr("118 more are ok"));
}

TEST(Elevation, WhatDoesNotFitTheListIsCounted) {
  model::Plan plan = test::demonstration_plan();
  for (int i = 0; i < 10; ++i) plan.findings.push_back(plan.findings[3]);
  const Element root = sheet_of(plan);
  const auto rows = with_attribute(root, "data-finding").size();
  EXPECT_LT(rows, 16u);
  EXPECT_THAT(text_of(root), HasSubstr("and " + std::to_string(16 - rows) + " more: "));
}

TEST(Elevation, WordsOfAFindingComeFromTheCaller) {
  Style style;
  style.text_of = [](const model::Finding&) { return FindingText{"A sentence of the caller.", "17 of 20"}; };
  const std::string all = text_of(sheet_of(test::demonstration_plan(), style));
  EXPECT_THAT(all, HasSubstr("A sentence of the caller."));
  EXPECT_THAT(all, HasSubstr("17 of 20"));
}

TEST(Elevation, TitleBlockAndLegend) {
  Style style;
  style.state = "draft";
  const std::string all = text_of(sheet_of(test::demonstration_plan(), style));
  for (const char* part : {"Workshop at the Weir", "All-road, steel, 56", "all_road_demonstration", "1/1", "draft",
                           "front brake hose", "1 690", "622 × 40", "≈150", "(1031.4)"}) {
    EXPECT_THAT(all, HasSubstr(part));
  }
}

TEST(Elevation, ALineIsNamedByItsEndsWhereThePlanNamesThem) {
  model::Plan plan = test::demonstration_plan();
  plan.runs[0].from = "left lever";
  plan.runs[0].to = "front caliper";
  const std::string all = text_of(sheet_of(plan));
  EXPECT_THAT(all, HasSubstr("left lever – front caliper"));
  EXPECT_THAT(all, HasSubstr("rear brake hose"));
}

TEST(Elevation, AHoleBetweenTwoTubesHasNoLetterAndIsNotDrawn) {
  model::Plan plan = test::demonstration_plan();
  plan.openings[1].letter.clear();
  EXPECT_EQ(with_attribute(sheet_of(plan), "data-opening").size(), 4u);
}

TEST(Elevation, ThemesDifferOnlyInTheirColours) {
  Style style;
  EXPECT_THAT(elevation_svg({}, style), HasSubstr("@media (prefers-color-scheme:dark){.cotter-sheet{--paper:#0E2C50"));
  style.theme = Theme::dark;
  const std::string dark = elevation_svg({}, style);
  EXPECT_THAT(dark, HasSubstr("--paper:#0E2C50"));
  EXPECT_THAT(dark, Not(HasSubstr("prefers-color-scheme")));
  style.theme = Theme::print;
  const std::string print = elevation_svg({}, style);
  EXPECT_THAT(print, HasSubstr("--paper:#FFFFFF"));
  EXPECT_EQ(print.substr(print.find("</style>")), dark.substr(dark.find("</style>")));
}

TEST(Elevation, AnOpenSaddleIsPhantom) {
  const auto saddle_kind = [](const model::Plan& plan) {
    const Element root = sheet_of(plan);
    for (const Element* form : with_attribute(root, "data-form")) {
      if (form->attributes.at("data-form") == "saddle") return form->inside.at(0).attributes.at("class");
    }
    return std::string("none");
  };
  EXPECT_EQ(saddle_kind(test::demonstration_plan()), "bw");
  EXPECT_EQ(saddle_kind(test::crowded_plan()), "ph");
}

TEST(Elevation, TheMarkerLiesUnderTheSelectedFindingOnly) {
  const model::Plan plan = test::demonstration_plan();
  const auto marked = [&](const std::string& id) {
    Style style;
    style.selected = id;
    const std::string svg = elevation_svg(plan, style);
    std::size_t count = 0;
    for (auto at = svg.find("class=\"marker\""); at != std::string::npos; at = svg.find("class=\"marker\"", at + 1))
      ++count;
    return count;
  };
  EXPECT_EQ(marked(""), 0u);
  EXPECT_EQ(marked(plan.findings[1].id), 1u);
}

TEST(Elevation, WithoutNumbersItSaysSo) {
  const Element root = sheet_of({});
  ASSERT_EQ(root.tag, "svg");
  EXPECT_THAT(text_of(root), HasSubstr("No frame numbers yet: nothing can be drawn to scale."));
}

TEST(Elevation, SameInputSameBytes) {
  EXPECT_EQ(elevation_svg(test::crowded_plan()), elevation_svg(test::crowded_plan()));
}

TEST(Elevation, HostileNamesStayText) {
  model::Plan plan = test::demonstration_plan();
  const std::string hostile = "\"><script>alert('x')</script>&amp;\x01\xFF]]>";
  plan.title = plan.shop = plan.note = plan.job = plan.revision = hostile;
  plan.runs[0].label = plan.runs[0].line = plan.runs[0].number = hostile;
  plan.openings[0].label = plan.openings[0].opening = plan.openings[0].letter = hostile;
  plan.findings[0].id = plan.findings[0].rule_label = hostile;
  plan.picture.dimensions[0].id = plan.picture.dimensions[0].label = hostile;
  plan.picture.shapes[0].id = hostile;
  const std::string svg = elevation_svg(plan);
  EXPECT_EQ(read_svg(svg).tag, "svg");
  EXPECT_THAT(svg, Not(HasSubstr("<script")));
}

RC_GTEST_PROP(Elevation, AnyFrameIsDrawnToScale, ()) {
  const auto mm = [](int low, int high) { return quantity::millimetres(*rc::gen::inRange(low, high)); };
  geometry::FrameNumbers n = test::demonstration_numbers();
  n.stack = mm(400, 720);
  n.reach = mm(300, 520);
  n.chainstay = mm(380, 500);
  n.seat_tube_length = mm(350, 650);
  n.head_tube_length = mm(80, 260);
  n.bottom_bracket_drop = mm(-10, 90);
  n.saddle_height = mm(600, 900);
  const Element root = sheet_of(test::plan_from(n));
  RC_ASSERT(root.tag == "svg");
  for (const Element* d : with_attribute(root, "data-nm")) {
    if (d->attributes.at("data-span") == "angle") continue;
    const Pair a = pair_of(d->attributes.at("data-from")), b = pair_of(d->attributes.at("data-to"));
    const double found = std::hypot(b.x - a.x, b.y - a.y) / root.number("data-scale");
    RC_ASSERT(std::abs(found - std::abs(d->number("data-nm")) / 1e6) < 0.05);
  }
}

}  // namespace
}  // namespace cotter::draw
