#include "document/write_difference.hpp"

#include "document/write_finding.hpp"
#include "document/write_plan.hpp"

namespace cotter::document {
namespace {

std::string_view word_for(model::FindingChange::Kind kind) {
  constexpr std::string_view k_words[] = {"worse",  "new",  "decision_lapsed", "worse_margin",
                                          "better", "gone", "decision_made",   "better_margin"};
  return k_words[static_cast<std::size_t>(kind)];
}

/// `{before, after}` of one thing; `write` makes its node.
template <class Thing, class Write>
Node pair_node(const std::optional<Thing>& before, const std::optional<Thing>& after, const Write& write) {
  const auto one = [&](const std::optional<Thing>& thing) { return thing ? write(*thing) : Node::null(); };
  return Node::map().set("before", one(before)).set("after", one(after));
}

/// A pair for each change.
template <class Change, class Write>
Node pairs_of(const std::vector<Change>& changes, const Write& write) {
  return list_of(changes, [&](const Change& change) { return pair_node(change.before, change.after, write); });
}

Node totals_node(const model::Totals& totals) {
  Node price = Node::map();
  for (const auto& [currency, hundredths] : totals.price) price.set(currency, Node::integer(hundredths));
  return Node::map()
      .set("mass", Node::integer(totals.mass))
      .set("not_weighed", Node::integer(totals.unweighed))
      .set("price_hundredths", std::move(price))
      .set("without_price", Node::integer(totals.unpriced))
      .set("hundredths_of_minute", Node::integer(totals.minutes));
}

}  // namespace

Node difference_node(const model::PlanDifference& difference) {
  Node findings = Node::list();
  for (const model::FindingChange& change : difference.findings) {
    Node node = pair_node(change.before, change.after, finding_node);
    findings.push(node.set("change", Node::text(std::string(word_for(change.kind)))));
  }
  Node node = Node::map();
  node.set("cotter", Node::text("plan_difference 1"));
  node.set("before", Node::text(difference.before)).set("after", Node::text(difference.after));
  node.set("stops", Node::integer(static_cast<long long>(difference.stops)));
  node.set("findings", std::move(findings));
  node.set("parts", pairs_of(difference.parts, bill_row_node));
  node.set("orders", pairs_of(difference.orders, bill_row_node));
  node.set("lines", pairs_of(difference.runs, run_node));
  node.set("cuts", pairs_of(difference.cuts, cut_node));
  node.set("work", pairs_of(difference.steps, work_step_node));
  node.set("totals", Node::map()
                         .set("before", totals_node(difference.totals_before))
                         .set("after", totals_node(difference.totals_after)));
  return node;
}

}  // namespace cotter::document
