#include "engine/fit/standards/limits.hpp"
#include "engine/fit/standards/threads.hpp"
#include "problem/fit_read.hpp"
#include "problem/fit_write.hpp"
#include "quantity/text.hpp"

namespace cotter::problem {
namespace {

using document::Diagnostics;
using document::Node;
using quantity::Length;

std::string in_mm(Length length) {
  return quantity::print_amount(length.base(), quantity::Dimension::length);
}

/// A number of micrometres, exact: half micrometres do occur.
Node in_um(Length length) {
  return Node::number(quantity::print_number(length.base() * 1'000, quantity::Dimension::length));
}

Node ends_node(const engine::fit::EndLimits& ends) {
  Node node = Node::map();
  if (ends.least) node.set("min", Node::text(in_mm(*ends.least))).set("min_nm", Node::integer(ends.least->base()));
  if (ends.greatest)
    node.set("max", Node::text(in_mm(*ends.greatest))).set("max_nm", Node::integer(ends.greatest->base()));
  return node;
}

std::optional<Node> thread_node(const Node& entry, const std::string& field, Diagnostics& diagnostics) {
  const auto name = engine::fit::parse_thread(document::text_of(*entry.find("thread")));
  const auto limits =
      name ? engine::fit::thread_limits(name->major, name->pitch.low(), document::text_or(entry, "class", "basic"))
           : tl::unexpected(name.error());
  if (!limits) {
    diagnostics.add(class_diagnostic(limits.error(), entry, field));
    return std::nullopt;
  }
  Node node = Node::map();
  node.set("id", *entry.find("id"));
  node.set("nominal", Node::text(in_mm(name->major)));
  node.set("pitch", Node::text(in_mm(name->pitch.low())));
  node.set("major", ends_node(limits->major));
  node.set("pitch_diameter", ends_node(limits->pitch_diameter));
  node.set("minor", ends_node(limits->minor));
  node.set("source", Node::text(limits->source));
  return node;
}

}  // namespace

std::optional<Node> fit_limits_node(const Node& entry, const std::string& field, Diagnostics& diagnostics) {
  const Node* nominal = entry.find("nominal");
  const Node* tolerance_class = entry.find("class");
  const Node* bearing = entry.find("bearing");
  const bool thread = entry.find("thread") && !nominal && !bearing;
  if (thread) return thread_node(entry, field, diagnostics);
  if (!nominal || (tolerance_class == nullptr) == (bearing == nullptr) || entry.find("thread")) {
    diagnostics.add({"mixed_limits", "", entry.mark(), field, "The entry does not say whose limits are wanted.", "",
                     "{nominal, class}, {nominal, bearing} or {thread, class}", ""});
    return std::nullopt;
  }
  const auto size = read_nominal(*nominal, field + ".nominal", diagnostics);
  if (!size) return std::nullopt;
  const auto limits = tolerance_class ? engine::fit::iso286_limits(*size, document::text_of(*tolerance_class))
                      : document::text_of(*bearing) == "outer" ? engine::fit::iso492_outer(*size)
                                                               : engine::fit::iso492_bore(*size);
  if (!limits) {
    diagnostics.add(class_diagnostic(limits.error(), entry, field));
    return std::nullopt;
  }
  const auto range = engine::fit::limits_of_size(*size, *limits);
  Node node = Node::map();
  node.set("id", *entry.find("id"));
  node.set("lower_um", in_um(limits->deviations.low()));
  node.set("upper_um", in_um(limits->deviations.high()));
  node.set("low", Node::text(in_mm(range.low())));
  node.set("high", Node::text(in_mm(range.high())));
  node.set("low_nm", Node::integer(range.low().base()));
  node.set("high_nm", Node::integer(range.high().base()));
  node.set("source", Node::text(limits->source));
  return node;
}

}  // namespace cotter::problem
