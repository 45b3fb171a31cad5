#include "plan/bill.hpp"

#include "plan/finding_parts.hpp"

namespace cotter::plan {
namespace {

void fill_from(const model::Part& part, model::BillRow& row) {
  row.part = part.id;
  row.label = part.label;
  row.mass = part.mass;
  row.price = part.price;
}

}  // namespace

std::vector<model::BillRow> bill_of(const Assembly& assembly) {
  std::vector<model::BillRow> rows;
  const auto push = [&](model::BillRow row) {
    row.item = static_cast<std::int64_t>(rows.size()) + 1;
    rows.push_back(std::move(row));
  };
  for (const Seated& seated : assembly.places()) {
    if (!seated.part && seated.form->optional) continue;
    model::BillRow row;
    row.place = seated.id;
    row.place_label = seated.form->label;
    row.open = !seated.part;
    row.to_order = seated.part && !seated.at_hand;
    if (seated.part) fill_from(*seated.part, row);
    push(std::move(row));
  }
  for (const model::LineWish& wish : assembly.job().sheet.lines) {
    const model::Part* part = assembly.find_part(wish.part);
    if (part == nullptr) continue;
    model::BillRow row;
    row.place = wish.id;
    row.place_label = "line";
    row.to_order = true;
    fill_from(*part, row);
    push(std::move(row));
  }
  return rows;
}

std::vector<model::Finding> open_place_findings(const Assembly& assembly) {
  std::vector<model::Finding> findings;
  for (const Seated& seated : assembly.places()) {
    if (seated.part || seated.form->optional) continue;
    model::Finding finding;
    finding.rule = "place_filled";
    finding.rule_label = "every place is filled";
    finding.law = "place";
    finding.id = finding_id(finding.rule, {seated.id});
    finding.subject = seated.form->label;
    finding.about = {{seated.id, ""}};
    finding.verdict = model::Verdict::add;
    finding.may_pass = model::MayPass::nobody;
    finding.facts = {{"finding.open_place", ""}, {"place", seated.form->label}};
    model::Addition addition;
    addition.what = seated.form->label;
    addition.where = "in its place";
    finding.additions.push_back(std::move(addition));
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace cotter::plan
