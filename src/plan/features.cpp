#include "plan/features.hpp"

#include <algorithm>

#include "plan/finding_parts.hpp"

namespace cotter::plan {
namespace {

std::string labels_of(const Assembly& assembly, const std::vector<std::string>& kinds) {
  std::string text;
  for (const std::string& kind : kinds)
    text += (text.empty() ? "" : ", ") + model::kind_label(assembly.catalog(), kind);
  return text;
}

}  // namespace

std::vector<model::Finding> feature_findings(const Assembly& assembly) {
  std::vector<model::Finding> findings;
  for (const model::FeatureForm& form : assembly.bicycle().features) {
    const Seated* seated = assembly.place(form.feature.place);
    quantity::ensure(seated != nullptr, "feature of a place its template does not have");
    if (!seated->part) continue;
    const model::Interface* feature = assembly.interface(form.feature);
    if (feature != nullptr && std::find(form.kinds.begin(), form.kinds.end(), feature->kind) != form.kinds.end())
      continue;
    model::Finding finding;
    finding.rule = "states_feature";
    finding.rule_label = form.label;
    finding.law = "kinds";
    finding.subject = seated->form->label;
    finding.about = {assembly.in_job_names(form.feature)};
    finding.id = finding_id(finding.rule, {finding.about[0].text()});
    finding.guards = form.guards;
    finding.may_pass = model::MayPass::nobody;
    finding.verdict = feature == nullptr ? model::Verdict::measure : model::Verdict::stop;
    finding.facts = {{feature == nullptr ? "finding.feature_unsaid" : "finding.feature_other", ""},
                     {"place", seated->form->label},
                     {"what", form.label},
                     {"kinds", labels_of(assembly, form.kinds)},
                     {"kind", feature == nullptr ? "" : model::kind_label(assembly.catalog(), feature->kind)}};
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace cotter::plan
