#include "document/read_catalog.hpp"

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <future>
#include <thread>

#include "document/parse.hpp"
#include "document/read_bicycle.hpp"
#include "document/read_condition.hpp"
#include "document/read_header.hpp"
#include "document/read_kinds.hpp"
#include "document/read_operations.hpp"
#include "document/read_parts.hpp"
#include "document/schemas.hpp"

namespace cotter::document {
namespace {

using Texts = std::vector<std::pair<std::string, std::string>>;

const std::vector<std::string> k_kinds{"interface_kinds", "parts",      "section", "bicycle",
                                       "operations",      "conditions", "tools",   "customs"};

struct CatalogFile {
  std::string kind;
  Node root;
  Diagnostics diagnostics{""};
  bool whole = false;  ///< it could be parsed and is of a known kind and version
};

SchemaRef schema_of(const std::string& kind) {
  if (kind == "interface_kinds") return kinds_schema();
  if (kind == "parts") return parts_schema();
  if (kind == "section") return section_schema();
  if (kind == "conditions") return conditions_schema();
  if (kind == "tools") return tools_schema();
  if (kind == "customs") return customs_schema();
  return kind == "bicycle" ? bicycle_schema() : operations_schema();
}

/// What can be said of a file without the others: parsed, of the newest version, its shape checked.
CatalogFile opened(const std::string& name, const std::string& text) {
  CatalogFile file;
  file.diagnostics = Diagnostics(name);
  auto parsed = parse(text, name, format_of(name));
  if (!parsed) {
    file.diagnostics = std::move(parsed.error());
    return file;
  }
  auto document = newest_version(*std::move(parsed), k_kinds, file.kind, file.diagnostics);
  if (!document) return file;
  file.whole = true;
  file.root = *std::move(document);
  check(file.root, *schema_of(file.kind), file.diagnostics);
  return file;
}

std::string hash_of(const Texts& texts) {
  Node hashed = Node::list();
  for (const auto& [name, text] : texts) hashed.push(Node::text(text));
  return content_hash(hashed);
}

/// Does `work(0)` to `work(count - 1)`, each core taking the next, and returns when all is done.
template <class Work>
void on_all_cores(std::size_t count, const Work& work) {
  std::atomic<std::size_t> next = 0;
  const auto take = [&] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  };
  std::vector<std::future<void>> helpers;
  for (unsigned core = 1; core < std::thread::hardware_concurrency() && core < count; ++core)
    helpers.push_back(std::async(std::launch::async, take));
  take();
  for (std::future<void>& helper : helpers) helper.get();
}

/// Reads all files together: first each one's shape, then what leads from one to the other.
class CatalogReader {
 public:
  explicit CatalogReader(const Texts& texts);
  Read<model::Catalog> read();

 private:
  template <class Visit>
  void each(std::string_view kind, Visit visit);
  void read_all_kinds();
  void read_all_parts();
  void read_work();
  void read_all_bicycles();
  void read_bench_rules();
  void check_work();
  Diagnostics all_diagnostics() const;

