#include "document/import_parts.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <set>

#include "document/parse.hpp"
#include "document/parse_csv.hpp"
#include "document/read_parts.hpp"
#include "document/schema_words.hpp"
#include "document/schemas.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

constexpr std::array<std::string_view, 9> k_own = {"part",  "label", "family",    "material", "mass",
                                                   "price", "paper", "interface", "kind"};
constexpr std::array<std::string_view, 5> k_needed = {"part", "label", "family", "interface", "kind"};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Where a comma stands between two digits; nothing when there is none.
std::size_t decimal_comma(std::string_view text) {
  for (std::size_t i = 1; i + 1 < text.size(); ++i)
    if (text[i] == ',' && is_digit(text[i - 1]) && is_digit(text[i + 1])) return i;
  return std::string_view::npos;
}

/// `Outer diameter` -> `outer_diameter`.
std::string column_id(std::string_view name) {
  std::string id;
  for (const char c : name) id += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c == ' ' ? '_' : c;
  return id;
}

class Importer {
 public:
  Importer(const CsvTable& table, const std::string& file, const model::Catalog& catalog)
      : table_(table), catalog_(catalog), diagnostics_(file) {}

  Read<ImportedParts> read() {
    read_header();
    if (diagnostics_.empty())
      for (const CsvRow& row : table_.rows) read_row(row);
    ImportedParts imported = assembled();
    check_parts(imported.document);
    if (!diagnostics_.empty()) return tl::unexpected(in_text_order(diagnostics_));
    return imported;
  }

 private:
  struct Row {
    const CsvRow* row = nullptr;
    Node interface;  ///< null: the row names none
    std::string name;
  };
  struct Part {
    Node fields = Node::map();
    std::map<std::string, int> given_in;  ///< own column -> row
    std::vector<Row> rows;
  };

  std::string where(const CsvRow& row, std::size_t column) const {
    const std::string name = cell_name(row.number, column);
    return column < columns_.size() ? name + " (" + columns_[column] + ")" : name;
  }

  void complain(std::string code, const CsvRow& row, std::size_t column, std::string message, std::string accepted,
                std::string suggestion = "") {
    const bool there = column < row.cells.size();
    diagnostics_.add({std::move(code), "", there ? row.cells[column].mark : row.cells.front().mark, where(row, column),
                      std::move(message), there ? row.cells[column].text : "", std::move(accepted),
                      std::move(suggestion)});
  }

  void read_header() {
    std::set<std::string> known(k_own.begin(), k_own.end());
    for (const auto& [id, kind] : catalog_.kinds) {
      for (const model::KindDimension& dimension : kind.dimensions) known.insert(dimension.id);
      for (const model::KindWord& word : kind.words) known.insert(word.id);
    }
    for (std::size_t i = 0; i < table_.header.cells.size(); ++i) {
      const std::string id = column_id(table_.header.cells[i].text);
      if (!id.empty() && !known.contains(id))
        complain("unknown_column", table_.header, i, "No interface kind has a dimension or word of this name.",
                 "a column of the part (" + comma_list({k_own.begin(), k_own.end()}) + "), a dimension or a word",
                 quantity::nearest_word(id, {known.begin(), known.end()}).value_or(""));
      if (!id.empty() && std::find(columns_.begin(), columns_.end(), id) != columns_.end())
        complain("column_twice", table_.header, i, "This column is given twice.", "each column once");
      columns_.push_back(id);
    }
    for (const std::string_view needed : k_needed)
      if (!column(needed))
        diagnostics_.add({"missing_column", "", table_.header.cells.front().mark, "row 1",
                          fmt::format("The column `{}` is missing.", needed), "",
                          comma_list({k_needed.begin(), k_needed.end()}), ""});
  }

  std::optional<std::size_t> column(std::string_view id) const {
    const auto found = std::find(columns_.begin(), columns_.end(), id);
    if (found == columns_.end()) return std::nullopt;
    return static_cast<std::size_t>(found - columns_.begin());
  }

  /// The cell of a column; nothing when it is blank or the row ends before it.
  const CsvCell* cell(const CsvRow& row, std::string_view id) const {
    const auto at = column(id);
    return at && *at < row.cells.size() && !row.cells[*at].text.empty() ? &row.cells[*at] : nullptr;
  }

