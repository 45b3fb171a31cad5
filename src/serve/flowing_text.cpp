#include "serve/flowing_text.hpp"

#include <fmt/format.h>
#include <vector>

#include "serve/page.hpp"

namespace cotter::serve {
namespace {

struct Line {
  std::size_t indent = 0;
  std::string_view words;  ///< empty: an empty line
};

std::vector<Line> lines_of(std::string_view text) {
  std::vector<Line> lines;
  while (!text.empty()) {
    const auto end = text.find('\n');
    const std::string_view line = text.substr(0, end);
    const auto indent = line.find_first_not_of(' ');
    lines.push_back(indent == std::string_view::npos ? Line{} : Line{indent, line.substr(indent)});
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  }
  return lines;
}

bool is_heading(const std::vector<Line>& lines, std::size_t at) {
  const bool apart = at > 0 && lines[at - 1].words.empty();
  const bool heads = at + 1 < lines.size() && lines[at + 1].indent > 0;
  return lines[at].indent == 0 && !lines[at].words.empty() && apart && heads;
}

}  // namespace

std::string flowing_text(std::string_view text) {
  const std::vector<Line> lines = lines_of(text);
  std::string html;
  bool open = false;            // a paragraph is being written,
  std::size_t open_indent = 0;  // at this indent
  const auto close = [&] {
    if (open) html += "</p>\n";
    open = false;
  };
  for (std::size_t at = 0; at < lines.size(); ++at) {
    const auto& [indent, words] = lines[at];
    if (words.empty() || open_indent != indent) close();
    if (words.empty()) continue;
    if (is_heading(lines, at)) {
      html += fmt::format("<h3>{}</h3>\n", escaped(words));
      continue;
    }
    if (open)
      html += "\n";
    else
      html += fmt::format("<p{} style=\"--c:{}\">", at > 0 && lines[at - 1].words.empty() ? " class=\"apart\"" : "",
                          indent);
    open = true;
    open_indent = indent;
    html += escaped(words);
  }
  close();
  return html;
}

}  // namespace cotter::serve
