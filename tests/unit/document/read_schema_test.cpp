#include "document/schemas.hpp"
#include "read_support.hpp"

namespace cotter::document {
namespace {

std::vector<std::string> texts_of(const Node& list) {
  std::vector<std::string> texts;
  for (const Node& item : list.items()) texts.push_back(item.scalar());
  return texts;
}

std::vector<std::string> keys_of(const Node& map) {
  std::vector<std::string> keys;
  for (const Node::Entry& entry : map.entries()) keys.push_back(entry.key);
  return keys;
}

TEST(InterfaceSchema, IsMadeFromTheKind) {
  const Node schema = interface_schema(small_catalog().kinds.at("shell"));
  EXPECT_EQ(schema.find("title")->scalar(), "press-fit shell");
  EXPECT_EQ(keys_of(*schema.find("properties")),
            (std::vector<std::string>{"kind", "bore", "outer_diameter", "depth", "grade"}));
  EXPECT_EQ(texts_of(*schema.find("required")), (std::vector<std::string>{"kind", "bore", "outer_diameter", "grade"}));
  EXPECT_EQ(texts_of(*schema.find("properties")->find("grade")->find("enum")),
            (std::vector<std::string>{"plain", "faced", "?"}));
  EXPECT_EQ(texts_of(*schema.find("properties")->find("kind")->find("enum")), std::vector<std::string>{"shell"});
}

TEST(DocumentSchemas, EachDocumentNeedsItsFirstLine) {
  for (const SchemaRef& schema :
       {kinds_schema(), parts_schema(), bicycle_schema(), section_schema(), operations_schema(), job_schema()}) {
    const Node published = json_schema(*schema, "title");
    EXPECT_EQ(texts_of(*published.find("required")).at(0), "cotter");
  }
}

TEST(DocumentSchemas, JobAndCatalogShareThePart) {
  const Node job = json_schema(*job_schema(), "job");
  const Node parts = json_schema(*parts_schema(), "parts");
  EXPECT_EQ(*job.find("$defs")->find("part"), *parts.find("$defs")->find("part"));
}

TEST(DocumentSchemas, SmallDocumentsHaveTheirShape) {
  const std::vector<std::pair<std::string, SchemaRef>> documents{{k_kinds_text, kinds_schema()},
                                                                 {k_parts_text, parts_schema()},
                                                                 {k_bicycle_text, bicycle_schema()},
                                                                 {k_operations_text, operations_schema()},
                                                                 {k_job_text, job_schema()}};
  for (const auto& [text, schema] : documents) {
    Diagnostics diagnostics("a.yaml");
    check(*parse(text, "a.yaml", Format::yaml), *schema, diagnostics);
    EXPECT_EQ(lines_of(diagnostics), std::vector<std::string>{});
  }
}

}  // namespace
}  // namespace cotter::document