  std::vector<CatalogFile> files_;
  bool whole_;  ///< every file is
  model::Catalog catalog_;
  OperationNames work_names_;
};

CatalogReader::CatalogReader(const Texts& texts) : files_(texts.size()) {
  // Opening is most of a start and no file knows another; the hash is one more piece of such work.
  on_all_cores(texts.size() + 1, [&](std::size_t i) {
    if (i == 0) {
      catalog_.hash = hash_of(texts);
    } else {
      files_[i - 1] = opened(texts[i - 1].first, texts[i - 1].second);
    }
  });
  whole_ = std::all_of(files_.begin(), files_.end(), [](const CatalogFile& file) { return file.whole; });
}

template <class Visit>
void CatalogReader::each(std::string_view kind, Visit visit) {
  for (CatalogFile& file : files_)
    if (file.kind == kind) visit(Spot(file.root), file.diagnostics);
}

void CatalogReader::read_work() {
  each("operations", [&](const Spot& document, Diagnostics& diagnostics) {
    read_operations(document, catalog_.work, work_names_, diagnostics);
  });
}

void CatalogReader::read_all_kinds() {
  Names names;
  each("interface_kinds", [&](const Spot& document, Diagnostics& diagnostics) {
    for (const Spot& item : document.at("kinds").items()) {
      claim(item.at("id"), "interface kind", names, diagnostics);
      auto kind = read_kind(item, diagnostics);
      catalog_.kinds.emplace(kind.id, std::move(kind));
    }
  });
  RuleNames rules{{}, names_of(work_names_.operations)};
  each("interface_kinds", [&](const Spot& document, Diagnostics& diagnostics) {
    for (const Spot& item : document.at("kinds").items()) {
      const auto kind = catalog_.kinds.find(item.at("id").text());
      if (kind == catalog_.kinds.end()) continue;
      auto meetings = read_meetings(item, kind->second, catalog_.kinds, rules, diagnostics);
      std::move(meetings.begin(), meetings.end(), std::back_inserter(kind->second.meets));
    }
  });
}

void CatalogReader::read_all_parts() {
  Names names;
  each("parts", [&](const Spot& document, Diagnostics& diagnostics) {
    for (const Spot& item : document.at("parts").items()) {
      claim(item.at("id"), "part", names, diagnostics);
      auto part = read_part(item, catalog_.kinds, nullptr, diagnostics);
      catalog_.parts.emplace(part.id, std::move(part));
    }
  });
}

void CatalogReader::read_all_bicycles() {
  const auto operations = names_of(work_names_.operations);
  Names section_names;
  Sections sections;
  each("section", [&](const Spot& document, Diagnostics& diagnostics) {
    claim(document.at("id"), "section", section_names, diagnostics);
    sections.emplace(document.at("id").text(), read_section(document, operations, diagnostics));
  });
  Names names;
  each("bicycle", [&](const Spot& document, Diagnostics& diagnostics) {
    claim(document.at("id"), "bicycle template", names, diagnostics);
    auto bicycle = read_bicycle(document, operations, sections, diagnostics);
    catalog_.bicycles.emplace(bicycle.id, std::move(bicycle));
  });
}

void CatalogReader::read_bench_rules() {
  Names conditions, tools, countries;
  each("customs", [&](const Spot& document, Diagnostics& diagnostics) {
    read_customs(document, catalog_.brake_customs, countries, diagnostics);
  });
  each("conditions", [&](const Spot& document, Diagnostics& diagnostics) {
    read_condition_rules(document, conditions, catalog_.conditions, diagnostics);
  });
  each("tools", [&](const Spot& document, Diagnostics& diagnostics) {
    read_substitutes(document, catalog_.substitutes, tools, diagnostics);
  });
}

void CatalogReader::check_work() {
  const FactNames facts = fact_names(catalog_.bicycles, catalog_.kinds, work_names_);
  each("operations", [&](const Spot& document, Diagnostics& diagnostics) {
    check_operations(document, work_names_, facts, diagnostics);
  });
  for (const char* kind : {"section", "bicycle"})
    each(kind,
         [&](const Spot& document, Diagnostics& diagnostics) { check_template_facts(document, facts, diagnostics); });
}

Diagnostics CatalogReader::all_diagnostics() const {
  Diagnostics all("catalog");
  for (const CatalogFile& file : files_) all.append(in_text_order(file.diagnostics));
  return all;
}

Read<model::Catalog> CatalogReader::read() {
  if (whole_) {
    read_work();
    read_all_kinds();
    read_all_parts();
    read_all_bicycles();
    read_bench_rules();
    check_work();
  }
  auto diagnostics = all_diagnostics();
  if (!diagnostics.empty()) return tl::unexpected(std::move(diagnostics));
  return std::move(catalog_);
}

/// Paths of the `*.yaml` files below a folder, sorted; a file is taken alone.
Read<std::vector<std::string>> yaml_files(const std::string& folder) {
  std::vector<std::string> paths;
  std::error_code error;
  if (std::filesystem::is_regular_file(folder, error)) return std::vector<std::string>{folder};
  error.clear();
  std::filesystem::recursive_directory_iterator entry(folder, error);
  for (; !error && entry != std::filesystem::recursive_directory_iterator(); entry.increment(error)) {
    std::error_code ignored;
    if (entry->path().extension() == ".yaml" && entry->is_regular_file(ignored))
      paths.push_back(entry->path().string());
  }
  if (error) {
    Diagnostics diagnostics(folder);
    diagnostics.add({"unreadable",
                     "",
                     {},
                     "",
                     "The folder of the catalog could not be read.",
                     folder,
                     "a folder with catalog files",
                     ""});
    return tl::unexpected(std::move(diagnostics));
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

}  // namespace

namespace {

const std::vector<Node>& items_of(const Node& node, std::string_view key) {
  static const std::vector<Node> none;
  const Node* list = node.find(key);
  return list == nullptr ? none : list->items();
}

Mark law_mark(const Node& document, const std::string& rule) {
  for (const Node& kind : items_of(document, "kinds"))
    for (const Node& meeting : items_of(kind, "meets"))
      for (const Node& one : items_of(meeting, "rules"))
        if (const Node* id = one.find("id"); id != nullptr && id->scalar() == rule && one.find("law") != nullptr)
          return one.find("law")->mark();
  return {};
}

}  // namespace

RulePlace place_of_law(const std::vector<std::string>& folders, const std::string& rule) {
  for (const std::string& folder : folders) {
    const auto paths = yaml_files(folder);
    if (!paths) continue;
    for (const std::string& path : *paths) {
      const auto document = parse_file(path);
      if (!document) continue;
      if (const Mark mark = law_mark(*document, rule); mark.line > 0) return {path, mark};
    }
  }
  return {folders.empty() ? "catalog" : folders.back(), {}};
}

Read<model::Catalog> read_catalog_texts(const Texts& texts) {
  return CatalogReader(texts).read();
}

Read<model::Catalog> read_catalog(const std::vector<std::string>& folders) {
  Texts texts;
  Diagnostics unreadable("catalog");
  for (const std::string& folder : folders) {
    const auto paths = yaml_files(folder);
    if (!paths) {
      unreadable.append(paths.error());
      continue;
    }
    for (const std::string& path : *paths) {
      auto text = read_text(path);
      if (!text) unreadable.append(text.error());
      texts.emplace_back(path, text.value_or(""));
    }
  }
  if (!unreadable.empty()) return tl::unexpected(std::move(unreadable));
  return read_catalog_texts(texts);
}

}  // namespace cotter::document
