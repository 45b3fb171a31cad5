#pragma once
// A table from a spreadsheet: cells by RFC 4180, each with its place, under a first row of column names.

#include <string>
#include <string_view>
#include <vector>

#include "document/diagnostic.hpp"

namespace cotter::document {

struct CsvCell {
  std::string text;  ///< without its quotes; blanks round a cell without quotes are taken off
  Mark mark;
};

struct CsvRow {
  int number = 0;  ///< as a spreadsheet counts; the column names are row 1
  std::vector<CsvCell> cells;
};

struct CsvTable {
  char delimiter = ',';
  CsvRow header;
  std::vector<CsvRow> rows;  ///< those that hold anything
};

/// What a table may hold at most.
struct CsvLimits {
  std::size_t bytes = 1u << 20;
  std::size_t rows = 10'000;
  std::size_t columns = 300;
  std::size_t cell_bytes = 2000;
};

/// Reads a table.
///
/// **Method** The delimiter is the one of comma, semicolon and tab that the first row has most of, outside quotes. Line
/// ends may be LF, CR LF or CR; a byte order mark in front is skipped. A first line `sep=;` names the delimiter and
/// counts as a row.
/// **Fails with** `too_large`, `not_text` (not UTF-8, control characters), `quote` for a quote that does not close,
/// that stands inside a cell without quotes, or that text follows, `line_break` for one inside a cell, `empty` without
/// a first row.
/// **Source** RFC 4180, section 2 (from memory).
Read<CsvTable> parse_csv(std::string_view text, const std::string& file, const CsvLimits& limits = {});

/// "row 3, column F".
std::string cell_name(int row, std::size_t column);

}  // namespace cotter::document
