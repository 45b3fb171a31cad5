#include <gtest/gtest.h>

#include "read_support.hpp"

namespace cotter::document {
namespace {

const std::string k_section_text = R"(cotter: section 1
id: saddle_and_shell
label: saddle and shell
places: [frame, saddle, dropper]
features:
  - {id: shell_kind, label: how the cup is held, feature: frame.shell_left, kinds: [shell]}
  - {id: dropper_kind, label: how it moves, feature: dropper.tube, kinds: [shell]}
joints:
  - {id: rail, label: rail, a: frame.rail, b: saddle.rail, late: 12.5, when: ["kind:frame.shell_right=shell", "!open:saddle"]}
  - {id: drop, label: drop, a: frame.rail, b: dropper.rail}
stacks:
  - id: height
    label: height
    when: [place:saddle]
    terms:
      - {id: bore, label: bore, value: frame.shell_right.bore}
      - {id: travel, label: travel, value: dropper.tube.travel}
    forms:
      - {id: still, label: still, terms: {bore: 1}}
      - {id: moving, label: moving, terms: {travel: 1}}
)";

Read<model::Catalog> catalog_with(const std::string& section, std::string bicycle = k_bicycle_text) {
  bicycle.insert(bicycle.find("joints:"), "sections: [saddle_and_shell]\n");
  return read_catalog_texts({{"kinds.yaml", k_kinds_text},
                             {"parts.yaml", k_parts_text},
                             {"section.yaml", section},
                             {"bicycle.yaml", bicycle},
                             {"operations.yaml", k_operations_text}});
}

TEST(ReadSection, ATemplateTakesWhatItsPlacesAllow) {
  const auto catalog = catalog_with(k_section_text);
  ASSERT_TRUE(catalog) << lines_of(catalog.error()).front();
  const model::Bicycle& bicycle = catalog->bicycles.at("all_road");
  ASSERT_EQ(bicycle.features.size(), 1u);
  EXPECT_EQ(bicycle.features[0].feature, (model::InterfaceRef{"frame", "shell_left"}));
  ASSERT_EQ(bicycle.joints.size(), 2u);
  EXPECT_EQ(bicycle.joints[1].id, "rail");
  EXPECT_EQ(bicycle.joints[1].late, 1250);
  EXPECT_EQ(bicycle.joints[1].when, (model::Conditions{"kind:frame.shell_right=shell", "!open:saddle"}));
  ASSERT_EQ(bicycle.stacks.size(), 2u);
  EXPECT_EQ(bicycle.stacks[1].when, model::Conditions{"place:saddle"});
  ASSERT_EQ(bicycle.stacks[1].forms.size(), 1u);
  EXPECT_EQ(bicycle.stacks[1].forms[0].id, "still");
}

TEST(ReadSection, MayNameOnlyThePlacesItLists) {
  const auto catalog = catalog_with(changed(k_section_text, "b: saddle.rail", "b: sadle.rail"));
  ASSERT_FALSE(catalog);
  EXPECT_EQ(lines_of(catalog.error()),
            (std::vector<std::string>{
                "section.yaml:9:47: joints[0].b: There is no place `sadle`; found \"sadle.rail\"; accepted: "
                "`place.interface`; did you mean \"saddle\"?"}));
}

TEST(ReadSection, AConditionMayAskOnlyForWhatFillsThePlaces) {
  const auto catalog = catalog_with(changed(k_section_text, "place:saddle]", "line:hose]"));
  ASSERT_FALSE(catalog);
  EXPECT_EQ(lines_of(catalog.error()),
            (std::vector<std::string>{
                "section.yaml:14:12: stacks[0].when[0]: This is not a fact that can be asked for here; found "
                "\"line:hose\"; accepted: place:<place>, open:<place>, kind:<place.interface>=<kind>, "
                "family:<place>=<family>, material:<place>=<material>, hand:left=<front or rear>, each with `!` in "
                "front for its opposite"}));
}

TEST(ReadSection, AConditionOfAnUnknownKindIsNamed) {
  const auto catalog = catalog_with(changed(k_section_text, "shell_right=shell\"", "shell_right=shel\""));
  ASSERT_FALSE(catalog);
  EXPECT_EQ(lines_of(catalog.error()),
            (std::vector<std::string>{
                "section.yaml:9:79: joints[0].when[0]: There is no interface kind named `shel`; found "
                "\"kind:frame.shell_right=shel\"; accepted: cup, rail, shell; did you mean \"shell\"?"}));
}

TEST(ReadSection, AnEntryThatTheTemplateHasAlreadyIsNamed) {
  const auto catalog = catalog_with(changed(k_section_text, "id: rail,", "id: shell_right,"));
  ASSERT_FALSE(catalog);
  EXPECT_EQ(lines_of(catalog.error()),
            (std::vector<std::string>{
                "bicycle.yaml:11:12: sections[0]: The section brings `shell_right`, which is there already; found "
                "\"saddle_and_shell\""}));
}

TEST(ReadSection, ASectionThatIsNotThereIsNamed) {
  const auto catalog = catalog_with(changed(k_section_text, "id: saddle_and_shell", "id: saddle_and_shells"));
  ASSERT_FALSE(catalog);
  EXPECT_EQ(
      lines_of(catalog.error()),
      (std::vector<std::string>{
          "bicycle.yaml:11:12: sections[0]: There is no section of this name; found \"saddle_and_shell\"; accepted: "
          "saddle_and_shells; did you mean \"saddle_and_shells\"?"}));
}

}  // namespace
}  // namespace cotter::document
