// Distances measured in the drawing's own text against the numbers that stand in the job file.
#include <cmath>
#include <gtest/gtest.h>

#include "program.hpp"

namespace cotter::cli {
namespace {

struct Dimension {
  std::string id;
  std::string in_job;  ///< text just before the number
};

const std::vector<Dimension> k_dimensions = {{"frame.geometry.stack", "geometry: {stack: "},
                                             {"frame.geometry.reach", "reach: "},
                                             {"frame.geometry.chainstay", "chainstay: "},
                                             {"frame.geometry.bottom_bracket_drop", "bottom_bracket_drop: "},
                                             {"frame.geometry.head_tube_length", "head_tube_length: "},
                                             {"frame.geometry.seat_tube_length", "seat_tube_length: "},
                                             {"seatpost.geometry.saddle_height", "geometry.saddle_height: {value: "}};

struct Point {
  double x = 0, y = 0;
};

std::string attribute(const std::string& element, const std::string& name) {
  const std::size_t at = element.find(" " + name + "=\"");
  if (at == std::string::npos) return "";
  const std::size_t start = at + name.size() + 3;
  return element.substr(start, element.find('"', start) - start);
}

Point point_of(const std::string& text) {
  const std::size_t comma = text.find(',');
  return {std::stod(text.substr(0, comma)), std::stod(text.substr(comma + 1))};
}

class Drawing : public testing::Test {
 protected:
  const std::string svg = run({"draw", example("all_road")}).output;
  const std::string job = text_of(example("all_road"));
  const double scale = std::stod(attribute(svg, "data-scale"));

  /// The opening tag that carries an attribute with a value.
  std::string tag(const std::string& name, const std::string& value) const {
    const std::size_t at = svg.find(" " + name + "=\"" + value + "\"");
    if (at == std::string::npos) return "";
    const std::size_t start = svg.rfind('<', at);
    return svg.substr(start, svg.find('>', at) - start);
  }

  /// The span of a dimension line as drawn, in millimetres.
  double measured(const std::string& id) const {
    const std::string element = tag("data-id", id);
    if (element.empty()) return std::nan("");
    const Point from = point_of(attribute(element, "data-from")), to = point_of(attribute(element, "data-to"));
    const std::string span = attribute(element, "data-span");
    const double pixels = span == "level"   ? std::abs(to.x - from.x)
                          : span == "plumb" ? std::abs(to.y - from.y)
                                            : std::hypot(to.x - from.x, to.y - from.y);
    return pixels / scale;
  }

  /// The number just behind `before`, the first one from `from` on.
  double in_job(const std::string& before, const std::string& from = "") const {
    const std::size_t at = job.find(before, job.find(from));
    EXPECT_NE(at, std::string::npos) << before;
    return std::stod(job.substr(at + before.size(), 12));
  }

  double diameter(const std::string& circle) const {
    return 2 * std::stod(attribute(tag("data-circle", circle), "r")) / scale;
  }

