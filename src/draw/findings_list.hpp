#pragma once
// The numbered list beside the drawing: worst first, what is ok only counted. Each row says its verdict three times:
// word, number, and the kind of line of its ring.

#include <string>
#include <vector>

#include "draw/style.hpp"
#include "draw/svg_writer.hpp"
#include "model/plan.hpp"

namespace cotter::draw {

struct ListedFinding {
  const model::Finding* finding = nullptr;
  std::string mark;    ///< number in the list and in the balloon
  std::string number;  ///< value with its limit
  double number_size = 17;
  bool number_below = false;  ///< on a line of its own
  std::vector<std::string> lines;
  std::string headline;  ///< all of it
  double top = 0, height = 0;
};

struct FindingsList {
  std::vector<ListedFinding> rows;
  std::string summary, rest;  ///< counts above and below the rows
};

/// As many findings that are not ok as there is room for; the others are counted in the last line.
FindingsList lay_out_findings(const model::Plan& plan, const Style& style);

void draw_findings(SvgWriter& svg, const FindingsList& list, const Style& style);

/// Whether the one yellow marker lies under it.
enum class Marker { none, here };

/// The ring of a verdict with its number inside, centred.
void draw_ring(SvgWriter& svg, model::Verdict verdict, Spot centre, double radius, const std::string& mark,
               Marker marker);

}  // namespace cotter::draw
