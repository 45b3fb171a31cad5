#pragma once
// What all findings about lines have in common.

#include <string>

#include "model/finding.hpp"
#include "plan/finding_parts.hpp"

namespace cotter::plan {

/// A finding of the routing on `about`, which is a line, an opening or all lines; nobody may pass it.
inline model::Finding route_head(const std::string& rule, const std::string& label, const std::string& about) {
  model::Finding finding;
  finding.rule = rule;
  finding.rule_label = label;
  finding.law = "route";
  finding.id = finding_id(rule, {about});
  finding.subject = "lines";
  finding.may_pass = model::MayPass::nobody;
  return finding;
}

}  // namespace cotter::plan
