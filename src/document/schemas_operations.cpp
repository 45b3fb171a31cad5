#include "document/schemas.hpp"
#include "document/schemas_fields.hpp"

namespace cotter::document {
namespace {

constexpr double k_most_minutes = 10'000;

SchemaRef access_schema() {
  return object_schema("access", {
                                     needed("id", identifier_schema()),
                                     needed("label", label_schema()),
                                     optional("open", boolean_schema(), "Open at the start; true when left out."),
                                 });
}

SchemaRef operation_schema() {
  const SchemaRef names = list_schema(identifier_schema());
  const SchemaRef group = either_schema({identifier_schema(), list_schema(identifier_schema(), 1)});
  return object_schema(
      "operation",
      {
          needed("id", identifier_schema()),
          needed("label", text_schema(), "What is done, as an instruction."),
          optional("phase", label_schema(), "Heading on the papers."),
          optional("when", list_schema(short_text_schema()), "Facts that must all hold; `!` in front negates."),
          optional("after", names),
          optional("needs_open", list_schema(group), "All of them; of a list inside any one."),
          optional("opens", names),
          optional("closes", names),
          optional("tools", names),
          optional("position", identifier_schema(), "How the work is held."),
          needed("minutes", real_schema(0, k_most_minutes)),
          optional("reversible", word_schema({"yes", "costly", "no"}), "Yes when left out."),
          optional("hold", text_schema(), "Evidence; makes it a hold point."),
          optional("check", text_schema(), "How one knows that it is right."),
          optional("caution", text_schema()),
      });
}

}  // namespace

SchemaRef operations_schema() {
  static const SchemaRef schema = object_schema("operations", {
                                                                  header_field(),
                                                                  optional("accesses", list_schema(access_schema())),
                                                                  needed("operations", list_schema(operation_schema())),
                                                              });
  return schema;
}

}  // namespace cotter::document
