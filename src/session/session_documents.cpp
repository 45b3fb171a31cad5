// `check` and `schema`: documents without a plan.
#include <filesystem>

#include "document/parse.hpp"
#include "document/schemas.hpp"
#include "problem/engines.hpp"
#include "quantity/text.hpp"
#include "session/answers.hpp"
#include "session/opened.hpp"
#include "session/session.hpp"
#include "words/phrase.hpp"

namespace cotter::session {
namespace {

struct Published {
  std::string name;
  document::SchemaRef (*schema)();
};

std::vector<Published> published() {
  std::vector<Published> all = {{"job", document::job_schema},
                                {"parts", document::parts_schema},
                                {"interface_kinds", document::kinds_schema},
                                {"bicycle", document::bicycle_schema},
                                {"section", document::section_schema},
                                {"operations", document::operations_schema},
                                {"conditions", document::conditions_schema},
                                {"customs", document::customs_schema},
                                {"tools", document::tools_schema},
                                {"journal_entry", document::journal_entry_schema}};
  for (const problem::EngineDocument& engine : problem::engines())
    all.push_back({std::string(engine.name) + "_problem", engine.schema});
  return all;
}

constexpr std::string_view k_interface_prefix = "interface:";

/// "job" of `cotter: job 1`; empty when the document does not say.
std::string kind_of(const document::Node& node) {
  const document::Node* head = node.find("cotter");
  if (head == nullptr || !head->is_scalar()) return "";
  return head->scalar().substr(0, head->scalar().find(' '));
}

bool lies_in(const std::string& file, const std::vector<std::string>& folders) {
  std::error_code failed;
  const auto own = std::filesystem::weakly_canonical(file, failed);
  for (const std::string& folder : folders) {
    const auto relative = own.lexically_relative(std::filesystem::weakly_canonical(folder, failed));
    if (!relative.empty() && *relative.begin() != "..") return true;
  }
  return false;
}

}  // namespace

Answer Session::check(const std::string& file) const {
  if (file.ends_with(".csv")) return refused(words::fill("check.table", {{"file", file}}) + "\n");
  const auto node = document::parse_file(file);
  if (!node) return refused(trouble_text(node.error()));
  const std::string kind = kind_of(*node);
  Answer answer;
  answer.text = file + ": in order\n";
  if (kind.ends_with("_problem")) {
    const problem::EngineDocument* engine = problem::find_engine(kind.substr(0, kind.size() - 8));
    if (engine == nullptr) return refused(file + ": there is no engine for \"" + kind + "\"\n");
    const auto solved = engine->solve(*node, file);
    return solved ? answer : refused(trouble_text(solved.error()));
  }
  if (kind == "job") {
    const auto catalog = open_catalog(settings_.catalogs);
    if (!catalog) return refused(trouble_text(catalog.error()));
    const auto job = document::load_job(file, *catalog);
    if (!job) return refused(trouble_text(job.error()));
    answer.trouble = trouble_text(job->notes);
    return answer;
  }
  std::vector<std::string> catalogs = settings_.catalogs;
  // A file outside the catalog is read on top of it, so that its names may lead there.
  if (!lies_in(file, catalogs)) catalogs.push_back(file);
  const auto catalog = open_catalog(catalogs);
  return catalog ? answer : refused(trouble_text(catalog.error()));
}

Answer Session::schema(const std::string& name) const {
  Answer answer;
  std::vector<std::string> names;
  for (const Published& one : published()) {
    names.push_back(one.name);
    if (one.name != name) continue;
    answer.text = document::write_json(document::json_schema(*one.schema(), one.name)) + "\n";
    return answer;
  }
  const auto catalog = open_catalog(settings_.catalogs);
  if (!catalog) return refused(trouble_text(catalog.error()));
  for (const auto& [id, kind] : catalog->kinds) {
    names.push_back(std::string(k_interface_prefix) + id);
    if (names.back() != name) continue;
    answer.text = document::write_json(document::interface_schema(kind)) + "\n";
    return answer;
  }
  if (name.empty()) {
    for (const std::string& one : names) answer.text += one + "\n";
    return answer;
  }
  const auto nearest = quantity::nearest_word(name, names);
  return refused("There is no schema \"" + name + "\"." + (nearest ? " Did you mean \"" + *nearest + "\"?" : "") +
                 " `cotter schema` lists them.\n");
}

}  // namespace cotter::session
