#include "document/schemas.hpp"
#include "document/schemas_fields.hpp"

namespace cotter::document {
namespace {

constexpr std::int64_t k_most_coefficient = 100;
constexpr std::int64_t k_most_offset = 5'000;  // mm
constexpr std::int64_t k_most_cost = 1'000'000;
constexpr double k_most_late = 100'000;  // minutes

SchemaRef place_schema() {
  return object_schema("place",
                       {
                           needed("id", identifier_schema()),
                           needed("label", label_schema()),
                           optional("optional", boolean_schema(), "May stay empty in a finished bicycle."),
                           optional("decide_before", identifier_schema(), "Operation that first needs the choice."),
                           optional("unchecked", label_schema(), "Why nothing judges what is here."),
                       });
}

Field when_field() {
  return optional("when", list_schema(short_text_schema()),
                  "Facts on what fills the places that must all hold; `!` in front negates.");
}

Field late_field() {
  return optional("late", real_schema(0, k_most_late), "Minutes lost when it turns out wrong at the bench.");
}

Field spoils_field() {
  return optional("spoils", identifier_schema(), "Place whose part is lost with it; its price counts as time.");
}

SchemaRef feature_schema() {
  return object_schema("feature", {
                                      needed("id", identifier_schema()),
                                      needed("label", label_schema()),
                                      needed("feature", short_text_schema(), "`place.interface`."),
                                      needed("kinds", list_schema(identifier_schema(), 1), "What it can be."),
                                      optional("guards", guards_schema()),
                                  });
}

SchemaRef term_schema() {
  return object_schema("term", {
                                   needed("id", identifier_schema()),
                                   needed("label", label_schema()),
                                   optional("value", short_text_schema(), "`place.interface.dimension`."),
                                   optional("fixed", length_schema()),
                               });
}

SchemaRef slot_schema() {
  return object_schema("slot", {
                                   needed("id", identifier_schema()),
                                   needed("label", label_schema()),
                                   needed("piece", identifier_schema(), "Kind of kit piece that fits there."),
                                   needed("most", integer_schema(0, 100)),
                                   optional("round", short_text_schema(),
                                            "`place.interface.dimension` that the piece's hole goes over."),
                                   when_field(),
                               });
}

SchemaRef form_schema() {
  const SchemaRef factors = map_schema(integer_schema(-k_most_coefficient, k_most_coefficient), 60);
  return object_schema(
      "form", {
                  needed("id", identifier_schema()),
                  needed("label", label_schema()),
                  needed("terms", factors, "Term: whole number it is taken times."),
                  optional("slots", factors),
                  optional("halved", boolean_schema(), "The sum is divided by two."),
                  optional("cut", boolean_schema(), "This length is sawn."),
                  optional("must_from", short_text_schema(), "`place.interface.dimension` that is the lower limit."),
                  optional("must_to", short_text_schema(), "`place.interface.dimension` that is the upper limit."),
                  optional("must", window_schema()),
                  optional("should", window_schema()),
                  optional("target", length_schema(), "The closest is the best."),
                  optional("target_from", short_text_schema(), "`place.interface.dimension` that is the target."),
                  optional("below", outcome_schema()),
                  optional("above", outcome_schema()),
                  optional("guards", guards_schema()),
                  optional("may_pass", may_pass_schema()),
                  optional("source", source_schema()),
                  when_field(),
                  late_field(),
                  spoils_field(),
              });
}

SchemaRef stack_schema() {
  return object_schema("stack", {
                                    needed("id", identifier_schema()),
                                    needed("label", label_schema()),
                                    needed("terms", list_schema(term_schema(), 1)),
                                    optional("slots", list_schema(slot_schema())),
                                    needed("forms", list_schema(form_schema(), 1)),
                                    when_field(),
                                });
}

SchemaRef seat_schema() {
  return object_schema("seat", {
                                   optional("id", identifier_schema(), "By which a job can choose it."),
                                   needed("place", identifier_schema()),
                                   needed("cell", short_text_schema(), "`place.cell`, or `outside`."),
                                   needed("point", word_schema(point_words()), "Named point of the skeleton."),
                                   optional("offset", list_schema(integer_schema(-k_most_offset, k_most_offset), 3, 3),
                                            "Millimetres forward, up, to the rider's right."),
                                   optional("opening", short_text_schema(), "`place.opening` that the device uses up."),
                                   optional("entries", list_schema(short_text_schema(), 1, 10),
                                            "`place.opening`s that the device is put through, from the outside."),
                                   optional("cost", integer_schema(0, k_most_cost), "Hundredths of a minute."),
                               });
}

SchemaRef clearance_schema() {
  return object_schema("clearance",
                       {
                           needed("id", identifier_schema()),
                           needed("cell", short_text_schema(), "`place.cell` that a shaft stands in."),
                           needed("inside", short_text_schema(), "`place.interface.dimension`: clear diameter there."),
                           needed("shaft", short_text_schema(), "`place.interface.dimension`: diameter of the shaft."),
                           needed("keep", length_schema(), "Of the room beside it, for a sleeve and for air."),
                           when_field(),
                       });
}

}  // namespace

const std::vector<std::string>& point_words() {
  static const std::vector<std::string> words{"bottom_bracket", "rear_axle",    "front_axle",    "crown",
                                              "head_top",       "head_bottom",  "seat_cluster",  "seat_top",
                                              "saddle",         "stem_clamp",   "bar_centre",    "hood_left",
                                              "hood_right",     "bar_end_left", "bar_end_right", "pedal_right"};
  return words;
}

SchemaRef joint_schema() {
  return object_schema(
      "joint",
      {
          needed("id", identifier_schema()),
          needed("label", label_schema()),
          needed("a", short_text_schema(), "`place.interface`."),
          needed("b", short_text_schema(), "`place.interface`."),
          optional("only_with", word_schema({"shell_lines", "stated", "needed"}),
                   "`shell_lines`: asks nothing when no line passes the shell; `stated`: when neither side says "
                   "the feature; `needed`: likewise, but while `a` says it, the place of `b` may not stay empty."),
          when_field(),
          late_field(),
          spoils_field(),
      });
}

SchemaRef connection_schema() {
  return object_schema("connection", {
                                         needed("id", identifier_schema()),
                                         needed("label", label_schema()),
                                         needed("a", short_text_schema(), "`place.port`."),
                                         needed("b", short_text_schema(), "`place.port`."),
                                         optional("guards", guards_schema()),
                                         when_field(),
                                     });
}

SchemaRef section_schema() {
  static const SchemaRef schema = object_schema(
      "section", {
                     header_field(),
                     needed("id", identifier_schema()),
                     needed("label", label_schema()),
                     needed("places", list_schema(identifier_schema(), 1), "Every place the entries below name."),
                     optional("features", list_schema(feature_schema())),
                     optional("joints", list_schema(joint_schema())),
                     optional("connections", list_schema(connection_schema())),
                     optional("stacks", list_schema(stack_schema())),
                     optional("clearances", list_schema(clearance_schema())),
                 });
  return schema;
}

SchemaRef bicycle_schema() {
  static const SchemaRef schema =
      object_schema("bicycle", {
                                   header_field(),
                                   needed("id", identifier_schema()),
                                   needed("label", label_schema()),
                                   needed("places", list_schema(place_schema(), 1)),
                                   optional("sections", list_schema(identifier_schema()),
                                            "Sections whose joints and stacks this bicycle has as well."),
                                   optional("features", list_schema(feature_schema())),
                                   optional("joints", list_schema(joint_schema())),
                                   optional("connections", list_schema(connection_schema())),
                                   optional("stacks", list_schema(stack_schema())),
                                   optional("clearances", list_schema(clearance_schema())),
                                   optional("seats", list_schema(seat_schema())),
                                   optional("passages", list_schema(passage_schema())),
                               });
  return schema;
}

}  // namespace cotter::document
