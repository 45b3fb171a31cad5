#include <string_view>

#include "draw/stylesheet.hpp"
#include "draw_b612_bold.hpp"
#include "draw_b612_regular.hpp"
#include "draw_osifont.hpp"

namespace cotter::draw {
namespace {

std::string face(std::string_view family, std::string_view weight, std::string_view base64) {
  return "@font-face{font-family:\"" + std::string(family) + "\";font-weight:" + std::string(weight) +
         ";src:url(data:font/woff2;base64," + std::string(base64) + ") format(\"woff2\")}\n";
}

}  // namespace

std::string embedded_fonts_css() {
  return face("osifont", "400", k_osifont_base64) + face("B612", "400", k_b612_regular_base64) +
         face("B612", "700", k_b612_bold_base64);
}

}  // namespace cotter::draw
