#pragma once
// The sheet around the drawing: border, zones, title block, heading, scale bar. Pixels of a 1280 x 800 sheet.
// **Source** even number of zones, letters without I and O, centring marks: ISO 5457 (from public summaries); fields of
// the title block: ISO 7200 (from memory).

#include "draw/scene.hpp"
#include "draw/style.hpp"
#include "draw/svg_writer.hpp"
#include "model/plan.hpp"

namespace cotter::draw {

inline constexpr double k_sheet_width = 1280, k_sheet_height = 800;
inline constexpr Box k_frame{24, 24, 1256, 776};
inline constexpr Box k_drawing{24, 24, 912, 776};
inline constexpr double k_column = 913;  ///< left edge of list and title block

void draw_frame(SvgWriter& svg);
void draw_heading(SvgWriter& svg, const Style& style);
/// Scale bar and caution at the lower edge.
void draw_foot(SvgWriter& svg, const View& view, const Style& style);

/// Height of the title block; the list ends above it.
double title_block_height(const Style& style);
void draw_title_block(SvgWriter& svg, const model::Plan& plan, const Style& style);

/// Where heading and foot stand.
Box heading_box();
Box foot_box();

/// The pattern with its first `{}` replaced by each value in turn.
std::string filled(std::string pattern, std::initializer_list<std::string> values);

}  // namespace cotter::draw