  /// A number of a part of the catalog, by what stands just before it.
  double in_catalog(const std::string& file, const std::string& part, const std::string& before) const {
    const std::string parts = text_of(std::filesystem::path(COTTER_SOURCE_DIR) / "catalog/parts" / (file + ".yaml"));
    const std::size_t start = parts.find("- id: " + part + "\n");
    EXPECT_NE(start, std::string::npos) << part;
    return std::stod(parts.substr(parts.find(before, start) + before.size(), 12));
  }
};

constexpr double k_accuracy_mm = 0.05;

TEST_F(Drawing, DimensionLinesAreAsLongAsTheNumbersOfTheJob) {
  for (const Dimension& dimension : k_dimensions)
    EXPECT_NEAR(measured(dimension.id), in_job(dimension.in_job), k_accuracy_mm) << dimension.id;
}

TEST_F(Drawing, TheCrankIsAsLongAsItsPartSays) {
  EXPECT_NEAR(measured("crankset.geometry.length"),
              in_catalog("bottom_bracket_and_crank", "crank_30_long", "geometry: {length: "), k_accuracy_mm);
}

TEST_F(Drawing, EveryDimensionCarriesTheValueItWasDrawnFrom) {
  for (const Dimension& dimension : k_dimensions)
    EXPECT_EQ(attribute(tag("data-id", dimension.id), "data-nm"),
              std::to_string(std::llround(in_job(dimension.in_job) * 1e6)))
        << dimension.id;
}

TEST_F(Drawing, WheelbaseAndFrontCentreFollowFromTheNumbers) {
  // Plane trigonometry, redone here: down the steering axis from the head tube's top over head tube, lower bearing and
  // fork (404 from crown to axle, straight), then 48 forward at a right angle.
  const double angle = in_job("head_tube_angle: ") * M_PI / 180, offset = in_job(" mm, offset: ", "axle_to_crown: ");
  const double fork = in_job("axle_to_crown: "), drop = in_job("bottom_bracket_drop: "), stay = in_job("chainstay: ");
  const double stand = in_catalog("front_end", "head_bearing_lower_520_45_45", "stand: ");
  const double along = in_job("head_tube_length: ") + stand + std::sqrt(fork * fork - offset * offset);
  const double x = in_job(" reach: ") + along * std::cos(angle) + offset * std::sin(angle);
  const double y = in_job("{stack: ") - along * std::sin(angle) + offset * std::cos(angle);
  EXPECT_NEAR(measured("frame.wheelbase"), x + std::sqrt(stay * stay - drop * drop), k_accuracy_mm);
  EXPECT_NEAR(measured("frame.front_centre"), std::hypot(x, y), k_accuracy_mm);
}

TEST_F(Drawing, WheelsAreDrawnAsLargeAsTheyAre) {
  // ISO 5775-1: a 622 rim is 622 across its bead seat; the tyre stands its width above it on either side.
  const double front = in_catalog("wheels_and_brakes", "tyre_42_622", "geometry: {width: ");
  for (const char* wheel : {"rear_wheel.rim", "front_wheel.rim"}) EXPECT_NEAR(diameter(wheel), 622, 2 * k_accuracy_mm);
  EXPECT_NEAR(diameter("front_tyre.tyre"), 622 + 2 * front, 2 * k_accuracy_mm);
}

/// The ends of a tube in millimetres.
std::pair<Point, Point> tube_in(const std::string& svg, const std::string& id) {
  const std::size_t at = svg.find(" data-tube=\"" + id + "\"");
  if (at == std::string::npos) return {};
  const std::size_t start = svg.rfind('<', at);
  const std::string element = svg.substr(start, svg.find('>', at) - start);
  const Point a = point_of(attribute(element, "data-start")), b = point_of(attribute(element, "data-end"));
  return {{a.x / 1000, a.y / 1000}, {b.x / 1000, b.y / 1000}};
}

double length_in(const std::string& svg, const std::string& id) {
  const auto [a, b] = tube_in(svg, id);
  return std::hypot(b.x - a.x, b.y - a.y);
}

TEST(SteelDrawing, TopTubeAndQuillStemAreLevel) {
  const std::string svg = run({"draw", example("steel_road")}).output;
  const auto [top_front, top_back] = tube_in(svg, "frame.top_tube");
  EXPECT_GT(top_front.x - top_back.x, 400);
  EXPECT_NEAR(top_front.y, top_back.y, k_accuracy_mm);
  // 17 degrees down from the square of a head tube of 73 degrees.
  const auto [stem_back, stem_front] = tube_in(svg, "stem.stem");
  EXPECT_NEAR(stem_front.x - stem_back.x, 100, k_accuracy_mm);
  EXPECT_NEAR(stem_front.y, stem_back.y, k_accuracy_mm);
}

TEST(SteelDrawing, HeadsetAndBareQuillAreAsHighAsTheJobSays) {
  const std::string svg = run({"draw", example("steel_road")}).output;
  // Upper half 15, keyed washer 1.5, locknut 11.
  EXPECT_NEAR(length_in(svg, "headset_upper.cover"), 27.5, k_accuracy_mm);
  EXPECT_NEAR(length_in(svg, "headset_lower.cover"), 13.5, k_accuracy_mm);
  // 60 of the quill stand out up to the middle of the bar, half of the stem's 30 is drawn as the stem.
  EXPECT_NEAR(length_in(svg, "stem.spacers"), 45, k_accuracy_mm);
  EXPECT_EQ(svg.find("data-tube=\"spacers_below.spacers\""), std::string::npos);
}

TEST(SteelDrawing, RimBrakesAreDrawnWhereTheirPlacesAreFilled) {
  const std::string steel = run({"draw", example("steel_road")}).output,
                    disc = run({"draw", example("all_road")}).output;
  for (const char* form : {"data-form=\"front_rim_brake\"", "data-form=\"rear_rim_brake\""}) {
    EXPECT_NE(steel.find(form), std::string::npos) << form;
    EXPECT_EQ(disc.find(form), std::string::npos) << form;
  }
}

}  // namespace
}  // namespace cotter::cli
