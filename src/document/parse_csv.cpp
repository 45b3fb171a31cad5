#include "document/parse_csv.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>

#include "document/parse.hpp"
#include "document/parse_text.hpp"

namespace cotter::document {
namespace {

constexpr std::string_view k_byte_order_mark = "\xEF\xBB\xBF";

bool ends_line(char c) {
  return c == '\n' || c == '\r';
}

char delimiter_of(std::string_view text) {
  std::array<std::pair<char, int>, 3> counts{{{',', 0}, {';', 0}, {'\t', 0}}};
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (!quoted && ends_line(c)) break;
    for (auto& [delimiter, count] : counts)
      if (!quoted && c == delimiter) ++count;
  }
  const auto most =
      std::max_element(counts.begin(), counts.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  return most->first;
}

/// A first line `sep=;`, as table programs write it to name the delimiter: how long it is with its line end, or 0.
std::size_t separator_line(std::string_view text) {
  constexpr std::string_view k_sep = "sep=";
  if (!text.starts_with(k_sep) || text.size() < k_sep.size() + 1) return 0;
  std::size_t at = k_sep.size() + 1;
  if (at < text.size() && !ends_line(text[at])) return 0;
  if (text.substr(at, 2) == "\r\n") return at + 2;
  return std::min(at + 1, text.size());
}

std::string trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return "";
  return std::string(text.substr(first, text.find_last_not_of(" \t") - first + 1));
}

class CsvReader {
 public:
  CsvReader(std::string_view text, const CsvLimits& limits, Diagnostics& diagnostics)
      : text_(text), places_(text), limits_(limits), diagnostics_(diagnostics), at_(separator_line(text)) {
    delimiter_ = at_ == 0 ? delimiter_of(text) : text[std::string_view("sep=").size()];
  }

  CsvTable read() {
    CsvTable table;
    table.delimiter = delimiter_;
    const int first = at_ == 0 ? 1 : 2;
    for (int number = first; at_ < text_.size() && !stopped_; ++number) {
      CsvRow row = read_row(number);
      const bool holds =
          std::any_of(row.cells.begin(), row.cells.end(), [](const CsvCell& c) { return !c.text.empty(); });
      if (number == first)
        table.header = std::move(row);
      else if (holds)
        table.rows.push_back(std::move(row));
      if (table.rows.size() > limits_.rows) {
        complain("too_large", at_, number, 0, fmt::format("The table has more than {} rows.", limits_.rows), "",
                 "a smaller table");
        stopped_ = true;
      }
    }
    return table;
  }

 private:
  CsvRow read_row(int number) {
    CsvRow row;
    row.number = number;
    while (true) {
      row.cells.push_back(read_cell(number, row.cells.size()));
      if (row.cells.size() > limits_.columns) {
        complain("too_large", at_, number, row.cells.size() - 1,
                 fmt::format("The row has more than {} cells.", limits_.columns), "", "fewer columns");
        stopped_ = true;
      }
      if (stopped_ || at_ >= text_.size()) return row;
      const char end = text_[at_++];
      if (end == delimiter_) continue;
      if (end == '\r' && at_ < text_.size() && text_[at_] == '\n') ++at_;
      return row;
    }
  }

  CsvCell read_cell(int row, std::size_t column) {
    const std::size_t start = at_;
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
    const bool quoted = at_ < text_.size() && text_[at_] == '"';
    CsvCell cell = quoted ? read_quoted(row, column) : read_plain(start, row, column);
    if (cell.text.size() > limits_.cell_bytes) {
      complain("too_long", start, row, column, "The cell holds too much text.", cell.text,
               fmt::format("at most {} bytes", limits_.cell_bytes));
      cell.text.clear();
    }
    return cell;
  }

  CsvCell read_plain(std::size_t start, int row, std::size_t column) {
    at_ = start;
    while (at_ < text_.size() && text_[at_] != delimiter_ && !ends_line(text_[at_])) ++at_;
    CsvCell cell{trimmed(text_.substr(start, at_ - start)), places_.at(start)};
    if (cell.text.find('"') != std::string::npos)
      complain("quote", start, row, column, "A quote stands inside a cell that is not in quotes.", cell.text,
               "the whole cell in quotes, each quote inside it written twice");
    return cell;
  }

  CsvCell read_quoted(int row, std::size_t column) {
    const std::size_t start = at_++;
    CsvCell cell{"", places_.at(start)};
    while (at_ < text_.size() && (text_[at_] != '"' || text_.substr(at_, 2) == "\"\"")) {
      cell.text += text_[at_];
      at_ += text_[at_] == '"' ? 2 : 1;
    }
    if (at_ >= text_.size()) {
      complain("quote", start, row, column, "The quote of this cell does not close.", cell.text, "a closing quote");
      stopped_ = true;
      return cell;
    }
    ++at_;
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
    if (at_ < text_.size() && text_[at_] != delimiter_ && !ends_line(text_[at_])) {
      complain("quote", at_, row, column, "There is text behind the closing quote.", std::string(text_.substr(at_, 1)),
               "the delimiter or the end of the row; a quote inside the cell is written twice");
      while (at_ < text_.size() && text_[at_] != delimiter_ && !ends_line(text_[at_])) ++at_;
    }
    if (cell.text.find_first_of("\r\n") != std::string::npos) {
      complain("line_break", start, row, column, "The cell holds a line break.", cell.text, "text on one line");
      cell.text.clear();
    }
    return cell;
  }

  void complain(std::string code, std::size_t offset, int row, std::size_t column, std::string message,
                std::string found, std::string accepted) {
    diagnostics_.add({std::move(code), "", places_.at(offset), cell_name(row, column), std::move(message),
                      std::move(found), std::move(accepted), ""});
  }

  std::string_view text_;
  Places places_;
  const CsvLimits& limits_;
  Diagnostics& diagnostics_;
  std::size_t at_;
  char delimiter_ = ',';
  bool stopped_ = false;
};

}  // namespace

std::string cell_name(int row, std::size_t column) {
  std::string letters;
  for (std::size_t rest = column + 1; rest > 0; rest = (rest - 1) / 26)
    letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % 26));
  return fmt::format("row {}, column {}", row, letters);
}

Read<CsvTable> parse_csv(std::string_view text, const std::string& file, const CsvLimits& limits) {
  Diagnostics diagnostics(file);
  if (text.size() > limits.bytes) {
    diagnostics.add({"too_large",
                     "",
                     {},
                     "",
                     fmt::format("The file has more than {} bytes.", limits.bytes),
                     "",
                     "a smaller file",
                     ""});
    return tl::unexpected(std::move(diagnostics));
  }
  if (text.starts_with(k_byte_order_mark)) text.remove_prefix(k_byte_order_mark.size());
  const Places places(text);
  if (auto refused = refusal(text, Format::json, places)) {
    refused->field = fmt::format("row {}", refused->mark.line);
    if (!refused->found.empty() && character_at(refused->found, 0).bytes == 0)
      refused->accepted = "the table saved again as UTF-8; table programs offer \"CSV UTF-8\" when they save";
    diagnostics.add(std::move(*refused));
    return tl::unexpected(std::move(diagnostics));
  }
  CsvTable table = CsvReader(text, limits, diagnostics).read();
  if (diagnostics.empty() && table.header.cells.empty())
    diagnostics.add({"empty", "", {}, "", "The file is empty.", "", "a first row with the names of the columns", ""});
  if (!diagnostics.empty()) return tl::unexpected(std::move(diagnostics));
  return table;
}

}  // namespace cotter::document
