#include "document/journal.hpp"

#include <array>
#include <filesystem>

#include "document/parse.hpp"
#include "document/read_bicycle.hpp"
#include "document/read_sheet.hpp"
#include "document/schema.hpp"
#include "document/schemas.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

using Kind = model::JournalEntry::Kind;

constexpr std::array<std::pair<std::string_view, Kind>, 5> k_words{{{"value", Kind::value},
                                                                    {"sign_off", Kind::sign_off},
                                                                    {"fact", Kind::fact},
                                                                    {"undo", Kind::undo},
                                                                    {"accept", Kind::accept}}};

Kind kind_of(const std::string& word) {
  for (const auto& [known, kind] : k_words)
    if (word == known) return kind;
  return Kind::fact;
}

std::string word_of(Kind kind) {
  for (const auto& [word, known] : k_words)
    if (kind == known) return std::string(word);
  return {};
}

/// Diagnostics of one line, put at that line of the file.
void append_at_line(const Diagnostics& of_line, int number, Diagnostics& all) {
  for (Diagnostic diagnostic : of_line.list()) {
    diagnostic.mark.line = number;
    if (diagnostic.mark.column == 0) diagnostic.mark.column = 1;
    all.add(std::move(diagnostic));
  }
}

/// The value of a sign-off or a fact, whose dimension nothing but its unit tells.
std::optional<quantity::Value> read_free_value(const Spot& spot) {
  for (const auto dimension : {quantity::Dimension::length, quantity::Dimension::angle, quantity::Dimension::torque,
                               quantity::Dimension::force, quantity::Dimension::mass, quantity::Dimension::pressure,
                               quantity::Dimension::duration, quantity::Dimension::count})
    if (auto value = read_written(spot, dimension, {}); value && value->range_known) return value;
  return std::nullopt;
}

/// Reads the lines of a journal against the job they are about.
class EntryReader {
 public:
  EntryReader(const model::Job& job, const model::Catalog& catalog)
      : names_(job.sheet, catalog), shop_(job.sheet.shop) {}

  model::JournalEntry read(const Spot& spot, Diagnostics& notes) const;

 private:
  void read_measured(const Spot& spot, model::JournalEntry& entry, Diagnostics& notes) const;

  SheetNames names_;
  const model::Shop& shop_;
};

void EntryReader::read_measured(const Spot& spot, model::JournalEntry& entry, Diagnostics& notes) const {
  const auto target = dotted(entry.target, 3);
  if (target.empty() || !spot.at("value").exists()) {
    report(notes, spot.at("target"), "set_aside", "This value names no dimension of a place, or holds none.",
           "`place.interface.dimension` and a value");
    return;
  }
  const std::string place = names_.name_now(target[0]);
  entry.target = place + "." + target[1] + "." + target[2];
  const model::Part* part = names_.part_in(place);
  if (part == nullptr) {
    report(notes, spot.at("target"), "set_aside", "The place of this value is not filled now.", "");
    return;
  }
  entry.value = read_override(spot.at("target"), target[1] + "." + target[2], spot.at("value"), *part,
                              names_.catalog().kinds, {"", &shop_}, notes);
}

model::JournalEntry EntryReader::read(const Spot& spot, Diagnostics& notes) const {
  model::JournalEntry entry;
  entry.id = spot.at("id").text();
  entry.revision = spot.at("revision").integer(0);
  entry.kind = kind_of(spot.at("kind").text());
  entry.by = spot.at("by").text();
  entry.when = spot.at("when").text();
  entry.target = spot.at("target").text();
  entry.note = spot.at("note").text();
  entry.passes = model::passes_from(spot.at("passes").text());
  if (entry.kind == Kind::value) {
    read_measured(spot, entry, notes);
  } else {
    entry.value = read_free_value(spot.at("value"));
  }
  return entry;
}

Node value_node(const quantity::Value& value) {
  using quantity::OriginKind;
  const quantity::Origin& origin = value.origin;
  Node text = Node::text(value.text);
  if (origin.kind == OriginKind::measured && !origin.by.empty()) {
    Node measured = Node::map();
    measured.set("by", Node::text(origin.by)).set("with", Node::text(origin.tool)).set("on", Node::text(origin.when));
    return Node::map().set("value", text).set("measured", std::move(measured));
  }
  const bool has_paper = origin.kind != OriginKind::unknown && origin.kind != OriginKind::measured;
  if (!has_paper || origin.source.empty()) return text;
  return Node::map().set("value", text).set(std::string(quantity::word_for(origin.kind)), Node::text(origin.source));
}

}  // namespace

std::string journal_path(const std::string& job_path) {
  return std::filesystem::path(job_path).replace_extension(".journal.jsonl").string();
}

Read<JournalText> split_journal(std::string_view text, const std::string& file) {
  JournalText journal;
  Diagnostics diagnostics(file);
  int number = 0;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = text.find('\n', begin);
    const bool ended = end != std::string_view::npos;
    const std::string_view line = text.substr(begin, ended ? end - begin : end);
    ++number;
    begin = ended ? end + 1 : text.size();
    if (line.find_first_not_of(" \t\r") != std::string_view::npos) {
      auto node = parse(line, file, Format::json);
      if (node) {
        journal.lines.push_back({number, *std::move(node)});
        journal.ended = ended;
      } else if (!ended) {
        journal.torn = line;
        journal.torn_line = number;
        break;
      } else {
        append_at_line(node.error(), number, diagnostics);
      }
    }
    journal.whole_bytes = begin;
  }
  if (!diagnostics.empty()) return tl::unexpected(std::move(diagnostics));
  return journal;
}

Read<std::vector<model::JournalEntry>> read_entries(const JournalText& journal, const model::Job& job,
                                                    const model::Catalog& catalog, Diagnostics& notes) {
  const EntryReader reader(job, catalog);
  Diagnostics diagnostics(notes.file());
  std::vector<model::JournalEntry> entries;
  for (const JournalText::Line& line : journal.lines) {
    Diagnostics wrong(notes.file());
    Diagnostics aside(notes.file());
    check(line.node, *journal_entry_schema(), wrong);
    entries.push_back(reader.read(Spot(line.node), aside));
    append_at_line(wrong, line.number, diagnostics);
    append_at_line(aside, line.number, notes);
  }
  if (!diagnostics.empty()) return tl::unexpected(std::move(diagnostics));
  if (!journal.torn.empty()) {
    notes.add({"torn_line",
               "",
               {journal.torn_line, 1},
               "",
               "The last line of the journal is incomplete and was set aside.",
               journal.torn,
               "",
               ""});
  }
  return entries;
}

std::string write_entry(const model::JournalEntry& entry) {
  Node node = Node::map();
  node.set("id", Node::text(entry.id));
  node.set("revision", Node::integer(entry.revision));
  node.set("kind", Node::text(word_of(entry.kind)));
  node.set("by", Node::text(entry.by));
  node.set("when", Node::text(entry.when));
  node.set("target", Node::text(entry.target));
  if (entry.value) node.set("value", value_node(*entry.value));
  if (entry.passes != model::Passes::nothing)
    node.set("passes", Node::text(std::string(model::word_for(entry.passes))));
  if (!entry.note.empty()) node.set("note", Node::text(entry.note));
  return write_json_line(node) + "\n";
}

}  // namespace cotter::document
