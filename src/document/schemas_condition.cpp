#include "document/schemas.hpp"
#include "document/schemas_fields.hpp"

namespace cotter::document {
namespace {

SchemaRef wear_schema() {
  return object_schema("wear", {
                                   needed("id", identifier_schema()),
                                   needed("what", label_schema(), "What wears: wall of the rim, at its thinnest."),
                                   needed("value", anything_schema(), "As read on this piece; `?` when not read yet."),
                                   needed("limit", window_schema(), "Beyond it the part is done."),
                                   needed("source", source_schema(), "Where the limit comes from."),
                               });
}

SchemaRef condition_rule_schema() {
  return object_schema(
      "condition_rule",
      {
          needed("id", identifier_schema(), "Unique in the whole catalog."),
          needed("label", label_schema()),
          needed("families", list_schema(identifier_schema(), 1)),
          optional("places", list_schema(identifier_schema()), "Places of a template, whatever the family is called."),
          optional("materials", list_schema(word_schema(material_words()), 1), "Any when left out."),
          needed("without", word_schema({"stop", "measure"}), "What such a part is while nobody has inspected it."),
          optional("guards", guards_schema()),
          optional("advice", text_schema(), "One sentence: how it is inspected, or what to do instead."),
          needed("source", source_schema()),
      });
}

SchemaRef substitute_schema() {
  return object_schema(
      "substitute",
      {
          needed("tool", identifier_schema(), "Kind of tool that was used."),
          needed("label", label_schema(), "What of it touches the part: flat jaws of a caliper."),
          needed("instead_of", identifier_schema(), "Kind of tool that the dimension's own guide asks for."),
          needed("needed_label", label_schema(), "That tool in words."),
          needed("reads_low", window_schema(), "The true size is this much above the reading."),
          needed("source", source_schema()),
      });
}

}  // namespace

SchemaRef condition_schema() {
  static const SchemaRef schema =
      object_schema("condition", {
                                     needed("inspected", text_schema(), "How."),
                                     needed("by", label_schema()),
                                     needed("on", short_text_schema()),
                                     needed("result", word_schema({"sound", "damaged"}), "Damaged in case of doubt."),
                                     optional("found", text_schema(), "What was found, in words."),
                                     optional("wear", list_schema(wear_schema())),
                                 });
  return schema;
}

SchemaRef conditions_schema() {
  static const SchemaRef schema =
      object_schema("conditions", {header_field(), needed("used", list_schema(condition_rule_schema()))});
  return schema;
}

SchemaRef customs_schema() {
  static const SchemaRef schema = object_schema(
      "customs", {header_field(),
                  needed("brakes", list_schema(object_schema(
                                       "brake_custom",
                                       {needed("left", word_schema({"front", "rear"}), "The brake of the left hand."),
                                        needed("countries", list_schema(short_text_schema(), 1)),
                                        needed("source", source_schema())})))});
  return schema;
}

SchemaRef tools_schema() {
  static const SchemaRef schema =
      object_schema("tools", {header_field(), needed("substitutes", list_schema(substitute_schema()))});
  return schema;
}

}  // namespace cotter::document
