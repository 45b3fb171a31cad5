#include "serve/page.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "serve/flowing_text.hpp"
#include "serve/page_style.hpp"

namespace cotter::serve {
namespace {

using session::Outcome;
using session::Sheet;

std::string document(const std::string& title, const std::string& body) {
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>{}</title>\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<link rel=\"icon\" type=\"image/svg+xml\" href=\"/favicon.svg\">\n<style>{}</style>\n</head>\n"
      "<body>\n{}</body>\n</html>\n",
      escaped(title), k_page_style, body);
}

std::string section(std::string_view name, std::string_view heading, const std::string& content) {
  return fmt::format(
      "<section class=\"{0}\" aria-labelledby=\"page-{0}\">\n<h2 "
      "id=\"page-{0}\"><span>{1}</span></h2>\n{2}</section>\n",
      name, heading, content);
}

std::string_view state_of(const Sheet& sheet) {
  switch (sheet.outcome) {
    case Outcome::done:
      return "No finding says <strong>stop</strong>.";
    case Outcome::stopped:
      return "At least one finding says <strong>stop</strong>: as it is written, this bicycle cannot be built.";
    case Outcome::bad_input:
    case Outcome::unwritten:
      break;
  }
  return "The job cannot be planned as it is written.";
}

std::string cautions(const Sheet& sheet) {
  if (sheet.cautions.empty()) return "";
  std::string list = "<ul>\n";
  for (const std::string& caution : sheet.cautions) list += "<li>" + escaped(caution) + "</li>\n";
  return section("cautions", "Before anything else", list + "</ul>\n");
}

/// One entry a line: each names its own place in a file.
std::string entries(std::string_view lines) {
  std::string list = "<ul>\n";
  while (!lines.empty()) {
    const auto end = std::min(lines.find('\n'), lines.size());
    if (end > 0) list += "<li>" + escaped(lines.substr(0, end)) + "</li>\n";
    lines.remove_prefix(std::min(end + 1, lines.size()));
  }
  return list + "</ul>\n";
}

std::string trouble(const Sheet& sheet) {
  if (sheet.outcome == Outcome::bad_input)
    return section("wrong", "What is wrong with the job",
                   "<p>Mend it in the file, then load this page again.</p>\n" + entries(sheet.trouble));
  if (sheet.trouble.empty()) return "";
  return section("wrong", "To look at", entries(sheet.trouble));
}

std::string drawing(const Sheet& sheet) {
  // HTML knows no XML declaration, which stands before the drawing's root.
  const auto root = sheet.drawing.find("<svg");
  if (root == std::string::npos) return "";
  const std::string alternative =
      escaped("Side elevation of " + sheet.title + "; the plan below says the same in words.");
  // On a narrow screen it can be scrolled sideways, so the keyboard must reach it.
  return section(
      "picture", "Drawing",
      fmt::format("<figure>\n<div class=\"drawing\" tabindex=\"0\" role=\"group\" aria-label=\"{}\">\n{}\n</div>\n"
                  "<figcaption><a href=\"{}\">The drawing alone, to enlarge</a></figcaption>\n</figure>\n",
                  alternative, sheet.drawing.substr(root), "/drawing.svg"));
}

std::string plan(const Sheet& sheet) {
  if (sheet.plan.empty()) return "";
  return section("plan", "Plan", "<div class=\"columns\">\n" + flowing_text(sheet.plan) + "</div>\n");
}

std::string title_block(const Sheet& sheet) {
  const bool planned = sheet.outcome != Outcome::bad_input;
  std::string fields =
      fmt::format("<div><dt>state</dt><dd>{} when this page was loaded</dd></div>\n", planned ? "planned" : "read");
  if (planned)
    fields +=
        "<div class=\"files\"><dt>files</dt><dd><a href=\"/drawing.svg\">drawing.svg</a> "
        "<a href=\"/plan.txt\">plan.txt</a> <a href=\"/plan.json\">plan.json</a></dd></div>\n";
  return "<footer>\n<dl>\n" + fields + "</dl>\n</footer>\n";
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default: {
        const auto code = static_cast<unsigned char>(c);
        const bool control = (code < 0x20 && c != '\n' && c != '\t') || code == 0x7F;
        if (control)
          out += "\xEF\xBF\xBD";
        else
          out += c;
      }
    }
  }
  return out;
}

std::string page(const Sheet& sheet) {
  const std::string title = sheet.title.empty() ? "Job" : sheet.title;
  const bool planned = sheet.outcome != Outcome::bad_input;
  std::string body =
      fmt::format("<header>\n<h1>{}</h1>\n<p>{}</p>\n</header>\n<main>\n", escaped(title), state_of(sheet));
  body += cautions(sheet) + trouble(sheet);
  if (planned) body += drawing(sheet) + plan(sheet);
  body += "</main>\n" + title_block(sheet);
  return document(title, body);
}

std::string bug_page(unsigned report) {
  return document("Something broke",
                  fmt::format("<header>\n<h1>Something broke in the program</h1>\n</header>\n<main>\n"
                              "<p>This is a fault of the program, not of the job. Its log tells more under "
                              "<strong>report {}</strong>.</p>\n</main>\n",
                              report));
}

std::string_view icon() {
  // A circle with its centre lines, on paper.
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 32 32\">"
         "<path fill=\"#F5F2E9\" d=\"M0 0h32v32H0z\"/>"
         "<g fill=\"none\" stroke=\"#17212B\"><circle cx=\"16\" cy=\"16\" r=\"10\" stroke-width=\"3\"/>"
         "<path stroke-width=\"1.5\" stroke-dasharray=\"9 2 2 2\" d=\"M1 16h30M16 1v30\"/></g></svg>\n";
}

}  // namespace cotter::serve
