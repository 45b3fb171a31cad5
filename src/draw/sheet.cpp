#include "draw/sheet.hpp"

#include <string>

#include "draw/lettering.hpp"

namespace cotter::draw {
namespace {

constexpr double k_outer = 8, k_gap = 16;  // px: trimmed edge, width of the zone strip
constexpr int k_columns = 8, k_rows = 6;
constexpr std::string_view k_letters = "ABCDEF";
constexpr double k_mark_in = 11, k_mark_in_list = 8;  // px: how far a centring mark reaches into the drawing

std::string x_text(double x) {
  return number_text(x);
}

void words(SvgWriter& svg, std::string_view kind, Spot where, std::string_view text) {
  svg.text("text", {{"class", std::string(kind)}, {"x", x_text(where.x)}, {"y", x_text(where.y)}}, text);
}

void draw_column_zones(SvgWriter& svg) {
  const double step = k_frame.width() / k_columns;
  for (int i = 0; i < k_columns; ++i) {
    const double x = k_frame.left + step * i;
    for (const double top : {k_outer, k_frame.bottom}) {
      if (i > 0) svg.line("n", {x, top}, {x, top + k_gap});
      words(svg, "zone mid", {x + step / 2, top + 12.5}, std::to_string(i + 1));
    }
  }
}

void draw_row_zones(SvgWriter& svg) {
  const double step = k_frame.height() / k_rows;
  for (int i = 0; i < k_rows; ++i) {
    const double y = k_frame.top + step * i;
    for (const double left : {k_outer, k_frame.right}) {
      if (i > 0) svg.line("n", {left, y}, {left + k_gap, y});
      words(svg, "zone mid", {left + k_gap / 2, y + step / 2 + 4.5}, k_letters.substr(static_cast<std::size_t>(i), 1));
    }
  }
}

/// A cell of the title block: small label above, value below.
struct Cell {
  double left, top, width;
  std::string label, value;
  std::string kind;  ///< class of the value
  Face face;
  double size, drop;  ///< size of the value, its baseline below the top
};

constexpr double k_least_size = 14;  // px: class `ts`

void draw_cell(SvgWriter& svg, const Cell& cell) {
  const double room = cell.width - 18;
  words(svg, "small", {cell.left + 9, cell.top + 15}, cell.label);
  svg.open("g", {{"class", "cell"}});
  const bool small = cell.face == Face::technical && text_width(cell.value, cell.face, cell.size) > room;
  const std::string shown = fitted(cell.value, cell.face, small ? k_least_size : cell.size, room);
  if (shown != cell.value) svg.text("title", {}, cell.value);
  words(svg, small ? "ts" : cell.kind, {cell.left + 9, cell.top + cell.drop}, shown);
  svg.close();
}

/// A long title stands smaller on two lines.
void draw_title(SvgWriter& svg, const Cell& cell) {
  constexpr double k_small = 15, k_line = 16;
  const double room = cell.width - 18;
  if (text_width(cell.value, cell.face, cell.size) <= room) return draw_cell(svg, cell);
  words(svg, "small", {cell.left + 9, cell.top + 15}, cell.label);
  svg.open("g", {{"class", "cell"}, {"font-size", number_text(k_small)}});
  svg.text("title", {}, cell.value);
  double y = cell.top + 32;
  for (const std::string& line : wrapped(cell.value, cell.face, k_small, room, 2)) {
    words(svg, "title-line", {cell.left + 9, y}, line);
    y += k_line;
  }
  svg.close();
}

constexpr double k_owner_height = 42, k_title_height = 74, k_number_height = 44, k_state_height = 42;

}  // namespace

std::string filled(std::string pattern, std::initializer_list<std::string> values) {
  std::size_t from = 0;
  for (const std::string& value : values) {
    const auto at = pattern.find("{}", from);
    if (at == std::string::npos) break;
    pattern.replace(at, 2, value);
    from = at + value.size();
  }
  return pattern;
}

void draw_frame(SvgWriter& svg) {
  svg.open("g", {{"class", "sheet-frame"}});
  svg.rectangle("paper", {0, 0, k_sheet_width, k_sheet_height});
  svg.rectangle("n", {k_outer, k_outer, k_sheet_width - k_outer, k_sheet_height - k_outer});
  svg.rectangle("w", k_frame);
  draw_column_zones(svg);
  draw_row_zones(svg);
  const double x = k_sheet_width / 2, y = k_sheet_height / 2;
  svg.line("w", {x, k_outer}, {x, k_frame.top + k_mark_in});
  svg.line("w", {x, k_frame.bottom - k_mark_in}, {x, k_sheet_height - k_outer});
  svg.line("w", {k_outer, y}, {k_frame.left + k_mark_in, y});
  svg.line("w", {k_frame.right - k_mark_in_list, y}, {k_sheet_width - k_outer, y});
  svg.close();
}

Box heading_box() {
  return {36, 28, 560, 88};
}

void draw_heading(SvgWriter& svg, const Style& style) {
  const Captions& c = style.captions;
  const std::string& unit = style.numbers.length == quantity::LengthUnit::inch ? c.inches : c.millimetres;
  words(svg, "big", {44, 55}, fitted(c.heading, Face::technical, 19, 540));
  words(svg, "ts", {44, 79}, fitted(unit + " " + c.note, Face::technical, 14, 540));
}

Box foot_box() {
  return {34, 736, 880, 772};
}

void draw_foot(SvgWriter& svg, const View& view, const Style& style) {
  constexpr double k_y = 764, k_left = 44, k_caution = 230;
  words(svg, "plain", {k_caution, k_y}, fitted(style.captions.caution, Face::plain, 13, 880 - k_caution));
  svg.open("g", {{"class", "scale-bar"}});
  svg.line("n", {k_left, k_y}, {k_left + view.px(200), k_y});
  for (const int mm : {0, 50, 100, 150, 200}) {
    const double x = k_left + view.px(mm);
    const bool labelled = mm % 100 == 0;
    svg.line("n", {x, k_y}, {x, k_y - (labelled ? 6 : 3)});
    if (labelled) words(svg, "ts mid", {x, k_y - 10}, std::to_string(mm));
  }
  svg.close();
}

double title_block_height(const Style& style) {
  return k_owner_height + k_title_height + k_number_height + (style.state.empty() ? 0 : k_state_height);
}

void draw_title_block(SvgWriter& svg, const model::Plan& plan, const Style& style) {
  const Captions& c = style.captions;
  const double left = k_column, right = k_frame.right, width = right - left, half = left + width / 2;
  const double top = k_frame.bottom - title_block_height(style);
  const double title = top + k_owner_height, number = title + k_title_height, state = number + k_number_height;
  svg.open("g", {{"class", "title-block"}});
  svg.line("w", {left, top}, {right, top});
  svg.line("n", {half, top}, {half, title});
  svg.line("n", {left, title}, {right, title});
  svg.line("n", {left, number}, {right, number});
  draw_cell(svg, {left, top, width / 2, c.owner, plan.shop, "plain", Face::plain, 13, 33});
  draw_cell(svg, {half, top, width / 2, c.document, c.document_kind, "plain", Face::plain, 13, 33});
  draw_title(svg, {left, title, width, c.title, plan.title, "big", Face::technical, 19, 39});
  words(svg, "plain", {left + 9, title + 66}, fitted(plan.note, Face::plain, 13, width - 18));
  const double revision = right - 126, sheet = right - 66;
  svg.line("n", {revision, number}, {revision, state});
  svg.line("n", {sheet, number}, {sheet, state});
  draw_cell(svg, {left, number, revision - left, c.number, plan.job, "t", Face::technical, 16, 36});
  draw_cell(svg, {revision, number, sheet - revision, c.revision, plan.revision, "t", Face::technical, 16, 36});
  draw_cell(svg, {sheet, number, right - sheet, c.sheet, "1/1", "t", Face::technical, 16, 36});
  if (!style.state.empty()) {
    svg.line("n", {left, state}, {right, state});
    draw_cell(svg, {left, state, width, c.state, style.state, "plain", Face::plain, 13, 33});
  }
  svg.close();
}

}  // namespace cotter::draw
