#include "document/write_finding.hpp"

#include <cstdlib>

#include "document/write_plan.hpp"
#include "model/words.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

std::string_view word_for(model::Edge edge) {
  constexpr std::string_view k_words[] = {"none", "from", "to"};
  return k_words[static_cast<std::size_t>(edge)];
}

Node values(const std::vector<model::NamedValue>& values) {
  Node list = Node::list();
  for (const model::NamedValue& named : values) {
    Node node = Node::map();
    node.set("symbol", Node::text(named.symbol))
        .set("label", Node::text(named.label))
        .set("place_label", Node::text(named.place_label));
    node.set("ref", named.ref ? Node::text(named.ref->text()) : Node::null()).set("value", value_node(named.value));
    list.push(std::move(node));
  }
  return list;
}

Node additions(const model::Finding& finding) {
  Node list = Node::list();
  for (const model::Addition& addition : finding.additions) {
    Node node = Node::map();
    node.set("what", Node::text(addition.what))
        .set("id", Node::text(addition.id))
        .set("count", Node::integer(addition.count));
    node.set("dimension", Node::text(addition.dimension))
        .set("where", Node::text(addition.where))
        .set("in_kit", Node::boolean(addition.in_kit))
        .set("proposed", Node::boolean(addition.proposed));
    node.set("price", price_node(addition.price));
    list.push(std::move(node));
  }
  return list;
}

/// Of the value that is measured; its finding may hold values of several dimensions, lengths beside counts for one.
quantity::Dimension dimension_of(const model::Measurement& measurement, const model::Finding& finding) {
  for (const model::NamedValue& named : finding.values)
    if (named.ref && *named.ref == measurement.ref) return named.value.dimension;
  return quantity::Dimension::length;
}

Node measurements(const model::Finding& finding) {
  Node list = Node::list();
  for (const model::Measurement& measurement : finding.measurements) {
    const quantity::Dimension dimension = dimension_of(measurement, finding);
    Node node = Node::map();
    node.set("ref", Node::text(measurement.ref.text())).set("label", Node::text(measurement.label));
    node.set("feature", Node::text(measurement.guide.feature)).set("faces", Node::text(measurement.guide.faces));
    node.set("tool", Node::text(measurement.guide.tool)).set("tool_label", Node::text(measurement.tool_label));
    node.set("resolution", Node::text(measurement.guide.resolution))
        .set("hundredths_of_minute", Node::integer(measurement.guide.minutes));
    node.set("holds", measurement.holds ? range_node(*measurement.holds, dimension) : Node::null());
    node.set("may_hold", measurement.may_hold ? range_node(*measurement.may_hold, dimension) : Node::null());
    node.set("below_means", Node::text(measurement.below_means))
        .set("above_means", Node::text(measurement.above_means))
        .set("with_these_pieces", Node::boolean(measurement.with_these_pieces));
    list.push(std::move(node));
  }
  return list;
}

Node about(const model::Finding& finding) {
  Node list = Node::list();
  for (const model::InterfaceRef& ref : finding.about) list.push(Node::text(ref.text()));
  return list;
}

Node facts(const model::Finding& finding) {
  Node list = Node::list();
  for (const auto& [key, text] : finding.facts)
    list.push(Node::map().set("key", Node::text(key)).set("text", Node::text(text)));
  return list;
}

Node press_node(const std::optional<model::PressWorking>& press) {
  if (!press) return Node::null();
  Node steps = Node::list();
  for (const model::WorkingStep& step : press->steps)
    steps.push(Node::map()
                   .set("name", Node::text(step.name))
                   .set("formula", Node::text(step.formula))
                   .set("range", range_node(step.range, step.dimension)));
  const bool judged = press->most_stress && !press->steps.empty();
  return Node::map()
      .set("values", values(press->values))
      .set("steps", std::move(steps))
      .set("missing", text_list(press->missing))
      .set("rests_on", text_list(press->rests_on))
      .set("note", Node::text(press->note))
      .set("hub_source", Node::text(press->hub_source))
      .set("shaft_source", Node::text(press->shaft_source))
      .set("most_stress",
           press->most_stress ? range_node(*press->most_stress, quantity::Dimension::pressure) : Node::null())
      .set("stress", judged ? Node::text(std::string(quantity::word_for(press->stress))) : Node::null())
      .set("composite", Node::boolean(press->composite));
}

