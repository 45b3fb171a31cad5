#include "plan/hands.hpp"

#include <algorithm>

#include "plan/finding_parts.hpp"

namespace cotter::plan {
namespace {

const model::BrakeCustom* custom_of(const std::string& country, const model::Catalog& catalog) {
  const auto found =
      std::find_if(catalog.brake_customs.begin(), catalog.brake_customs.end(), [&](const model::BrakeCustom& custom) {
        return std::find(custom.countries.begin(), custom.countries.end(), country) != custom.countries.end();
      });
  return found == catalog.brake_customs.end() ? nullptr : &*found;
}

}  // namespace

bool left_is_front(const model::Job& job, const model::Catalog& catalog) {
  if (job.sheet.hands) return job.sheet.hands->left_is_front;
  const model::BrakeCustom* custom = custom_of(job.sheet.shop.country, catalog);
  return custom == nullptr || custom->left_is_front;
}

std::string hand_fact(const model::Job& job, const model::Catalog& catalog) {
  return left_is_front(job, catalog) ? "hand:left=front" : "hand:left=rear";
}

std::vector<model::Finding> hand_findings(const model::Job& job, const model::Catalog& catalog) {
  model::Finding finding;
  finding.rule = "hands";
  finding.rule_label = "which hand works which brake is agreed";
  finding.law = "connection";
  finding.id = finding_id(finding.rule, {"brakes"});
  finding.subject = "brakes";
  finding.guards = model::Guards::brake;
  finding.may_pass = model::MayPass::nobody;
  const model::BrakeCustom* custom = custom_of(job.sheet.shop.country, catalog);
  if (custom != nullptr) finding.source = custom->source;
  const bool front = left_is_front(job, catalog);
  if (job.sheet.hands) {
    finding.facts = {
        {front ? "hands.front" : "hands.rear", ""}, {"by", job.sheet.hands->by}, {"on", job.sheet.hands->on}};
    return {finding};
  }
  finding.verdict = model::Verdict::measure;
  finding.facts = {{front ? "hands.ask_front" : "hands.ask_rear", ""}, {"country", job.sheet.shop.country}};
  return {finding};
}

}  // namespace cotter::plan
