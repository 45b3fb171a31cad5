#include "document/schemas.hpp"
#include "document/schemas_fields.hpp"

namespace cotter::document {
namespace {

constexpr double k_most_minutes = 10'000;

SchemaRef measure_schema() {
  return object_schema(
      "measure",
      {
          needed("feature", label_schema(), "What is measured."),
          needed("faces", label_schema(), "Between which two faces or points."),
          needed("tool", identifier_schema(), "Kind of tool."),
          needed("resolution", short_text_schema(), "Smallest step the tool must show, or what is enough to know."),
          optional("minutes", real_schema(0, k_most_minutes), "How long it takes; 5 when left out."),
      });
}

SchemaRef dimension_schema() {
  return object_schema(
      "dimension",
      {
          needed("is", word_schema({"length", "angle", "torque", "force", "mass", "pressure", "duration", "count"})),
          needed("label", label_schema()),
          needed("from", short_text_schema(), "Least that this kind can be at all."),
          needed("to", short_text_schema(), "Most that this kind can be at all."),
          optional("unstated", short_text_schema(), "Deviations taken where a paper states none: `±0.02 mm`."),
          optional("needed", boolean_schema(), "Whether an interface must give it; true when left out."),
          optional("thickest_line", boolean_schema(),
                   "True: no part states it; it is the outside diameter of the thickest line of the job."),
          optional("measure", measure_schema()),
      });
}

SchemaRef word_property_schema() {
  return object_schema("word_property", {
                                            needed("label", label_schema()),
                                            needed("accepted", list_schema(identifier_schema(), 1)),
                                            optional("needed", boolean_schema()),
                                        });
}

SchemaRef press_schema() {
  const SchemaRef friction =
      object_schema("friction", {needed("from", real_schema(0, 2)), needed("to", real_schema(0, 2))});
  return object_schema(
      "press", {needed("outer", short_text_schema(), "Outside diameter of the part with the bore."),
                optional("inner", short_text_schema(), "Inside diameter of the part pressed in; solid when left out."),
                needed("length", short_text_schema(), "Length over which the two touch."),
                optional("most_stress", short_text_schema(), "Most hoop stress that the maker allows at the bore."),
                needed("hub", short_text_schema(), "Material of the part with the bore, or `own.<word>`."),
                needed("shaft", short_text_schema(), "Material of the part pressed in, or `other.<word>`."),
                needed("friction", friction, "Coefficient of friction while pressing.")});
}

SchemaRef rule_schema() {
  return object_schema("rule",
                       {
                           needed("id", identifier_schema(), "Unique in the whole catalog."),
                           needed("label", label_schema()),
                           needed("law", identifier_schema(), "One of the laws of docs/fit.md."),
                           optional("operands", map_schema(short_text_schema()),
                                    "Role of the law: `own.<dimension>`, `other.<dimension>`, or a written value."),
                           optional("words", map_schema(list_schema(short_text_schema(), 2, 2)),
                                    "Role of the law: `[own.<word>, other.<word>]`."),
                           optional("must", window_schema(), "Outside it the rule says `below` or `above`."),
                           optional("should", window_schema(), "Outside it, but inside `must`, the rule says accept."),
                           optional("below", outcome_schema()),
                           optional("above", outcome_schema()),
                           optional("guards", guards_schema()),
                           optional("may_pass", may_pass_schema()),
                           optional("source", source_schema(), "Common practice when left out."),
                           optional("press", press_schema(), "What pressing the two together does to them."),
                       });
}

SchemaRef meeting_schema() {
  return object_schema("meeting", {needed("kind", identifier_schema()), optional("rules", list_schema(rule_schema()))});
}

SchemaRef kind_schema() {
  return object_schema(
      "interface_kind",
      {
          needed("id", identifier_schema()),
          needed("label", label_schema()),
          optional("about", text_schema()),
          optional("dimensions", map_schema(dimension_schema(), 60)),
          optional("words", map_schema(word_property_schema(), 30)),
          optional("smaller_than", list_schema(list_schema(identifier_schema(), 2, 2)), "`[a, b]`: a is less than b."),
          optional("meets", list_schema(meeting_schema()), "Declared on one of the two sides only."),
          optional("stands_on",
                   object_schema("stands_on", {optional("materials", list_schema(word_schema(material_words()), 1)),
                                               optional("families", list_schema(identifier_schema(), 1))}),
                   "Materials and families of the parts that can have such an interface; any when left out."),
          optional("never_bridged", boolean_schema(), "No adapter may stand here; false when left out."),
      });
}

}  // namespace

SchemaRef window_schema() {
  return object_schema("window", {optional("from", short_text_schema()), optional("to", short_text_schema())});
}

SchemaRef outcome_schema() {
  return object_schema("outcome",
                       {
                           needed("says", word_schema({"stop", "rework", "add"})),
                           optional("do", identifier_schema(), "Operation that is permitted; with `rework`."),
                           optional("part", label_schema(), "What would mend it; with `add`."),
                           optional("advice", text_schema(), "One sentence."),
                       });
}

SchemaRef source_schema() {
  return object_schema("source", {
                                     optional("standard", label_schema(), "Standard and clause."),
                                     optional("maker", label_schema(), "Maker's paper and place in it."),
                                     optional("handbook", label_schema()),
                                     optional("common_practice", boolean_schema()),
                                 });
}

SchemaRef guards_schema() {
  return word_schema({"nothing", "brake", "steering", "axle", "insertion", "pressure", "composite"});
}

SchemaRef may_pass_schema() {
  return word_schema({"nobody", "mechanic", "maker"});
}

SchemaRef kinds_schema() {
  static const SchemaRef schema =
      object_schema("interface_kinds", {header_field(), needed("kinds", list_schema(kind_schema()))});
  return schema;
}

SchemaRef interface_fields(const model::InterfaceKind& kind, Completeness completeness) {
  const auto need = [&](bool required) {
    return required && completeness == Completeness::needed ? Field::Need::required : Field::Need::optional;
  };
  std::vector<Field> fields{needed("kind", word_schema({kind.id}))};
  for (const model::KindDimension& dimension : kind.dimensions)
    fields.push_back({dimension.id, value_schema(dimension.dimension), need(dimension.required), dimension.label});
  for (const model::KindWord& word : kind.words) {
    std::vector<std::string> accepted = word.accepted;
    accepted.emplace_back(k_unknown_word);
    fields.push_back({word.id, word_schema(std::move(accepted)), need(word.required), word.label});
  }
  return object_schema(kind.id + " interface", std::move(fields));
}

Node interface_schema(const model::InterfaceKind& kind) {
  return json_schema(*interface_fields(kind, Completeness::needed), kind.label);
}

}  // namespace cotter::document
