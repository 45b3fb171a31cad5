#include "session/opened.hpp"

#include "plan/fit/fit_findings.hpp"
#include "plan/make_plan.hpp"

namespace cotter::session {

std::string trouble_text(const document::Diagnostics& diagnostics) {
  std::string text;
  for (const document::Diagnostic& diagnostic : diagnostics.list()) text += document::one_line(diagnostic) + "\n";
  if (diagnostics.left_out() > 0)
    text += diagnostics.file() + ": and " + std::to_string(diagnostics.left_out()) + " more\n";
  return text;
}

document::Read<model::Catalog> open_catalog(const std::vector<std::string>& folders) {
  auto catalog = document::read_catalog(folders);
  if (!catalog) return catalog;
  document::Diagnostics faults(folders.empty() ? "catalog" : folders.back());
  for (const plan::RuleFault& fault : plan::rule_faults(*catalog)) {
    document::Diagnostic diagnostic;
    diagnostic.code = "bad_rule";
    const document::RulePlace place = document::place_of_law(folders, fault.rule);
    diagnostic.file = place.file;
    diagnostic.mark = place.mark;
    diagnostic.field = "kinds." + fault.kind + ".meets." + fault.rule;
    diagnostic.message = "This rule cannot be judged: " + fault.message;
    faults.add(std::move(diagnostic));
  }
  if (!faults.empty()) return tl::unexpected(faults);
  return catalog;
}

document::Read<Planned> plan_job(const std::string& version, const model::Catalog& catalog, const std::string& job) {
  const auto loaded = document::load_job(job, catalog);
  if (!loaded) return tl::unexpected(loaded.error());
  return Planned{plan::make_plan(loaded->job, catalog, {version, loaded->hash}), loaded->notes,
                 loaded->job.sheet.aliases};
}

document::Read<Planned> open_and_plan(const std::string& version, const std::vector<std::string>& catalogs,
                                      const std::string& job) {
  const auto catalog = open_catalog(catalogs);
  if (!catalog) return tl::unexpected(catalog.error());
  return plan_job(version, *catalog, job);
}

}  // namespace cotter::session
