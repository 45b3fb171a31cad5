#pragma once
// Reads the tables of facts that are built in as CSV: comment lines with `#`, one line of column names, rows.
// Not for files from outside: a malformed table is a bug. Inside of this box.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/amount.hpp"

namespace cotter::engine::fit {

class CsvTable {
 public:
  explicit CsvTable(std::string_view text);

  std::size_t rows() const { return rows_.size(); }
  bool has_column(std::string_view column) const;
  std::string_view cell(std::size_t row, std::string_view column) const;
  /// A cell with a number of millimetres; nothing when it is empty.
  std::optional<quantity::Length> millimetres(std::size_t row, std::string_view column) const;
  /// A cell with a number of micrometres; nothing when it is empty.
  std::optional<quantity::Length> micrometres(std::size_t row, std::string_view column) const;
  /// The row whose `over_mm .. to_mm` holds the size, the upper end included.
  std::optional<std::size_t> row_for(quantity::Length size) const;

 private:
  std::size_t column_index(std::string_view column) const;

  std::vector<std::string_view> columns_;
  std::vector<std::vector<std::string_view>> rows_;
};

}  // namespace cotter::engine::fit
