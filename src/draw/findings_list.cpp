#include "draw/findings_list.hpp"

#include <algorithm>
#include <map>

#include "draw/lettering.hpp"
#include "draw/sheet.hpp"

namespace cotter::draw {
namespace {

constexpr double k_rows_top = 86, k_fold_height = 34, k_least_row = 52;
constexpr double k_ring_x = k_column + 27, k_text_x = k_column + 51, k_text_right = 1242;
constexpr double k_line = 16, k_word_line = 19, k_padding = 9;
constexpr double k_text_size = 12.5, k_number_size = 17, k_small_number_size = 14;
constexpr double k_ring_radius = 13.5;
constexpr std::size_t k_most_lines = 4, k_least_lines = 2;

std::string verdict_text(model::Verdict verdict) {
  return std::string(model::word_for(verdict));
}

FindingText text_of(const model::Finding& finding, const Style& style) {
  if (style.text_of) return style.text_of(finding);
  return {finding.subject.empty() ? finding.rule_label : finding.rule_label + ": " + finding.subject, {}};
}

ListedFinding listed(const model::Finding& finding, const Style& style, std::size_t most_lines) {
  ListedFinding row;
  row.finding = &finding;
  const FindingText text = text_of(finding, style);
  row.headline = text.headline;
  const double width = k_text_right - k_text_x;
  row.lines = wrapped(text.headline, Face::plain, k_text_size, width, most_lines);
  const double word = text_width(verdict_text(finding.verdict), Face::plain, 13) + 16;
  row.number_size = k_number_size;
  if (text_width(text.number, Face::technical, k_number_size) > width - word) row.number_size = k_small_number_size;
  row.number_below = text_width(text.number, Face::technical, row.number_size) > width - word;
  row.number = fitted(text.number, Face::technical, row.number_size, width);
  const auto lines = static_cast<double>(row.lines.size() + (row.number_below ? 1 : 0));
  row.height = std::max(k_least_row, k_padding + k_word_line + k_line * lines);
  return row;
}

double height_of(const std::vector<ListedFinding>& rows) {
  double height = 0;
  for (const ListedFinding& row : rows) height += row.height;
  return height;
}

/// The last of the rows with most lines; none when every row is as short as it may become.
ListedFinding* longest(std::vector<ListedFinding>& rows) {
  ListedFinding* found = nullptr;
  for (ListedFinding& row : rows) {
    if (row.lines.size() > k_least_lines && (found == nullptr || row.lines.size() >= found->lines.size())) found = &row;
  }
  return found;
}

/// Rows in full; for want of room the longest lose lines first, then the last rows are left out. What
/// room is left goes to the worst.
std::vector<ListedFinding> rows_in(const std::vector<const model::Finding*>& findings, const Style& style,
                                   double room) {
  std::vector<ListedFinding> rows;
  for (const model::Finding* finding : findings) {
    if (static_cast<double>(rows.size() + 1) * k_least_row > room) break;
    rows.push_back(listed(*finding, style, k_most_lines));
  }
  while (height_of(rows) > room) {
    ListedFinding* row = longest(rows);
    if (row == nullptr) {
      rows.pop_back();
    } else {
      *row = listed(*row->finding, style, row->lines.size() - 1);
    }
  }
  for (ListedFinding& row : rows) {
    const double spare = room - height_of(rows) + row.height;
    for (std::size_t lines = k_most_lines; lines > row.lines.size(); --lines) {
      ListedFinding longer = listed(*row.finding, style, lines);
      if (longer.height <= spare) row = std::move(longer);
    }
  }
  return rows;
}

std::string rest_text(const std::vector<const model::Finding*>& hidden, std::size_t ok, bool some_shown,
                      const Captions& c) {
  std::string text;
  if (!hidden.empty()) {
    std::map<model::Verdict, std::size_t, std::greater<>> counts;
    for (const model::Finding* finding : hidden) ++counts[finding->verdict];
    text = filled(c.more, {std::to_string(hidden.size())});
    std::string separator = ": ";
    for (const auto& [verdict, count] : counts) {
      text += separator + std::to_string(count) + " " + verdict_text(verdict);
      separator = ", ";
    }
  }
  // The summary above counts the ok ones already; here they would run out of the column.
  if (ok == 0 || !text.empty()) return text;
  return filled(some_shown ? c.more_ok : c.all_ok, {std::to_string(ok)});
}

void write(SvgWriter& svg, const std::string& kind, double x, double y, std::string_view text) {
  svg.text("text", {{"class", kind}, {"x", number_text(x)}, {"y", number_text(y)}}, text);
}

void draw_row(SvgWriter& svg, const ListedFinding& row, const Style& style) {
  const bool selected = !style.selected.empty() && row.finding->id == style.selected;
  svg.open(
      "g",
      {{"class", "finding"}, {"data-finding", row.finding->id}, {"data-verdict", verdict_text(row.finding->verdict)}});
  svg.text("title", {}, row.headline);
  if (selected) svg.rectangle("sel", {k_column + 1, row.top, k_frame.right - 1, row.top + row.height});
  svg.line("g", {k_column, row.top}, {k_frame.right, row.top});
  draw_ring(svg, row.finding->verdict, {k_ring_x, row.top + 24}, k_ring_radius, row.mark, Marker::none);
  double y = row.top + 20;
  write(svg, "plain bold", k_text_x, y, verdict_text(row.finding->verdict));
  if (row.number_below) y += k_line;
  svg.text("text",
           {{"class", "end"},
            {"x", number_text(k_text_right)},
            {"y", number_text(y)},
            {"font-size", number_text(row.number_size)}},
           row.number);
  for (const std::string& line : row.lines) {
    y += k_line;
    svg.text("text",
             {{"class", "plain"},
              {"x", number_text(k_text_x)},
              {"y", number_text(y)},
              {"style", "font-size:" + number_text(k_text_size) + "px"}},
             line);
  }
  svg.close();
}

}  // namespace

FindingsList lay_out_findings(const model::Plan& plan, const Style& style) {
  std::vector<const model::Finding*> findings;
  for (const model::Finding& finding : plan.findings) {
    if (finding.verdict != model::Verdict::ok) findings.push_back(&finding);
  }
  std::stable_sort(findings.begin(), findings.end(),
                   [](const auto* left, const auto* right) { return left->verdict > right->verdict; });
  const std::size_t ok = plan.findings.size() - findings.size();
  const double room = k_frame.bottom - title_block_height(style) - k_rows_top - k_fold_height;
  FindingsList list;
  list.rows = rows_in(findings, style, room);
  double top = k_rows_top;
  for (std::size_t i = 0; i < list.rows.size(); ++i) {
    list.rows[i].mark = std::to_string(i + 1);
    list.rows[i].top = top;
    top += list.rows[i].height;
  }
  const auto first_hidden = findings.begin() + static_cast<std::ptrdiff_t>(list.rows.size());
  list.summary = filled(style.captions.summary, {std::to_string(plan.findings.size()), std::to_string(ok)});
  list.rest = rest_text({first_hidden, findings.end()}, ok, !findings.empty(), style.captions);
  return list;
}

void draw_ring(SvgWriter& svg, model::Verdict verdict, Spot centre, double radius, const std::string& mark,
               Marker marker) {
  if (marker == Marker::here) svg.circle("marker", centre, radius + 5);
  svg.circle("bf", centre, radius);
  svg.circle("bl b-" + verdict_text(verdict), centre, radius);
  if (verdict == model::Verdict::accept) svg.circle("bl b-accept", centre, radius - 3);
  write(svg, "bt mid", centre.x, centre.y + 5.2, mark);
}

void draw_findings(SvgWriter& svg, const FindingsList& list, const Style& style) {
  svg.line("w", {k_column, k_frame.top}, {k_column, k_frame.bottom});
  write(svg, "big", k_column + 15, 51, style.captions.findings);
  write(svg, "plain quiet", k_column + 15, 72, list.summary);
  svg.open("g", {{"class", "findings"}});
  for (const ListedFinding& row : list.rows) draw_row(svg, row, style);
  svg.close();
  const double bottom = list.rows.empty() ? k_rows_top : list.rows.back().top + list.rows.back().height;
  svg.line("g", {k_column, bottom}, {k_frame.right, bottom});
  write(svg, "plain quiet", k_column + 15, bottom + 22, list.rest);
}

}  // namespace cotter::draw