Node paper_node(const std::optional<model::PassingPaper>& paper, quantity::Dimension dimension) {
  if (!paper) return Node::null();
  return Node::map()
      .set("id", Node::text(paper->id))
      .set("written_by", Node::text(paper->written_by))
      .set("document", Node::text(paper->document))
      .set("page", Node::text(paper->page))
      .set("on", Node::text(paper->on))
      .set("window", range_node(paper->window, dimension));
}

}  // namespace

Node price_node(const std::optional<model::Price>& price) {
  if (!price) return Node::null();
  return Node::map().set("hundredths", Node::integer(price->hundredths)).set("currency", Node::text(price->currency));
}

Node text_list(const std::vector<std::string>& list) {
  Node node = Node::list();
  for (const std::string& text : list) node.push(Node::text(text));
  return node;
}

Node value_node(const quantity::Value& value) {
  Node node = Node::map();
  node.set("text", Node::text(quantity::print_value(value))).set("nominal", Node::integer(value.nominal));
  node.set("low", Node::integer(value.range().low().base())).set("high", Node::integer(value.range().high().base()));
  node.set("dimension", Node::text(std::string(quantity::word_for(value.dimension))));
  node.set("origin", Node::text(std::string(quantity::word_for(value.origin.kind))));
  const quantity::Origin& origin = value.origin;
  if (!origin.by.empty()) node.set("by", Node::text(origin.by));
  if (!origin.tool.empty()) node.set("with", Node::text(origin.tool));
  if (!origin.when.empty()) node.set("on", Node::text(origin.when));
  if (!origin.source.empty()) node.set("source", Node::text(origin.source));
  return node;
}

Node range_node(const quantity::Range& range, quantity::Dimension dimension) {
  const auto end = [&](quantity::Mixed at) {
    return std::abs(at.base()) >= model::k_open_end ? Node::null() : Node::integer(at.base());
  };
  const auto text = [&](quantity::Mixed at) {
    return std::abs(at.base()) >= model::k_open_end ? Node::null()
                                                    : Node::text(quantity::print_amount(at.base(), dimension));
  };
  return Node::map()
      .set("low", end(range.low()))
      .set("high", end(range.high()))
      .set("low_text", text(range.low()))
      .set("high_text", text(range.high()));
}

Node finding_node(const model::Finding& finding) {
  const quantity::Dimension dimension =
      finding.values.empty() ? quantity::Dimension::length : finding.values.front().value.dimension;
  const auto window = [&](const std::optional<quantity::Range>& range) {
    return range ? range_node(*range, dimension) : Node::null();
  };
  Node node = Node::map();
  node.set("id", Node::text(finding.id)).set("verdict", Node::text(std::string(model::word_for(finding.verdict))));
  node.set("rule", Node::text(finding.rule))
      .set("rule_label", Node::text(finding.rule_label))
      .set("law", Node::text(finding.law));
  node.set("subject", Node::text(finding.subject)).set("about", about(finding)).set("values", values(finding.values));
  node.set("formula", Node::text(finding.formula))
      .set("result", window(finding.result))
      .set("without", window(finding.without))
      .set("must", window(finding.must));
  node.set("should", window(finding.should))
      .set("margin", Node::integer(finding.margin))
      .set("governs", Node::text(std::string(word_for(finding.governs))));
  node.set("probability", finding.probability ? Node::real(*finding.probability) : Node::null());
  node.set("mismatches", text_list(finding.mismatches))
      .set("additions", additions(finding))
      .set("measurements", measurements(finding));
  node.set("operation", Node::text(finding.operation))
      .set("operation_label", Node::text(finding.operation_label))
      .set("advice", Node::text(finding.advice))
      .set("rests_on", text_list(finding.rests_on));
  node.set("press", press_node(finding.press));
  node.set("facts", facts(finding)).set("guards", Node::text(std::string(model::word_for(finding.guards))));
  node.set("may_pass", Node::text(std::string(model::word_for(finding.may_pass))));
  node.set("source", Node::map()
                         .set("kind", Node::text(std::string(model::word_for(finding.source.kind))))
                         .set("text", Node::text(finding.source.text)));
  node.set("accepted_by", Node::text(finding.accepted_by))
      .set("accepted_reason", Node::text(finding.accepted_reason))
      .set("accepted_when", Node::text(finding.accepted_when));
  node.set("passed", finding.passed ? Node::text(std::string(model::word_for(*finding.passed))) : Node::null());
  node.set("paper", paper_node(finding.paper, dimension));
  return node;
}

}  // namespace cotter::document
