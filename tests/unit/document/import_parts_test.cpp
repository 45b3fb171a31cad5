// Parts from a spreadsheet: the reader of tables, the columns, and every fault with its row, its column and its mend.
#include "document/import_parts.hpp"

#include <gtest/gtest.h>
#include <ostream>
#include <rapidcheck/gtest.h>

#include "document/parse.hpp"
#include "document/parse_csv.hpp"
#include "document/read_catalog.hpp"

namespace cotter::document {
namespace {

const model::Catalog& small_catalog() {
  static const model::Catalog read = [] {
    auto catalog = read_catalog({COTTER_SOURCE_DIR "/tests/cli/data/catalog"});
    if (!catalog) throw std::runtime_error(one_line(catalog.error().list().front()));
    return *std::move(catalog);
  }();
  return read;
}

std::vector<std::string> faults_of(const std::string& text) {
  const auto imported = import_parts(text, "p.csv", small_catalog());
  std::vector<std::string> faults;
  if (!imported)
    for (const Diagnostic& diagnostic : imported.error().list()) faults.push_back(one_line(diagnostic));
  return faults;
}

const std::string k_head = "part,label,family,paper,interface,kind,bore,width,outside\n";
const std::string k_frame = "frame_1,\"frame, of steel\",frame,sheet 2,shell,shell,46.00 ±0.01 mm,68 mm,\n";
const std::string k_yaml =
    "cotter: parts 1\nparts:\n  - id: frame_1\n    label: \"frame, of steel\"\n    family: frame\n    paper: \"sheet "
    "2\"\n"
    "    interfaces:\n      shell: {kind: shell, bore: \"46.00 ±0.01 mm\", width: \"68 mm\"}\n";

std::string yaml_of(const std::string& text) {
  const auto imported = import_parts(text, "p.csv", small_catalog());
  return imported ? write_parts_yaml(imported->document) : testing::PrintToString(faults_of(text));
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
    text.replace(at, from.size(), to);
  return text;
}

TEST(ImportParts, OneRowIsOneInterface) {
  EXPECT_EQ(yaml_of(k_head + k_frame), k_yaml);
}

TEST(ImportParts, EveryDelimiterLineEndAndByteOrderMarkReadsTheSame) {
  const std::string comma = k_head + k_frame;
  const std::string semicolon = replaced(replaced(comma, ",", ";"), "frame; of", "frame, of");
  const std::string tab = replaced(replaced(comma, ",", "\t"), "frame\t of", "frame, of");
  for (const std::string& text : {comma, semicolon, tab})
    for (const char* end : {"\n", "\r\n", "\r"})
      for (const char* mark : {"", "\xEF\xBB\xBF"}) EXPECT_EQ(yaml_of(mark + replaced(text, "\n", end)), k_yaml);
}

TEST(ImportParts, AFirstLineMayNameTheDelimiter) {
  const std::string semicolon = replaced(replaced(k_head + k_frame, ",", ";"), "frame; of", "frame, of");
  for (const char* end : {"\n", "\r\n", "\r"}) EXPECT_EQ(yaml_of(replaced("sep=;\n" + semicolon, "\n", end)), k_yaml);
  const auto faults = faults_of("sep=;\n" + replaced(semicolon, "46.00", "abc"));
  ASSERT_EQ(faults.size(), 1u) << testing::PrintToString(faults);
  EXPECT_NE(faults[0].find("row 3, column G"), std::string::npos) << faults[0];
}

TEST(ImportParts, ATableInAnotherEncodingIsRefusedWithRowAndMend) {
  const std::string latin = k_head + replaced(k_frame, "±", "\xB1");
  const auto faults = faults_of(latin);
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_EQ(faults[0],
            "p.csv:2:59: row 2: The file holds bytes that are not UTF-8; found \"\\xB10.0\"; accepted: the table saved "
            "again as UTF-8; table programs offer \"CSV UTF-8\" when they save");
}

TEST(ImportParts, ColumnsInAnyOrderAndOwnColumnsBlankLater) {
  EXPECT_EQ(yaml_of("Kind, Interface ,part,Outside,label,family\n"
                    "cup,right,cup_1,46.05 mm,cup,bracket\n,,,,,\ncup,left,cup_1,46.05 mm,,\n"),
            "cotter: parts 1\nparts:\n  - id: cup_1\n    label: cup\n    family: bracket\n    interfaces:\n"
            "      right: {kind: cup, outside: \"46.05 mm\"}\n      left: {kind: cup, outside: \"46.05 mm\"}\n");
}

TEST(ImportParts, APartMayHaveNoInterface) {
  EXPECT_EQ(yaml_of("part,label,family,interface,kind\nbell_1,bell,bell,,\n"),
            "cotter: parts 1\nparts:\n  - id: bell_1\n    label: bell\n    family: bell\n");
}

struct Fault {
  std::string name, text;
  std::vector<std::string> said;
};

void PrintTo(const Fault& fault, std::ostream* stream) {
  *stream << fault.name;
}

const std::vector<Fault> k_faults = {
    {"decimal_comma",
     k_head + replaced(k_frame, "68 mm", "\"68,0 mm\""),
     {"p.csv:2:68: row 2, column H (width): A number is written with a point here, not with a comma; found \"68,0 "
      "mm\"; "
      "accepted: a point; did you mean \"68.0 mm\"?"}},
    {"decimal_comma_that_splits",
     k_head + replaced(k_frame, "68 mm,", "68,0 mm,,"),
     {"p.csv:2:68: row 2, column H (width): The value has no unit; found \"68\"; accepted: mm, cm, m, µm, nm, in or "
      "tpi",
      "p.csv:2:71: row 2, column I (outside): A shell has no `outside`; found \"0 mm\"; accepted: bore, width, or a "
      "blank cell"}},
    {"missing_column",
     "part,label,family,interface,bore\n",
     {"p.csv:1:1: row 1: The column `kind` is missing; accepted: part, label, family, interface, kind"}},
    {"unknown_column",
     replaced(k_head, "bore", "boer") + k_frame,
     {"p.csv:1:40: row 1, column G: No interface kind has a dimension or word of this name; found \"boer\"; accepted: "
      "a column of the part (part, label, family, material, mass, price, paper, interface, kind), a dimension or a "
      "word; did you mean \"bore\"?"}},
    {"column_twice",
     replaced(k_head, "width", "bore") + k_frame,
     {"p.csv:1:45: row 1, column H: This column is given twice; found \"bore\"; accepted: each column once"}},
    {"unknown_kind",
     k_head + replaced(k_frame, "shell,shell", "shell,shel"),
     {"p.csv:2:47: row 2, column F (kind): There is no interface kind of this name; found \"shel\"; accepted: cup, "
      "rail, "
      "shell; did you mean \"shell\"?"}},
    {"dimension_the_kind_does_not_have",
     k_head + replaced(k_frame, "68 mm,", "68 mm,46 mm"),
     {"p.csv:2:74: row 2, column I (outside): A shell has no `outside`; found \"46 mm\"; accepted: bore, width, or a "
      "blank cell"}},
    {"angle_for_a_length",
     k_head + replaced(k_frame, "68 mm", "68°"),
     {"p.csv:2:68: row 2, column H (width): The unit is one of another kind of quantity; found \"68°\"; accepted: mm, "
      "cm, m, µm, nm, in or tpi, a unit of length"}},
    {"no_unit",
     k_head + replaced(k_frame, "68 mm", "68"),
     {"p.csv:2:68: row 2, column H (width): The value has no unit; found \"68\"; accepted: mm, cm, m, µm, nm, in or "
      "tpi"}},
    {"missing_dimension",
     k_head + replaced(k_frame, "68 mm", ""),
     {"p.csv:2:41: row 2, column H (width): A shell interface needs the field `width`; accepted: a length such as 41.5 "
      "mm, or `?` when it is not known"}},
    {"dimension_without_a_column",
     "part,label,family,interface,kind,bore\nf,f,f,shell,shell,46 mm\n",
     {"p.csv:2:7: row 2, no column `width`: A shell interface needs the field `width`; accepted: a length such as 41.5 "
      "mm, or `?` when it is not known"}},
    {"interface_twice",
     k_head + k_frame + k_frame,
     {"p.csv:3:41: row 3, column E (interface): This part has an interface of this name already, in row 2; found "
      "\"shell\"; accepted: a name that is not used yet"}},
    {"contradiction",
     k_head + k_frame + "frame_1,another,,,left,shell,46 mm,68 mm\n",
     {"p.csv:3:9: row 3, column B (label): Row 2 says something else of this part; found \"another\"; accepted: the "
      "same, or nothing"}},
    {"more_cells_than_columns",
     k_head + replaced(k_frame, "\n", ",more\n"),
     {"p.csv:2:75: row 2, column J: There is a cell here that no column is for; found \"more\"; accepted: as many "
      "cells "
      "as columns; a number with a decimal comma is two cells unless it stands in quotes"}},
    {"no_part",
     k_head + replaced(k_frame, "frame_1", ""),
     {"p.csv:2:1: row 2, column A (part): The row does not say which part it belongs to; accepted: the name of the "
      "part, "
      "in each of its rows"}},
    {"part_of_the_catalog",
     k_head + replaced(k_frame, "frame_1", "saddle_7"),
     {"p.csv:2:1: row 2, column A (part): The catalog has a part of this name; found \"saddle_7\"; accepted: a name "
      "that "
      "is not used yet"}},
    {"bad_utf8",
     k_head + "frame_\xFF,a,b\n",
     {"p.csv:2:7: row 2: The file holds bytes that are not UTF-8; found \"\\xFF,a,\"; accepted: the table saved again "
      "as UTF-8; table programs offer \"CSV UTF-8\" when they save"}},
    {"open_quote",
     k_head + "frame_1,\"frame,a\n",
     {"p.csv:2:9: row 2, column B: The quote of this cell does not close; found \"frame,a\\n\"; accepted: a closing "
      "quote"}},
    {"quote_inside",
     k_head + "frame_1,the 28\" frame,a\n",
     {"p.csv:2:9: row 2, column B: A quote stands inside a cell that is not in quotes; found \"the 28\" frame\"; "
      "accepted: "
      "the whole cell in quotes, each quote inside it written twice"}},
    {"line_break",
     k_head + "frame_1,\"two\nlines\",a\n",
     {"p.csv:2:9: row 2, column B: The cell holds a line break; found \"two\\nlines\"; accepted: text on one line"}},
    {"nothing", "", {"p.csv: The file is empty; accepted: a first row with the names of the columns"}},
};

class BadTable : public testing::TestWithParam<Fault> {};

TEST_P(BadTable, SaysRowColumnAndMend) {
  EXPECT_EQ(faults_of(GetParam().text), GetParam().said);
}

INSTANTIATE_TEST_SUITE_P(Faults, BadTable, testing::ValuesIn(k_faults),
                         [](const auto& test) { return test.param.name; });

TEST(ImportParts, RefusesWhatIsTooLarge) {
  const auto code = [](const std::string& text, const CsvLimits& limits) {
    const auto table = parse_csv(text, "p.csv", limits);
    return table ? std::string("read") : table.error().list().front().code;
  };
  EXPECT_EQ(code("a,b\n1,2\n3,4\n", {}), "read");
  EXPECT_EQ(code("a,b\n1,2\n3,4\n", {.bytes = 11}), "too_large");
  EXPECT_EQ(code("a,b\n1,2\n3,4\n", {.rows = 1}), "too_large");
  EXPECT_EQ(code("a,b\n1,2\n3,4\n", {.columns = 1}), "too_large");
  EXPECT_EQ(code("a,b\n1,2345\n", {.cell_bytes = 3}), "too_long");
}

TEST(ImportParts, ColumnsAreLetteredAsInASpreadsheet) {
  EXPECT_EQ(cell_name(1, 0), "row 1, column A");
  EXPECT_EQ(cell_name(2, 25), "row 2, column Z");
  EXPECT_EQ(cell_name(3, 26), "row 3, column AA");
  EXPECT_EQ(cell_name(4, 701), "row 4, column ZZ");
  EXPECT_EQ(cell_name(5, 702), "row 5, column AAA");
}

RC_GTEST_PROP(ImportParts, QuotedCellsComeBackAsTheyWere, ()) {
  const auto cells = *rc::gen::container<std::vector<std::string>>(
      rc::gen::container<std::string>(rc::gen::element('a', '"', ',', ';', '\t', ' ', '.')));
  RC_PRE(!cells.empty() && cells.size() < 100);
  std::string text;
  for (const std::string& cell : cells) text += (text.empty() ? "\"" : ",\"") + replaced(cell, "\"", "\"\"") + "\"";
  const auto table = parse_csv("first,row,of,many,commas,so,that,it,is,a,comma\n" + text + "\n", "p.csv");
  RC_ASSERT(table.has_value());
  if (table->rows.empty()) return;
  std::vector<std::string> read;
  for (const CsvCell& cell : table->rows[0].cells) read.push_back(cell.text);
  RC_ASSERT(read == cells);
}

TEST(ImportParts, WhatItPrintsReadsBackAlsoForTextThatYamlMightTakeForSomethingElse) {
  for (const char* label :
       {"null", "true", "yes", "1e3", "a: b", "# no", "- x", "\"\"\"q\"\"\"", "back\\slash", "Ä ö"}) {
    const std::string text = "part,label,family,interface,kind\nbell_1," + std::string(label) + ",null,,\n";
    const auto imported = import_parts(text, "p.csv", small_catalog());
    ASSERT_TRUE(imported) << label;
    const auto again = parse(write_parts_yaml(imported->document), "again.yaml", Format::yaml);
    ASSERT_TRUE(again) << label;
    EXPECT_EQ(*again->find("parts"), *imported->document.find("parts")) << label;
  }
}

}  // namespace
}  // namespace cotter::document
