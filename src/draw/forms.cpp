#include "draw/forms.hpp"

#include <algorithm>

namespace cotter::draw {
namespace {

std::vector<FormStroke> saddle() {
  return {{{-138, 10},
           {{{{-120, 22}, {-80, 8}, {-40, 2}}},
            {{{0, -2}, {60, 0}, {130, 0}}},
            {{{146, 0}, {146, -15}, {130, -17}}},
            {{{80, -22}, {20, -20}, {-30, -34}}},
            {{{-60, -44}, {-104, -56}, {-120, -44}}},
            {{{-138, -30}, {-146, 0}, {-138, 10}}}},
           true},
          {{-78, -48}, {{{{-60, -62}, {-20, -50}, {10, -48}}}, {{{40, -46}, {56, -34}, {64, -20}}}}, false}};
}

std::vector<FormStroke> hood() {
  return {
      {{52, 26},
       {{{{66, 0}, {66, -64}, {40, -112}}}, {{{36, -120}, {24, -116}, {28, -106}}}, {{{48, -64}, {46, -16}, {30, -6}}}},
       true},
      {{-44, 7},
       {{{{-20, 14}, {4, 28}, {20, 52}}},
        {{{30, 72}, {54, 70}, {58, 54}}},
        {{{60, 34}, {44, 10}, {26, -8}}},
        {{{16, -20}, {4, -28}, {-6, -30}}},
        {{{-14, -22}, {-28, -14}, {-44, -14}}}},
       true}};
}

std::vector<FormStroke> pedal() {
  return {{{-48, 8},
           {{{{-16, 8}, {16, 8}, {48, 8}}},
            {{{48, 3}, {48, -3}, {48, -8}}},
            {{{16, -8}, {-16, -8}, {-48, -8}}},
            {{{-48, -3}, {-48, 3}, {-48, 8}}}},
           true}};
}

}  // namespace

std::vector<FormStroke> form_strokes(std::string_view point) {
  if (point == "saddle") return saddle();
  if (point == "hood_right") return hood();
  if (point == "pedal_right") return pedal();
  return {};
}

std::vector<Spot> form_corners(std::string_view point) {
  const std::vector<FormStroke> strokes = form_strokes(point);
  if (strokes.empty()) return {};
  Box box{1e9, 1e9, -1e9, -1e9};
  const auto add = [&](Spot p) {
    box = {std::min(box.left, p.x), std::min(box.top, p.y), std::max(box.right, p.x), std::max(box.bottom, p.y)};
  };
  for (const FormStroke& stroke : strokes) {
    add(stroke.start);
    for (const auto& piece : stroke.pieces) add(piece[2]);
  }
  const Quad corners = quad_of(box);
  return {corners.begin(), corners.end()};
}

}  // namespace cotter::draw
