#include "draw/stylesheet.hpp"

#include <string_view>

namespace cotter::draw {
namespace {

constexpr std::string_view k_light =
    "--paper:#F5F2E9;--part:#FBF9F3;--ink:#17212B;--ink2:#4B5763;--rule:#B9BBB3;--wire:#0B568F;--hose:#9C420C;"
    "--mark:#FFDD66;--markink:#17212B;--sel:#FFF1BF";
constexpr std::string_view k_dark =
    "--paper:#0E2C50;--part:#123560;--ink:#EAF1F8;--ink2:#AFC4DB;--rule:#3F6290;--wire:#8CCBFF;--hose:#FFB07A;"
    "--mark:#FFE07A;--markink:#0E2C50;--sel:#1D4577";
constexpr std::string_view k_print =
    "--paper:#FFFFFF;--part:#FFFFFF;--ink:#000000;--ink2:#333333;--rule:#888888;--wire:#0B568F;--hose:#9C420C;"
    "--mark:#FFFFFF;--markink:#000000;--sel:#EEEEEE";

struct Rule {
  std::string_view selectors, declarations;
};

// Two weights about 1 : 2; dash patterns by kind of line (ISO 128-2: 02.1 hidden, 04.1 centre, 05.1 phantom).
constexpr Rule k_rules[] = {
    {"text", "fill:var(--ink);stroke:none"},
    {".paper", "fill:var(--paper);stroke:none"},
    {".w", "fill:none;stroke:var(--ink);stroke-width:2;stroke-linejoin:round;stroke-linecap:round"},
    {".m", "fill:none;stroke:var(--ink);stroke-width:1.4;stroke-linejoin:round"},
    {".n", "fill:none;stroke:var(--ink);stroke-width:.9"},
    {".g", "fill:none;stroke:var(--rule);stroke-width:.9"},
    {".hd", "fill:none;stroke:var(--ink);stroke-width:.9;stroke-dasharray:7 3"},
    {".ct", "fill:none;stroke:var(--ink);stroke-width:.8;stroke-dasharray:16 3 2.5 3"},
    {".ph", "fill:none;stroke:var(--ink);stroke-width:.9;stroke-dasharray:14 3 2 3 2 3"},
    {".arr,.dot", "fill:var(--ink);stroke:none"},
    {".body", "fill:var(--part);stroke:none"},
    {".bw", "fill:var(--part);stroke:var(--ink);stroke-width:2;stroke-linejoin:round"},
    {".bar-edge", "fill:none;stroke:var(--ink);stroke-linejoin:round"},
    {".bar-body", "fill:none;stroke:var(--part);stroke-linejoin:round"},
    {".t", "font-size:16px"},
    {".ts", "font-size:14px"},
    {".zone", "font-size:13px;fill:var(--ink2)"},
    {".small", "font-size:13px;fill:var(--ink2)"},
    {".big", "font-size:19px"},
    {".dim", "font-size:17px"},
    {".dim,.lt", "paint-order:stroke;stroke:var(--paper);stroke-width:5px;stroke-linejoin:round"},
    {".drv", "fill:var(--ink2)"},
    {".bt", "font-size:15px"},
    {".lt", "font-size:15px"},
    {".end", "text-anchor:end"},
    {".mid", "text-anchor:middle"},
    {".plain", "font-family:\"B612\",\"DejaVu Sans\",sans-serif;font-size:13px"},
    {".bold", "font-weight:700"},
    {".quiet", "fill:var(--ink2)"},
    {".wire", "stroke:var(--wire)"},
    {".hose", "stroke:var(--hose)"},
    {".housing", "stroke:var(--ink)"},
    {".run", "fill:none;stroke-width:2.2;stroke-linejoin:round"},
    {".f-wire", "fill:var(--wire)"},
    {".f-hose", "fill:var(--hose)"},
    {".f-housing", "fill:var(--ink)"},
    {".in1", "stroke-dasharray:18 4"},
    {".in2", "stroke-dasharray:9 3.5"},
    {".in3", "stroke-dasharray:12 3 2 3"},
    {".in4", "stroke-dasharray:4.5 3"},
    {".in5", "stroke-dasharray:9 3 2 3 2 3"},
    {".bf", "fill:var(--paper);stroke:none"},
    {".bl", "fill:none;stroke:var(--ink)"},
    {".b-ok,.b-accept", "stroke-width:1"},
    {".b-measure", "stroke-width:1.4;stroke-dasharray:5.2 3"},
    {".b-add", "stroke-width:1.3;stroke-dasharray:11 2.4 1.6 2.4 1.6 2.4"},
    {".b-rework", "stroke-width:2.4;stroke-dasharray:10 3.2 2.4 3.2"},
    {".b-stop", "stroke-width:3.2"},
    {".hole", "fill:var(--paper);stroke:var(--ink);stroke-width:1.3"},
    {".hole-far", "fill:var(--paper);stroke:var(--ink);stroke-width:1.3;stroke-dasharray:2 1.6"},
    {".marker", "fill:var(--mark);stroke:none"},
    {".onmark", "fill:var(--markink)"},
    {".sel", "fill:var(--sel);stroke:none"},
};

std::string scoped(const Rule& rule) {
  std::string out;
  std::string_view rest = rule.selectors;
  while (true) {
    const auto comma = rest.find(',');
    out += ".cotter-sheet " + std::string(rest.substr(0, comma));
    if (comma == std::string_view::npos) break;
    out += ",";
    rest.remove_prefix(comma + 1);
  }
  return out + "{" + std::string(rule.declarations) + "}\n";
}

std::string tokens(std::string_view values) {
  return ".cotter-sheet{" + std::string(values) + "}\n";
}

}  // namespace

std::string stylesheet(const Style& style) {
  std::string css = style.fonts_css;
  switch (style.theme) {
    case Theme::automatic:
      css += tokens(k_light) + "@media (prefers-color-scheme:dark){" + tokens(k_dark) + "}\n";
      break;
    case Theme::light:
      css += tokens(k_light);
      break;
    case Theme::dark:
      css += tokens(k_dark);
      break;
    case Theme::print:
      css += tokens(k_print);
      break;
  }
  css += ".cotter-sheet{font-family:osifont,\"B612\",\"DejaVu Sans\",sans-serif;font-size:16px}\n";
  for (const Rule& rule : k_rules) css += scoped(rule);
  return css;
}

}  // namespace cotter::draw