  void read_row(const CsvRow& row) {
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      if (row.cells[i].text.empty() || (i < columns_.size() && !columns_[i].empty())) continue;
      complain("extra_cells", row, i, "There is a cell here that no column is for.",
               "as many cells as columns; a number with a decimal comma is two cells unless it stands in quotes");
      return;
    }
    const CsvCell* id = cell(row, "part");
    if (id == nullptr) {
      complain("missing_field", row, *column("part"), "The row does not say which part it belongs to.",
               "the name of the part, in each of its rows");
      return;
    }
    const auto [found, is_new] = parts_.try_emplace(id->text);
    if (is_new) {
      order_.push_back(id->text);
      found->second.fields = Node::map(id->mark);
      found->second.fields.set("id", Node::text(id->text, id->mark, false), id->mark);
      if (catalog_.parts.contains(id->text))
        complain("duplicate_id", row, *column("part"), "The catalog has a part of this name.",
                 "a name that is not used yet");
    }
    take_own(row, found->second);
    take_interface(row, found->second);
  }

  void take_own(const CsvRow& row, Part& part) {
    for (const std::string_view own : {"label", "family", "material", "mass", "price", "paper"}) {
      const CsvCell* given = cell(row, own);
      if (given == nullptr) continue;
      const std::string key(own);
      const Node* known = part.fields.find(key);
      if (known == nullptr) {
        part.given_in[key] = row.number;
        part.fields.set(key, value(row, key, own == "mass" || own == "price"), given->mark);
      } else if (known->scalar() != given->text) {
        complain("contradiction", row, *column(own),
                 fmt::format("Row {} says something else of this part.", part.given_in[key]), "the same, or nothing");
      }
    }
  }

  /// The node of a cell; a decimal comma in a number is said, and the number read as it was meant.
  Node value(const CsvRow& row, const std::string& id, bool is_number) {
    const CsvCell& given = *cell(row, id);
    std::string text = given.text;
    if (is_number && decimal_comma(text) != std::string::npos) {
      for (std::size_t at = decimal_comma(text); at != std::string::npos; at = decimal_comma(text)) text[at] = '.';
      complain("decimal_comma", row, *column(id), "A number is written with a point here, not with a comma.", "a point",
               text);
    }
    return Node::text(text, given.mark, false);
  }

  void take_interface(const CsvRow& row, Part& part) {
    const CsvCell* name = cell(row, "interface");
    const CsvCell* kind = cell(row, "kind");
    Row read{&row, Node::null(), ""};
    if (name == nullptr) {
      for (std::size_t i = 0; i < row.cells.size(); ++i)
        if (!row.cells[i].text.empty() && (columns_[i] == "kind" || !is_own(i))) {
          complain("missing_field", row, *column("interface"), "The row has no name for its interface.",
                   "a name such as cup_right, the same that the bicycle template uses");
          break;
        }
      part.rows.push_back(std::move(read));
      return;
    }
    read.name = name->text;
    read.interface = Node::map(name->mark);
    for (const Row& earlier : part.rows)
      if (earlier.name == read.name)
        complain("duplicate_id", row, *column("interface"),
                 fmt::format("This part has an interface of this name already, in row {}.", earlier.row->number),
                 "a name that is not used yet");
    if (kind != nullptr) read.interface.set("kind", Node::text(kind->text, kind->mark, false), kind->mark);
    const auto known = catalog_.kinds.find(kind == nullptr ? "" : kind->text);
    if (known != catalog_.kinds.end()) take_dimensions(row, known->second, read.interface);
    part.rows.push_back(std::move(read));
  }

  bool is_own(std::size_t i) const { return std::find(k_own.begin(), k_own.end(), columns_[i]) != k_own.end(); }

  void take_dimensions(const CsvRow& row, const model::InterfaceKind& kind, Node& interface) {
    std::vector<std::string> names = dimension_names(kind);
    const std::size_t dimensions = names.size();
    for (const std::string& word : word_names(kind)) names.push_back(word);
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      if (row.cells[i].text.empty() || is_own(i)) continue;
      const auto found = std::find(names.begin(), names.end(), columns_[i]);
      if (found == names.end()) {
        complain("unknown_dimension", row, i, fmt::format("A {} has no `{}`.", kind.id, columns_[i]),
                 names.empty() ? "a blank cell" : comma_list(names) + ", or a blank cell",
                 quantity::nearest_word(columns_[i], names).value_or(""));
        continue;
      }
      const bool is_number = static_cast<std::size_t>(found - names.begin()) < dimensions;
      interface.set(columns_[i], value(row, columns_[i], is_number), row.cells[i].mark);
    }
  }

  ImportedParts assembled() const {
    ImportedParts imported;
    Node list = Node::list();
    for (const std::string& id : order_) {
      const Part& part = parts_.at(id);
      Node node = part.fields;
      Node interfaces = Node::map(node.mark());
      for (const Row& row : part.rows) {
        if (row.name.empty() || interfaces.find(row.name) != nullptr) continue;
        interfaces.set(row.name, row.interface, row.interface.mark());
        ++imported.interfaces;
      }
      if (!interfaces.entries().empty()) node.set("interfaces", std::move(interfaces));
      list.push(std::move(node));
      ++imported.parts;
    }
    imported.document = Node::map();
    imported.document.set("cotter", Node::text("parts 1")).set("parts", std::move(list));
    return imported;
  }

  /// What the readers of parts say, with row and column in the place of the path.
  void check_parts(const Node& document) {
    Diagnostics said(diagnostics_.file());
    check(document, *parts_schema(), said);
    for (const Spot& item : Spot(document).at("parts").items()) read_part(item, catalog_.kinds, nullptr, said);
    for (Diagnostic diagnostic : said.list()) {
      locate(diagnostic);
      diagnostics_.add(std::move(diagnostic));
    }
  }

  void locate(Diagnostic& diagnostic) const {
    for (const CsvRow& row : table_.rows)
      for (std::size_t i = 0; i < row.cells.size(); ++i) {
        if (!(row.cells[i].mark == diagnostic.mark)) continue;
        const std::string name = diagnostic.field.substr(diagnostic.field.rfind('.') + 1);
        const auto at = diagnostic.code == "missing_field" ? column(name) : std::optional(i);
        diagnostic.field = at ? where(row, *at) : fmt::format("row {}, no column `{}`", row.number, name);
        return;
      }
  }

  const CsvTable& table_;
  const model::Catalog& catalog_;
  Diagnostics diagnostics_;
  std::vector<std::string> columns_;
  std::map<std::string, Part> parts_;
  std::vector<std::string> order_;
};

