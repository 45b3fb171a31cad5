#include "document/write_plan.hpp"

#include <cstdlib>

#include "document/write_finding.hpp"
#include "model/words.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

Node point(const model::PlanPoint& at) {
  return Node::map().set("x_um", Node::integer(at.x)).set("y_um", Node::integer(at.y)).set("z_um", Node::integer(at.z));
}

}  // namespace

Node measure_next_node(const model::Plan& plan) {
  Node list = Node::list();
  for (const model::NextMeasurement& next : plan.measure_next) {
    Node node = Node::map();
    node.set("ref", Node::text(next.ref.text())).set("label", Node::text(next.label));
    node.set("feature", Node::text(next.guide.feature)).set("faces", Node::text(next.guide.faces));
    node.set("tool", Node::text(next.guide.tool))
        .set("tool_label", Node::text(next.tool_label))
        .set("tool_resolution", Node::text(next.tool_resolution))
        .set("resolution", Node::text(next.guide.resolution));
    node.set("hundredths_of_minute", Node::integer(next.guide.minutes))
        .set("chance", Node::real(next.chance))
        .set("cost_minutes", Node::real(next.cost))
        .set("rank", Node::real(next.rank));
    list.push(std::move(node.set("findings", text_list(next.findings))));
  }
  return list;
}

Node bill_row_node(const model::BillRow& row) {
  Node node = Node::map();
  node.set("item", Node::integer(row.item))
      .set("place", Node::text(row.place))
      .set("place_label", Node::text(row.place_label));
  node.set("part", Node::text(row.part))
      .set("label", Node::text(row.label))
      .set("quantity", Node::integer(row.quantity));
  node.set("mass", row.mass ? value_node(*row.mass) : Node::null()).set("price", price_node(row.price));
  node.set("to_order", Node::boolean(row.to_order)).set("open", Node::boolean(row.open));
  return node;
}

Node run_node(const model::Run& run) {
  Node steps = Node::list();
  for (const model::RunStep& step : run.steps)
    steps.push(Node::map()
                   .set("opening", Node::text(step.opening))
                   .set("letter", Node::text(step.letter))
                   .set("label", Node::text(step.label))
                   .set("depth_mm", Node::integer(step.depth)));
  Node path = Node::list();
  for (const model::PlanPoint& at : run.path) path.push(point(at));
  Node node = Node::map();
  node.set("line", Node::text(run.line)).set("number", Node::text(run.number)).set("label", Node::text(run.label));
  node.set("kind", Node::text(std::string(model::word_for(run.kind))))
      .set("from", Node::text(run.from))
      .set("to", Node::text(run.to));
  node.set("way_mm", Node::integer(run.way)).set("length_mm", Node::integer(run.length));
  node.set("cut_to_length", Node::boolean(run.cut_to_length)).set("leading_end", Node::text(run.leading_end));
  node.set("steps", std::move(steps)).set("path", std::move(path));
  return node;
}

namespace {

Node pull_order(const model::Plan& plan) {
  Node list = Node::list();
  for (const model::PullOrder& order : plan.pull_order)
    list.push(Node::map()
                  .set("first", Node::text(order.first))
                  .set("then", Node::text(order.then))
                  .set("because", Node::text(order.because)));
  return list;
}

Node openings(const model::Plan& plan) {
  Node list = Node::list();
  for (const model::OpeningUse& use : plan.openings) {
    Node node = Node::map();
    node.set("opening", Node::text(use.opening))
        .set("letter", Node::text(use.letter))
        .set("label", Node::text(use.label));
    node.set("width", value_node(use.shape.width))
        .set("length", value_node(use.shape.length))
        .set("round", Node::boolean(use.shape.round()));
    node.set("lines", text_list(use.lines))
        .set("device", Node::text(use.device))
        .set("fill_permille", Node::integer(use.fill_permille));
    node.set("at", point(use.at));
    list.push(std::move(node));
  }
  return list;
}

Node choices(const model::Plan& plan) {
  Node list = Node::list();
  for (const model::OpenChoice& choice : plan.choices)
    list.push(Node::map()
                  .set("place", Node::text(choice.place))
                  .set("label", Node::text(choice.label))
                  .set("before_mark", Node::text(choice.before_mark))
                  .set("before_label", Node::text(choice.before_label)));
  return list;
}

Node unchecked(const model::Plan& plan) {
  Node list = Node::list();
  for (const model::UncheckedPlace& place : plan.unchecked)
    list.push(Node::map()
                  .set("place", Node::text(place.place))
                  .set("label", Node::text(place.label))
                  .set("part_label", Node::text(place.part_label))
                  .set("reason", Node::text(place.reason)));
  return list;
}

}  // namespace

Node cut_node(const model::Cut& cut) {
  return Node::map()
      .set("id", Node::text(cut.id))
      .set("label", Node::text(cut.label))
      .set("length", cut.settled ? range_node(cut.length, quantity::Dimension::length) : Node::null())
      .set("settled", Node::boolean(cut.settled))
      .set("finding", Node::text(cut.finding))
      .set("source", Node::text(cut.source));
}

Node work_step_node(const model::WorkStep& step) {
  Node node = Node::map();
  node.set("mark", Node::text(step.mark))
      .set("operation", Node::text(step.operation))
      .set("label", Node::text(step.label));
  node.set("phase", Node::text(step.phase))
      .set("after", text_list(step.after))
      .set("opens", text_list(step.opens))
      .set("closes", text_list(step.closes));
  node.set("tools", text_list(step.tools))
      .set("position", Node::text(step.position))
      .set("hundredths_of_minute", Node::integer(step.minutes));
  node.set("reversible", Node::text(std::string(model::word_for(step.reversible))))
      .set("hold_point", Node::boolean(step.hold_point));
  node.set("evidence", Node::text(step.evidence))
      .set("check", Node::text(step.check))
      .set("caution", Node::text(step.caution));
  return node;
}

Node plan_node(const model::Plan& plan) {
  Node findings = Node::list();
  for (const model::Finding& finding : plan.findings) findings.push(finding_node(finding));
  Node node = Node::map();
  node.set("cotter", Node::text("plan 1")).set("program", Node::text(plan.program_version));
  node.set("job_hash", Node::text(plan.job_hash)).set("catalog_hash", Node::text(plan.catalog_hash));
  node.set("job", Node::text(plan.job)).set("title", Node::text(plan.title)).set("note", Node::text(plan.note));
  node.set("revision", Node::text(plan.revision)).set("bicycle", Node::text(plan.bicycle_label));
  node.set("left_hand", Node::text(plan.left_is_front ? "front" : "rear"));
  node.set("hands_by", plan.hands_by ? Node::text(*plan.hands_by) : Node::null());
  node.set("shop", Node::text(plan.shop)).set("country", Node::text(plan.country));
  node.set("findings", std::move(findings))
      .set("parts", list_of(plan.bill, bill_row_node))
      .set("lines", list_of(plan.runs, run_node))
      .set("pull_order", pull_order(plan));
  node.set("openings", openings(plan))
      .set("cuts", list_of(plan.cuts, cut_node))
      .set("work", list_of(plan.work, work_step_node))
      .set("choices", choices(plan));
  node.set("hundredths_of_minute", Node::integer(plan.minutes));
  node.set("measure_next", measure_next_node(plan)).set("unchecked", unchecked(plan));
  return node;
}

}  // namespace cotter::document
