#include "draw/svg_writer.hpp"

#include <array>
#include <charconv>
#include <cmath>

#include "draw/utf8.hpp"
#include "quantity/ensure.hpp"

namespace cotter::draw {
namespace {

constexpr std::string_view k_replacement = "\xEF\xBF\xBD";

bool not_for_a_sheet(const Letter& letter) {
  const char32_t c = letter.code;
  const bool turns_writing = (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0x200E || c == 0x200F;
  return !letter.valid || c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0xFFFE || c == 0xFFFF || turns_writing;
}

std::string_view entity_for(char32_t c) {
  switch (c) {
    case '&':
      return "&amp;";
    case '<':
      return "&lt;";
    case '>':
      return "&gt;";
    case '"':
      return "&quot;";
    case '\'':
      return "&#39;";
    case '\t':
    case '\n':
    case '\r':
      return " ";
    default:
      return {};
  }
}

}  // namespace

std::string number_text(double value) {
  quantity::ensure(std::isfinite(value) && std::abs(value) < 1e9, "a place far off any sheet");
  std::array<char, 32> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, 2).ptr;
  std::string text(buffer.data(), end);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string spot_text(Spot p) {
  return number_text(p.x) + "," + number_text(p.y);
}

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const Letter letter = first_letter(text);
    const std::string_view entity = letter.valid ? entity_for(letter.code) : std::string_view{};
    if (!entity.empty()) {
      out += entity;
    } else if (not_for_a_sheet(letter)) {
      out += k_replacement;
    } else {
      out += text.substr(0, letter.bytes);
    }
    text.remove_prefix(letter.bytes);
  }
  return out;
}

Path& Path::move(Spot p) {
  text_ += "M" + spot_text(p);
  return *this;
}
Path& Path::line(Spot p) {
  text_ += "L" + spot_text(p);
  return *this;
}
Path& Path::quadratic(Spot control, Spot p) {
  text_ += "Q" + spot_text(control) + " " + spot_text(p);
  return *this;
}
Path& Path::cubic(Spot control_a, Spot control_b, Spot p) {
  text_ += "C" + spot_text(control_a) + " " + spot_text(control_b) + " " + spot_text(p);
  return *this;
}
Path& Path::arc(double radius, int clockwise, Spot p) {
  const std::string r = number_text(radius);
  text_ += "A" + r + "," + r + " 0 0 " + (clockwise != 0 ? "1 " : "0 ") + spot_text(p);
  return *this;
}
Path& Path::close() {
  text_ += "Z";
  return *this;
}

void SvgWriter::start(std::string_view tag, const Attributes& attributes) {
  out_ += "<";
  out_ += tag;
  for (const auto& [name, value] : attributes) {
    out_ += " ";
    out_ += name;
    out_ += "=\"" + escaped(value) + "\"";
  }
}

void SvgWriter::open(std::string_view tag, const Attributes& attributes) {
  start(tag, attributes);
  out_ += ">\n";
  open_.emplace_back(tag);
}

void SvgWriter::close() {
  quantity::ensure(!open_.empty(), "an SVG element closed twice");
  out_ += "</" + open_.back() + ">\n";
  open_.pop_back();
}

void SvgWriter::leaf(std::string_view tag, const Attributes& attributes) {
  start(tag, attributes);
  out_ += "/>\n";
}

void SvgWriter::text(std::string_view tag, const Attributes& attributes, std::string_view text) {
  start(tag, attributes);
  out_ += ">" + escaped(text) + "</";
  out_ += tag;
  out_ += ">\n";
}

void SvgWriter::raw(std::string_view markup) {
  out_ += markup;
}

void SvgWriter::line(std::string_view kind, Spot a, Spot b) {
  leaf("line", {{"class", std::string(kind)},
                {"x1", number_text(a.x)},
                {"y1", number_text(a.y)},
                {"x2", number_text(b.x)},
                {"y2", number_text(b.y)}});
}

void SvgWriter::circle(std::string_view kind, Spot centre, double radius) {
  leaf("circle", {{"class", std::string(kind)},
                  {"cx", number_text(centre.x)},
                  {"cy", number_text(centre.y)},
                  {"r", number_text(radius)}});
}

void SvgWriter::path(std::string_view kind, const Path& path) {
  leaf("path", {{"class", std::string(kind)}, {"d", path.text()}});
}

void SvgWriter::rectangle(std::string_view kind, const Box& box) {
  leaf("rect", {{"class", std::string(kind)},
                {"x", number_text(box.left)},
                {"y", number_text(box.top)},
                {"width", number_text(box.width())},
                {"height", number_text(box.height())}});
}

std::string SvgWriter::take() {
  quantity::ensure(open_.empty(), "an SVG element left open");
  return std::move(out_);
}

}  // namespace cotter::draw