/// Plain where YAML cannot take it for anything but this text, else in quotes as JSON writes them.
std::string yaml_scalar(const std::string& text) {
  const bool plain =
      !text.empty() && text.front() >= 'a' && text.front() <= 'z' &&
      std::all_of(text.begin(), text.end(), [](char c) { return (c >= 'a' && c <= 'z') || is_digit(c) || c == '_'; });
  const bool special = text == "null" || text == "true" || text == "false";
  return plain && !special ? text : write_json(Node::text(text));
}

}  // namespace

Read<ImportedParts> import_parts(std::string_view text, const std::string& file, const model::Catalog& catalog) {
  const auto table = parse_csv(text, file);
  if (!table) return tl::unexpected(table.error());
  return Importer(*table, file, catalog).read();
}

std::string write_parts_yaml(const Node& document) {
  std::string out = "cotter: parts 1\nparts:\n";
  for (const Node& part : document.find("parts")->items()) {
    bool first = true;
    for (const Node::Entry& entry : part.entries()) {
      out += (first ? "  - " : "    ") + entry.key + ":";
      first = false;
      if (entry.value.is_scalar()) {
        out += " " + yaml_scalar(entry.value.scalar()) + "\n";
        continue;
      }
      out += "\n";
      for (const Node::Entry& interface : entry.value.entries()) {
        out += "      " + interface.key + ": {";
        for (std::size_t i = 0; i < interface.value.entries().size(); ++i) {
          const Node::Entry& value = interface.value.entries()[i];
          out += (i == 0 ? "" : ", ") + value.key + ": " + yaml_scalar(value.value.scalar());
        }
        out += "}\n";
      }
    }
  }
  return out;
}

}  // namespace cotter::document
