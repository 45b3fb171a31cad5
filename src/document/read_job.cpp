#include "document/read_job.hpp"

#include <filesystem>

#include "document/journal.hpp"
#include "document/parse.hpp"
#include "document/read_header.hpp"
#include "document/read_parts.hpp"
#include "document/read_sheet.hpp"
#include "document/schemas.hpp"

namespace cotter::document {
namespace {

std::vector<model::Part> read_own_parts(const Spot& list, const model::Catalog& catalog, const model::Shop& shop,
                                        Diagnostics& diagnostics) {
  std::vector<model::Part> parts;
  IdList ids("part", diagnostics);
  for (const Spot& item : list.items()) {
    ids.add(item.at("id"));
    if (item.at("id").is_scalar() && catalog.parts.contains(item.at("id").text()))
      report(diagnostics, item.at("id"), "duplicate_id", "The catalog has a part of this name.",
             "a name that is not used yet");
    parts.push_back(read_part(item, catalog.kinds, &shop, diagnostics));
  }
  return parts;
}

void read_sections(const Spot& root, const model::Catalog& catalog, model::Job& job, Diagnostics& diagnostics) {
  model::Sheet& sheet = job.sheet;
  const SheetNames names(sheet, catalog);
  sheet.id = root.at("id").text();
  sheet.title = root.at("title").text();
  sheet.note = root.at("note").text();
  sheet.revision = root.at("revision").text();
  sheet.bicycle = root.at("bicycle").text();
  if (root.at("bicycle").is_scalar() && names.bicycle() == nullptr)
    report_unknown(diagnostics, root.at("bicycle"), "bicycle template", names_of(catalog.bicycles));
  sheet.shop = read_shop(root.at("shop"), diagnostics);
  sheet.parts = read_own_parts(root.at("parts"), catalog, sheet.shop, diagnostics);
  sheet.places = read_places(root.at("places"), names, sheet.shop, diagnostics);
  // Joints and lines name places; without a template, all but the job's own would be called unknown.
  if (names.bicycle() != nullptr) {
    sheet.joints = read_joints(root.at("joints"), names, diagnostics);
    sheet.lines = read_wishes(root.at("lines"), names, diagnostics);
    sheet.taken = read_taken(root.at("taken"), names, diagnostics);
  }
  sheet.hands = read_hands(root.at("hands"));
  sheet.aliases = read_aliases(root.at("aliases"), sheet.places, diagnostics);
  sheet.papers = read_papers(root.at("papers"), names, diagnostics);
  job.decisions = read_decisions(root.at("decisions"), diagnostics);
}

}  // namespace

Read<model::Job> read_job(const Node& document, const std::string& file, const model::Catalog& catalog) {
  Diagnostics diagnostics(file);
  std::string kind;
  const auto newest = newest_version(document, {"job"}, kind, diagnostics);
  if (!newest) return tl::unexpected(std::move(diagnostics));
  check(*newest, *job_schema(), diagnostics);
  model::Job job;
  read_sections(Spot(*newest), catalog, job, diagnostics);
  if (!diagnostics.empty()) return tl::unexpected(in_text_order(diagnostics));
  return job;
}

namespace {

/// Entries of the journal beside a job, if there is one, and what goes into the job's hash.
Read<Node> add_journal(const std::string& path, const model::Catalog& catalog, LoadedJob& loaded) {
  Node hashed = Node::list();
  std::error_code ignored;
  if (!std::filesystem::exists(path, ignored)) return hashed;
  Limits limits;
  limits.bytes = k_most_journal_bytes;
  const auto text = read_text(path, limits);
  if (!text) return tl::unexpected(text.error());
  const auto journal = split_journal(*text, path);
  if (!journal) return tl::unexpected(journal.error());
  Diagnostics notes(path);
  auto entries = read_entries(*journal, loaded.job, catalog, notes);
  if (!entries) return tl::unexpected(entries.error());
  loaded.job.journal = *std::move(entries);
  loaded.notes.append(notes);
  for (const JournalText::Line& line : journal->lines) hashed.push(line.node);
  return hashed;
}

}  // namespace

Read<LoadedJob> load_job(const std::string& path, const model::Catalog& catalog) {
  auto node = parse_file(path);
  if (!node) return tl::unexpected(node.error());
  auto job = read_job(*node, path, catalog);
  if (!job) return tl::unexpected(job.error());
  LoadedJob loaded{*std::move(job), *std::move(node), "", Diagnostics(path)};
  const auto journal = add_journal(journal_path(path), catalog, loaded);
  if (!journal) return tl::unexpected(journal.error());
  loaded.hash = content_hash(Node::list_of({loaded.node, *journal}));
  return loaded;
}

}  // namespace cotter::document
