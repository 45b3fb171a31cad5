// `new`, `import` and `catalog`: what the catalog gives to a job, and how parts come into it.
#include <algorithm>
#include <set>

#include "document/import_parts.hpp"
#include "document/parse.hpp"
#include "document/read_job.hpp"
#include "plan/needs.hpp"
#include "quantity/text.hpp"
#include "session/answers.hpp"
#include "session/opened.hpp"
#include "words/new_job.hpp"
#include "words/phrase.hpp"

namespace cotter::session {
namespace {

std::string unknown_word(std::string_view key, const std::string& wanted, const std::vector<std::string>& known) {
  const auto nearest = quantity::nearest_word(wanted, known);
  std::string list;
  for (const std::string& one : known) list += (list.empty() ? "" : ", ") + one;
  return words::fill(key, {{"wanted", wanted},
                           {"nearest", nearest ? words::fill("new.nearest", {{"word", *nearest}}) : ""},
                           {"list", list}}) +
         "\n";
}

}  // namespace

Answer Session::begin(const Beginning& beginning) const {
  const auto catalog = open_catalog(settings_.catalogs);
  if (!catalog) return refused(catalog.error());
  const auto bicycle = catalog->bicycles.find(beginning.bicycle);
  if (bicycle == catalog->bicycles.end()) {
    std::vector<std::string> names;
    for (const auto& [id, known] : catalog->bicycles) names.push_back(id);
    return refused(unknown_word("new.unknown", beginning.bicycle, names));
  }
  std::vector<std::string> places;
  for (const model::PlaceForm& place : bicycle->second.places) places.push_back(place.id);
  for (const std::string& own : beginning.own)
    if (std::find(places.begin(), places.end(), own) == places.end())
      return refused(unknown_word("new.unknown_place", own, places));
  Answer answer;
  answer.text = words::new_job_text(bicycle->second, plan::needs_of(bicycle->second, *catalog), *catalog,
                                    {beginning.title, {beginning.own.begin(), beginning.own.end()}});
  return answer;
}

Answer Session::import_parts(const std::string& file, Import import) const {
  const auto catalog = open_catalog(settings_.catalogs);
  if (!catalog) return refused(catalog.error());
  const auto text = document::read_text(file);
  if (!text) return refused(text.error());
  const auto imported = document::import_parts(*text, file, *catalog);
  if (!imported) return refused(imported.error());
  Answer answer;
  answer.text = import == Import::print
                    ? document::write_parts_yaml(imported->document)
                    : words::fill("import.done", {{"file", file},
                                                  {"parts", std::to_string(imported->parts)},
                                                  {"interfaces", std::to_string(imported->interfaces)}}) +
                          "\n";
  return answer;
}

Answer Session::catalog(const std::vector<std::string>& jobs, const Report& report) const {
  const auto catalog = open_catalog(settings_.catalogs);
  if (!catalog) return refused(catalog.error());
  std::set<std::string> used;
  for (const std::string& file : jobs) {
    const auto job = document::load_job(file, *catalog);
    if (!job) return refused(job.error());
    for (const model::Place& place : job->job.sheet.places) used.insert(place.part);
    for (const model::LineWish& line : job->job.sheet.lines) {
      if (!line.part.empty()) used.insert(line.part);
    }
  }
  Answer answer;
  answer.text = words::catalog_text(*catalog, plan::use_of(*catalog, used), report.width);
  return answer;
}

}  // namespace cotter::session
