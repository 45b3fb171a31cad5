// The published JSON Schema. Keywords from: JSON Schema draft 2020-12, Core (section 8) and Validation (section 6).
#include <gtest/gtest.h>

#include "core_support.hpp"

namespace cotter::document::test {
namespace {

using quantity::Dimension;
using Need = Field::Need;

std::string published(const SchemaRef& schema) {
  return write_json_line(json_schema(*schema, "T"));
}

const std::string k_head = R"({"$schema":"https://json-schema.org/draft/2020-12/schema","title":"T")";

TEST(Published, PlainKinds) {
  EXPECT_EQ(published(text_schema(9)), k_head + R"(,"type":"string","maxLength":9})");
  EXPECT_EQ(published(identifier_schema()), k_head + R"(,"type":"string","pattern":"^[a-z][a-z0-9_]{0,63}$"})");
  EXPECT_EQ(published(word_schema({"a", "b"})), k_head + R"(,"type":"string","enum":["a","b"]})");
  EXPECT_EQ(published(integer_schema(-1, 9)), k_head + R"(,"type":"integer","minimum":-1,"maximum":9})");
  EXPECT_EQ(published(real_schema(0.5, 9)), k_head + R"(,"type":"number","minimum":0.5,"maximum":9})");
  EXPECT_EQ(published(boolean_schema()), k_head + R"(,"type":"boolean"})");
  EXPECT_EQ(published(anything_schema()), k_head + "}");
  EXPECT_EQ(published(list_schema(boolean_schema(), 1, 3)),
            k_head + R"(,"type":"array","items":{"type":"boolean"},"minItems":1,"maxItems":3})");
  EXPECT_EQ(published(map_schema(boolean_schema(), 3)),
            k_head + R"(,"type":"object","propertyNames":{"type":"string","pattern":"^[a-z][a-z0-9_]{0,63}$"},)"
                     R"("additionalProperties":{"type":"boolean"},"maxProperties":3})");
  EXPECT_EQ(published(either_schema({boolean_schema(), text_schema(2)})),
            k_head + R"(,"anyOf":[{"type":"boolean"},{"type":"string","maxLength":2}]})");
}

TEST(Published, NamedShapesAreDefinedOnce) {
  const auto point = [] { return object_schema("point", {{"x", integer_schema(0, 9), Need::required, "Across."}}); };
  const auto other = object_schema("point", {});
  const auto root = object_schema("part", {{"a", point(), Need::required, "First."},
                                           {"b", list_schema(point(), 0, 2), Need::optional, ""},
                                           {"c", other, Need::optional, ""}});
  EXPECT_EQ(published(root),
            k_head + R"(,"type":"object","properties":{"a":{"$ref":"#/$defs/point","description":"First."},)"
                     R"("b":{"type":"array","items":{"$ref":"#/$defs/point"},"minItems":0,"maxItems":2},)"
                     R"("c":{"$ref":"#/$defs/point_2"}},"required":["a"],"additionalProperties":false,)"
                     R"("$defs":{"point":{"type":"object","properties":{"x":{"type":"integer","minimum":0,"maximum":9,)"
                     R"("description":"Across."}},"required":["x"],"additionalProperties":false},)"
                     R"("point_2":{"type":"object","properties":{},"required":[],"additionalProperties":false}}})");
}

TEST(Published, ValuesAreTextOrAMapWithOnePaper) {
  const Node schema = json_schema(*list_schema(value_schema(Dimension::length)), "T");
  EXPECT_EQ(write_json_line(*schema.find("items")), R"({"$ref":"#/$defs/value_length"})");
  const Node& value = *schema.find("$defs")->find("value_length");
  EXPECT_EQ(write_json_line(value.find("anyOf")->items()[0]),
            R"({"type":"string","description":"a length such as 41.5 mm"})");
  const Node& map = value.find("anyOf")->items()[1];
  EXPECT_EQ(write_json_line(*map.find("oneOf")),
            R"([{"required":["measured"]},{"required":["maker"]},{"required":["standard"]},{"required":["assumed"]}])");
  EXPECT_EQ(write_json_line(*schema.find("$defs")->find("measurement")->find("required")), R"(["by","with","on"])");
  const Node count = json_schema(*value_schema(Dimension::count), "T");
  EXPECT_EQ(write_json_line(count.find("anyOf")->items()[0]), R"({"type":["string","integer"]})");
}

}  // namespace
}  // namespace cotter::document::test
