#include "engine/fit/standards/csv_table.hpp"

#include <algorithm>
#include <charconv>

#include "quantity/ensure.hpp"

namespace cotter::engine::fit {
namespace {

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  while (true) {
    const std::size_t end = text.find(separator);
    parts.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

std::int64_t whole_number(std::string_view digits) {
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  quantity::ensure(error == std::errc{} && end == digits.data() + digits.size(), "a built-in table holds no number");
  return value;
}

/// A decimal times ten to the power of `places`, exactly.
std::int64_t scaled_decimal(std::string_view text, std::size_t places) {
  const std::size_t point = text.find('.');
  std::string digits(text.substr(0, point));
  const std::string_view decimals = point == std::string_view::npos ? "" : text.substr(point + 1);
  quantity::ensure(decimals.size() <= places, "a built-in table holds a number that is too fine");
  digits.append(decimals).append(places - decimals.size(), '0');
  return whole_number(digits);
}

}  // namespace

CsvTable::CsvTable(std::string_view text) {
  for (const std::string_view line : split(text, '\n')) {
    if (line.empty() || line.front() == '#') continue;
    if (columns_.empty()) {
      columns_ = split(line, ',');
      continue;
    }
    rows_.push_back(split(line, ','));
    quantity::ensure(rows_.back().size() == columns_.size(), "a built-in table has a row of another length");
  }
}

std::size_t CsvTable::column_index(std::string_view column) const {
  const auto found = std::ranges::find(columns_, column);
  quantity::ensure(found != columns_.end(), "a built-in table lacks a column");
  return static_cast<std::size_t>(found - columns_.begin());
}

bool CsvTable::has_column(std::string_view column) const {
  return std::ranges::find(columns_, column) != columns_.end();
}

std::string_view CsvTable::cell(std::size_t row, std::string_view column) const {
  return rows_[row][column_index(column)];
}

std::optional<quantity::Length> CsvTable::millimetres(std::size_t row, std::string_view column) const {
  const std::string_view text = cell(row, column);
  if (text.empty()) return std::nullopt;
  return quantity::nanometres(scaled_decimal(text, 6));
}

std::optional<quantity::Length> CsvTable::micrometres(std::size_t row, std::string_view column) const {
  const std::string_view text = cell(row, column);
  if (text.empty()) return std::nullopt;
  return quantity::nanometres(scaled_decimal(text, 3));
}

std::optional<std::size_t> CsvTable::row_for(quantity::Length size) const {
  for (std::size_t row = 0; row < rows_.size(); ++row)
    if (*millimetres(row, "over_mm") < size && size <= *millimetres(row, "to_mm")) return row;
  return std::nullopt;
}

}  // namespace cotter::engine::fit
