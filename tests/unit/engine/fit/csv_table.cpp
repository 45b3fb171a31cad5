// The tables of standards: what a good one gives, and that a broken one is a fault of the program, never a number.
#include "engine/fit/standards/csv_table.hpp"

#include <functional>
#include <gtest/gtest.h>

#include "quantity/ensure.hpp"

namespace cotter::engine::fit {
namespace {

constexpr std::string_view k_good = "# Two ranges.\nover_mm,to_mm,lower_um,word\n3,6,-8.5,\n6,10.5,,wide\n";

TEST(CsvTable, GivesItsCellsAndTheRowOfASize) {
  const CsvTable table(k_good);
  ASSERT_EQ(table.rows(), 2u);
  EXPECT_EQ(table.millimetres(1, "to_mm"), quantity::nanometres(10'500'000));
  EXPECT_EQ(table.micrometres(0, "lower_um"), quantity::nanometres(-8'500));
  EXPECT_EQ(table.micrometres(1, "lower_um"), std::nullopt);
  EXPECT_EQ(table.cell(1, "word"), "wide");
  // Over 3 up to and including 6.
  EXPECT_EQ(table.row_for(quantity::nanometres(3'000'000)), std::nullopt);
  EXPECT_EQ(table.row_for(quantity::nanometres(6'000'000)), 0u);
  EXPECT_EQ(table.row_for(quantity::nanometres(6'000'001)), 1u);
  EXPECT_EQ(table.row_for(quantity::nanometres(10'500'001)), std::nullopt);
}

std::string fault_of(const std::function<void()>& use) {
  try {
    use();
  } catch (const quantity::BugError& error) {
    return error.what();
  }
  return "";
}

TEST(CsvTable, ABrokenOneIsAFaultOfTheProgram) {
  EXPECT_EQ(fault_of([] { CsvTable("over_mm,to_mm\n3,6,9\n"); }), "a built-in table has a row of another length");
  EXPECT_EQ(fault_of([] { CsvTable("over_mm,to_mm\n3\n"); }), "a built-in table has a row of another length");
  EXPECT_EQ(fault_of([] { CsvTable(k_good).cell(0, "upper_um"); }), "a built-in table lacks a column");
  EXPECT_EQ(fault_of([] { CsvTable("to_mm\n6 mm\n").millimetres(0, "to_mm"); }), "a built-in table holds no number");
  EXPECT_EQ(fault_of([] { CsvTable("to_um\n0.0001\n").micrometres(0, "to_um"); }),
            "a built-in table holds a number that is too fine");
}

}  // namespace
}  // namespace cotter::engine::fit
