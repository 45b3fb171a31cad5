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

/// What one feature of a neighbour asks of the part that is still to be chosen: "seatpost, rail clamp: width 7 mm".
std::string asked_by(const Assembly& assembly, const model::InterfaceRef& neighbour) {
  const model::Interface* feature = assembly.interface(neighbour);
  if (feature == nullptr) return "";
  std::string numbers;
  for (const auto& [dimension, value] : feature->values) {
    const auto found = assembly.value({neighbour.place, neighbour.interface, dimension});
    if (!found || value.origin.kind == quantity::OriginKind::unknown) continue;
    numbers +=
        (numbers.empty() ? ": " : ", ") + found->label + " " + quantity::print_amount(value.nominal, value.dimension);
  }
  return assembly.label(neighbour) + numbers;
}

/// What every filled neighbour asks; empty when none is there yet.
std::string to_meet(const Assembly& assembly, const std::string& place) {
  std::string text;
  for (const model::JointForm& joint : assembly.joints()) {
    if ((joint.a.place == place) == (joint.b.place == place)) continue;
    const std::string asked = asked_by(assembly, joint.a.place == place ? joint.b : joint.a);
    if (!asked.empty()) text += (text.empty() ? "to meet " : "; ") + asked;
  }
  return text;
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
  std::size_t number = 0;  // as the runs are numbered
  for (const model::LineWish& wish : assembly.job().sheet.lines) {
    ++number;
    const model::Part* part = assembly.find_part(wish.part);
    if (part == nullptr) continue;
    model::BillRow row;
    row.place = wish.id;
    row.place_label = "line L" + std::to_string(number);
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
    addition.dimension = to_meet(assembly, seated.form->id);
    addition.where = "in its place";
    finding.additions.push_back(std::move(addition));
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace cotter::plan
