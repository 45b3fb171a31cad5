#include "plan/compare.hpp"

#include <algorithm>
#include <tuple>

#include "plan/decisions.hpp"

namespace cotter::plan {
namespace {

using model::FindingChange;
using model::Plan;
using Kind = model::FindingChange::Kind;

/// Entries of both plans by key, in the order of the later plan, then what only the earlier one has.
template <class Entry>
struct Pair {
  const Entry* before = nullptr;
  const Entry* after = nullptr;
};

template <class Entry, class BeforeKey, class AfterKey>
std::vector<Pair<Entry>> paired(const std::vector<Entry>& before, const std::vector<Entry>& after,
                                const BeforeKey& before_key, const AfterKey& after_key) {
  std::map<std::string, const Entry*> earlier;
  for (const Entry& entry : before) earlier.emplace(before_key(entry), &entry);
  std::vector<Pair<Entry>> pairs;
  for (const Entry& entry : after) {
    const auto found = earlier.find(after_key(entry));
    pairs.push_back({found == earlier.end() ? nullptr : found->second, &entry});
    if (found != earlier.end()) earlier.erase(found);
  }
  for (const Entry& entry : before) {
    const auto left = earlier.find(before_key(entry));
    if (left != earlier.end() && left->second == &entry) pairs.push_back({&entry, nullptr});
  }
  return pairs;
}

template <class Entry>
std::optional<Entry> copied(const Entry* entry) {
  return entry == nullptr ? std::nullopt : std::optional<Entry>(*entry);
}

/// How two findings of one identity differ; nothing when they do not.
std::optional<Kind> change_between(const model::Finding& before, const model::Finding& after) {
  if (after.verdict != before.verdict) return after.verdict > before.verdict ? Kind::worse : Kind::better;
  if (before.accepted_by.empty() != after.accepted_by.empty())
    return after.accepted_by.empty() ? Kind::lapsed : Kind::signed_for;
  if (!has_margin(before) || !has_margin(after) || before.margin == after.margin) return std::nullopt;
  return after.margin < before.margin ? Kind::worse_margin : Kind::better_margin;
}

model::Verdict verdict_of(const FindingChange& change) {
  return change.after ? change.after->verdict : change.before->verdict;
}

std::vector<FindingChange> finding_changes(const Plan& before, const Plan& after, const Renames& renames) {
  const auto before_key = [&](const model::Finding& finding) { return renamed(finding.id, renames.after); };
  const auto after_key = [&](const model::Finding& finding) { return renamed(finding.id, renames.before); };
  std::vector<FindingChange> changes;
  for (const auto& pair : paired(before.findings, after.findings, before_key, after_key)) {
    std::optional<Kind> kind;
    if (pair.before == nullptr) kind = Kind::appeared;
    if (pair.after == nullptr) kind = Kind::disappeared;
    if (pair.before != nullptr && pair.after != nullptr) kind = change_between(*pair.before, *pair.after);
    if (kind) changes.push_back({*kind, copied(pair.before), copied(pair.after)});
  }
  // What needs attention first: worse verdicts and new trouble, by verdict; then the rest in the order of its kinds.
  const auto rank = [](const FindingChange& change) {
    const bool trouble =
        change.kind == Kind::worse || (change.kind == Kind::appeared && change.after->verdict > model::Verdict::ok);
    return std::tuple(!trouble, trouble ? Kind::worse : change.kind, -static_cast<int>(verdict_of(change)));
  };
  std::stable_sort(changes.begin(), changes.end(),
                   [&](const FindingChange& a, const FindingChange& b) { return rank(a) < rank(b); });
  return changes;
}

std::string name_of(const std::string& place, const std::map<std::string, std::string>& aliases) {
  // A place alone is a reference without interface.
  return renamed("@" + place, aliases).substr(1);
}

bool differs(const model::BillRow& a, const model::BillRow& b) {
  const auto mass = [](const model::BillRow& row) { return row.mass ? row.mass->nominal : -1; };
  const auto price = [](const model::BillRow& row) {
    return row.price ? std::pair(row.price->hundredths, row.price->currency)
                     : std::pair(std::int64_t{-1}, std::string());
  };
  return a.part != b.part || a.label != b.label || a.open != b.open || a.quantity != b.quantity || mass(a) != mass(b) ||
         price(a) != price(b);
}

bool orders_differ(const model::BillRow* a, const model::BillRow* b) {
  const bool earlier = a != nullptr && a->to_order, later = b != nullptr && b->to_order;
  return earlier != later || (earlier && later && (a->part != b->part || a->quantity != b->quantity));
}

void take_part_changes(const Plan& before, const Plan& after, const Renames& renames, model::PlanDifference& out) {
  const auto before_key = [&](const model::BillRow& row) { return name_of(row.place, renames.after); };
  const auto after_key = [&](const model::BillRow& row) { return name_of(row.place, renames.before); };
  for (const auto& pair : paired(before.bill, after.bill, before_key, after_key)) {
    const model::BillRow& row = pair.after != nullptr ? *pair.after : *pair.before;
    const model::PartChange change{row.place_label, copied(pair.before), copied(pair.after)};
    if (pair.before == nullptr || pair.after == nullptr || differs(*pair.before, *pair.after))
      out.parts.push_back(change);
    if (orders_differ(pair.before, pair.after)) out.orders.push_back(change);
  }
}

bool same_way(const model::Run& a, const model::Run& b, const Renames& renames) {
  const auto same_step = [&](const model::RunStep& x, const model::RunStep& y) {
    return name_of(x.opening, renames.after) == name_of(y.opening, renames.before);
  };
  return a.length == b.length && a.way == b.way && a.cut_to_length == b.cut_to_length &&
         std::equal(a.steps.begin(), a.steps.end(), b.steps.begin(), b.steps.end(), same_step);
}

bool same_cut(const model::Cut& a, const model::Cut& b) {
  return a.settled == b.settled && (!a.settled || a.length == b.length);
}

void take_lengths(const Plan& before, const Plan& after, const Renames& renames, model::PlanDifference& out) {
  const auto line = [](const model::Run& run) { return run.line; };
  for (const auto& pair : paired(before.runs, after.runs, line, line))
    if (pair.before == nullptr || pair.after == nullptr || !same_way(*pair.before, *pair.after, renames))
      out.runs.push_back(
          {line(pair.after != nullptr ? *pair.after : *pair.before), copied(pair.before), copied(pair.after)});
  const auto id = [](const model::Cut& cut) { return cut.id; };
  for (const auto& pair : paired(before.cuts, after.cuts, id, id))
    if (pair.before == nullptr || pair.after == nullptr || !same_cut(*pair.before, *pair.after))
      out.cuts.push_back(
          {(pair.after != nullptr ? *pair.after : *pair.before).label, copied(pair.before), copied(pair.after)});
  const auto operation = [](const model::WorkStep& step) { return step.operation; };
  for (const auto& pair : paired(before.work, after.work, operation, operation))
    if (pair.before == nullptr || pair.after == nullptr || pair.before->minutes != pair.after->minutes)
      out.steps.push_back({copied(pair.before), copied(pair.after)});
}

model::Totals totals_of(const Plan& plan) {
  model::Totals totals;
  totals.minutes = plan.minutes;
  for (const model::BillRow& row : plan.bill) {
    if (row.open) continue;
    if (row.mass)
      totals.mass += row.mass->nominal * row.quantity;
    else
      ++totals.unweighed;
    if (row.price)
      totals.price[row.price->currency] += row.price->hundredths * row.quantity;
    else
      ++totals.unpriced;
  }
  return totals;
}

std::string name_of(const Plan& plan) {
  return plan.title + (plan.revision.empty() ? "" : ", revision " + plan.revision);
}

}  // namespace

model::PlanDifference compare(const Plan& before, const Plan& after, const Renames& renames) {
  model::PlanDifference out;
  out.before = name_of(before);
  out.after = name_of(after);
  out.stops = model::count(after, model::Verdict::stop);
  out.findings = finding_changes(before, after, renames);
  take_part_changes(before, after, renames, out);
  take_lengths(before, after, renames, out);
  out.totals_before = totals_of(before);
  out.totals_after = totals_of(after);
  return out;
}

}  // namespace cotter::plan
