#include "document/schemas.hpp"
#include "document/schemas_fields.hpp"

namespace cotter::document {
namespace {

SchemaRef shape_schema() {
  return object_schema("shape", {
                                    optional("round", length_schema(), "Diameter of a round hole."),
                                    optional("width", length_schema(), "Clear width of a slot or an oval."),
                                    optional("length", length_schema(), "Clear length, ends included."),
                                    optional("oval", boolean_schema(), "An oval; a slot when left out."),
                                });
}

SchemaRef cell_schema() {
  return object_schema("cell", {
                                   needed("id", identifier_schema()),
                                   needed("tube", word_schema(tube_words()), "Tube of the skeleton that it lies in."),
                                   needed("outer_diameter", length_schema()),
                                   needed("bore", length_schema()),
                               });
}

SchemaRef enlarge_schema() {
  return object_schema("enlarge", {
                                      needed("most", length_schema(), "Most that the diameter may grow by."),
                                      optional("paper", label_schema(), "Maker's paper that permits it."),
                                  });
}

SchemaRef opening_schema() {
  return object_schema(
      "opening",
      {
          needed("id", identifier_schema()),
          needed("label", label_schema()),
          needed("cell", identifier_schema()),
          needed("from", word_schema({"start", "end"}), "End of the tube the distance is taken from."),
          needed("distance", length_schema(), "Along the tube to the middle of the hole."),
          needed("side", word_schema({"left", "right", "top", "bottom", "front", "back", "end"})),
          needed("shape", shape_schema()),
          optional("shared", boolean_schema(), "Whether several lines may use it; false when left out."),
          optional("enlarge", enlarge_schema()),
          optional("insert", label_schema(), "What is fitted in it."),
          optional("holds", list_schema(length_schema(), 1, 20), "Bores of that insert, one for each line it takes."),
          optional("thread", label_schema(), "Of a threaded opening, for example `M5 x 0.8`."),
      });
}

SchemaRef pivot_schema() {
  const auto degrees = value_schema(quantity::Dimension::angle);
  return object_schema(
      "pivot", {
                   needed("id", identifier_schema()),
                   needed("label", label_schema()),
                   needed("cells", list_schema(identifier_schema(), 1, 64), "Cells of this part that turn about it."),
                   optional("points", list_schema(word_schema(point_words()), 1, 20),
                            "Points of the skeleton that turn; a device whose seat hangs on one turns along."),
                   needed("at", object_schema("axis", {needed("x", length_schema()), needed("y", length_schema())}),
                          "Its axis, from the bottom bracket: x forward, y up."),
                   needed("from", degrees, "One end of the travel; 0° is the frame as drawn."),
                   needed("to", degrees, "The other end; positive where what lies behind the pivot has risen."),
               });
}

std::vector<Field> section_fields() {
  return {optional("round", length_schema(), "Diameter of a round one."), optional("width", length_schema()),
          optional("height", length_schema())};
}

/// Fields of a line, with those of its ends.
std::vector<Field> line_fields(Field ends) {
  return {
      needed("kind", word_schema({"wire", "hose", "housing"})),
      needed("diameter", length_schema()),
      std::move(ends),
      optional("lengths", list_schema(length_schema(), 1), "Lengths that are offered."),
      optional("longest", length_schema(), "Cut to length: the longest there is."),
      needed("bend_radius", length_schema(), "Tightest bend it may lie in."),
      optional("bare", boolean_schema(), "A moving cable that runs without housing inside the frame."),
  };
}

SchemaRef end_schema() {
  std::vector<Field> fields = section_fields();
  fields.insert(fields.begin(), needed("family", identifier_schema()));
  return object_schema("line_end", fields);
}

SchemaRef line_schema() {
  return object_schema("line", line_fields(needed("ends", list_schema(end_schema(), 2, 2))));
}

SchemaRef device_schema() {
  const SchemaRef lead = object_schema("lead", line_fields(needed("plug", end_schema(), "Its free end.")));
  const SchemaRef port =
      object_schema("port", {needed("id", identifier_schema()), needed("family", identifier_schema()),
                             optional("lead", lead, "A line that cannot be parted from the device.")});
  return object_schema("device", {needed("ports", list_schema(port)),
                                  optional("body", object_schema("body", section_fields()),
                                           "Cross-section that must pass when it is put into the frame.")});
}

}  // namespace

const std::vector<std::string>& tube_words() {
  static const std::vector<std::string> words{
      "head_tube",       "top_tube",         "down_tube",      "seat_tube", "chainstay_left",
      "chainstay_right", "seatstay_left",    "seatstay_right", "shell",     "steerer",
      "fork_blade_left", "fork_blade_right", "seatpost",       "stem",      "bar"};
  return words;
}

const std::vector<std::string>& material_words() {
  static const std::vector<std::string> words{"unknown",   "steel",   "aluminium", "titanium",
                                              "composite", "plastic", "other"};
  return words;
}

SchemaRef passage_schema() {
  return object_schema(
      "passage", {
                     needed("id", identifier_schema()),
                     needed("label", label_schema()),
                     needed("a", short_text_schema(), "Cell on one side."),
                     needed("b", short_text_schema(), "Cell on the other side; `place.cell` for one of another place."),
                     needed("tube", short_text_schema(), "Cell on whose axis the place is given."),
                     needed("from", word_schema({"start", "end"})),
                     needed("distance", length_schema()),
                     needed("shape", shape_schema()),
                     optional("shared", boolean_schema(), "True when left out."),
                 });
}

SchemaRef part_schema() {
  static const SchemaRef schema = object_schema(
      "part",
      {
          needed("id", identifier_schema()),
          needed("label", label_schema()),
          needed("family", identifier_schema()),
          optional("material", word_schema(material_words())),
          optional("mass", value_schema(quantity::Dimension::mass)),
          optional("price", short_text_schema(), "For example `54.00 EUR`."),
          optional("used", boolean_schema()),
          optional("condition", condition_schema(), "Inspection of a used part."),
          optional("paper", label_schema(), "Maker's paper its values come from; left out when there is none."),
          optional("interfaces", map_schema(map_schema(anything_schema()), 200),
                   "`kind`, then the dimensions and words of that kind."),
          optional("geometry", map_schema(anything_schema(), 100), "Named lengths and angles for the skeleton."),
          optional("cells", list_schema(cell_schema())),
          optional("openings", list_schema(opening_schema())),
          optional("passages", list_schema(passage_schema())),
          optional("pivots", list_schema(pivot_schema(), 1, 1), "Of a sprung frame: what turns about its main pivot."),
          optional("joins", list_schema(list_schema(identifier_schema(), 2, 2), 1, 20),
                   "`[a, b]`: two interfaces it stands between, as an adapter or sleeve does."),
          optional("device", device_schema()),
          optional("line", line_schema()),
      });
  return schema;
}

SchemaRef parts_schema() {
  static const SchemaRef schema = object_schema("parts", {header_field(), needed("parts", list_schema(part_schema()))});
  return schema;
}

}  // namespace cotter::document
