#include "problem/stack_problem.hpp"

#include <cmath>

#include "engine/stack/solve.hpp"
#include "problem/names.hpp"
#include "quantity/text.hpp"

namespace cotter::problem {
namespace {

using document::Node;
using engine::stack::Certainty;
using engine::stack::Edge;
using engine::stack::Form;
using engine::stack::FormState;
using engine::stack::Influence;
using engine::stack::Interval;
using engine::stack::Length;
using engine::stack::Problem;
using engine::stack::Result;
using engine::stack::Settles;
using engine::stack::SpacerSet;
using engine::stack::Status;

std::string word_for(Status status) {
  switch (status) {
    case Status::fits_without:
      return "fits_without";
    case Status::fits_with_spacers:
      return "fits_with_spacers";
    case Status::open:
      return "open";
    case Status::no_set:
      return "no_set";
    case Status::unfinished:
      return "unfinished";
    case Status::bad:
      break;
  }
  return "bad";
}

std::string word_for(Settles settles) {
  if (settles == Settles::sometimes) return "sometimes";
  return settles == Settles::always ? "always" : "never";
}

/// Text with unit under `key`, whole nanometres under `key_nm`.
void set_length(Node& node, const std::string& key, Length length) {
  node.set(key, Node::text(quantity::print_amount(length.base(), quantity::Dimension::length)));
  node.set(key + "_nm", Node::integer(length.base()));
}

/// An end that is not there is left out.
Node window_node(Interval<Length> window) {
  Node node = Node::map();
  if (window.low() != engine::stack::k_no_low) set_length(node, "from", window.low());
  if (window.high() != engine::stack::k_no_high) set_length(node, "to", window.high());
  return node;
}

Node root_sum_square_node(const engine::stack::RootSumSquare& spread) {
  constexpr double k_nanometres_in_millimetre = 1e6;
  Node node = Node::map();
  set_length(node, "nominal", quantity::nanometres(std::llround(spread.centre_nm)));
  set_length(node, "plus_minus", quantity::nanometres(std::llround(std::ceil(spread.plus_minus_nm))));
  node.set("plus_minus_mm", Node::real(spread.plus_minus_nm / k_nanometres_in_millimetre));
  return node;
}

class Writer {
 public:
  Writer(const Problem& problem, const Result& result) : problem_(problem), result_(result) {}

  Node write() const {
    Node node = Node::map();
    node.set("engine", Node::text("stack"));
    node.set("status", Node::text(word_for(result_.status)));
    node.set("complete", Node::boolean(result_.complete));
    node.set("nodes", Node::integer(result_.nodes));
    Node forms = Node::list();
    for (std::size_t i = 0; i < result_.forms.size(); ++i) forms.push(form_node(i));
    node.set("forms", std::move(forms));
    Node sets = Node::list();
    for (const SpacerSet& set : result_.sets) sets.push(set_node(set));
    node.set("sets", std::move(sets));
    node.set("sets_left_out", Node::integer(static_cast<long long>(result_.sets_left_out)));
    if (result_.nearest_miss) node.set("nearest_miss", miss_node());
    node.set("measure_first", measurements());
    return node;
  }

 private:
  Node form_name(std::size_t form) const { return Node::text(problem_.forms[form].id); }

  Node form_names(const std::vector<std::size_t>& forms) const {
    Node list = Node::list();
    for (const std::size_t form : forms) list.push(form_name(form));
    return list;
  }

  void set_state(Node& node, const FormState& state) const {
    set_length(node, "value", state.nominal);
    Node worst = Node::map();
    set_length(worst, "low", state.worst_case.range.low());
    set_length(worst, "high", state.worst_case.range.high());
    node.set("worst_case", std::move(worst));
    if (state.root_sum_square) node.set("rss", root_sum_square_node(*state.root_sum_square));
    if (state.probability) node.set("probability", Node::real(state.probability->inside));
    if (state.status) node.set("status", certainty_node(*state.status));
    if (state.margin) {
      Node margin = Node::map();
      set_length(margin, "room", state.margin->room);
      margin.set("edge", Node::text(state.margin->edge == Edge::low ? "from" : "to"));
      node.set("margin", std::move(margin));
    }
    if (state.wish) node.set("wish_status", certainty_node(*state.wish));
  }

  /// The form with the best set; when that is not empty, also as it is without pieces.
  Node form_node(std::size_t index) const {
    const Form& form = problem_.forms[index];
    const engine::stack::FormResult& result = result_.forms[index];
    const FormState& state = result.with_best ? *result.with_best : result.without;
    Node node = Node::map();
    node.set("id", Node::text(form.id));
    set_state(node, state);
    if (form.window) node.set("window", window_node(*form.window));
    if (form.wish) node.set("wish", window_node(*form.wish));
    node.set("influences", influences(state));
    std::vector<std::string> unattested;
    for (const std::size_t term : result.unattested) unattested.push_back(problem_.terms[term].id);
    node.set("unattested", text_list(unattested));
    if (!form.source.empty()) node.set("source", Node::text(form.source));
    if (result.with_best && !result_.sets.front().uses.empty()) {
      Node without = Node::map();
      set_state(without, result.without);
      node.set("without", std::move(without));
    }
    return node;
  }

  Node influences(const FormState& state) const {
    Node list = Node::list();
    for (const Influence& influence : state.influences) {
      Node node = Node::map();
      node.set("term", Node::text(problem_.terms[influence.term].id));
      node.set("share", Node::real(influence.share));
      if (state.status) {
        node.set("settles", Node::text(word_for(influence.settles)));
        node.set("settled_share", Node::real(influence.settled_share));
      }
      list.push(std::move(node));
    }
    return list;
  }

  Node uses(const std::vector<engine::stack::Use>& uses) const {
    Node list = Node::list();
    for (const engine::stack::Use& use : uses) {
      Node node = Node::map();
      node.set("slot", Node::text(problem_.slots[use.slot].id));
      node.set("piece", Node::text(problem_.kit[use.piece].id));
      node.set("count", Node::integer(use.count));
      list.push(std::move(node));
    }
    return list;
  }

  Node set_node(const SpacerSet& set) const {
    Node node = Node::map();
    node.set("status", certainty_node(set.status));
    node.set("pieces", Node::integer(set.pieces));
    node.set("uses", uses(set.uses));
    Node slots = Node::list();
    for (std::size_t i = 0; i < set.slot_lengths.size(); ++i) {
      Node slot = Node::map();
      slot.set("slot", Node::text(problem_.slots[i].id));
      set_length(slot, "length", set.slot_lengths[i]);
      slots.push(std::move(slot));
    }
    node.set("slots", std::move(slots));
    node.set("open_forms", form_names(set.open_forms));
    node.set("outside_wish", form_names(set.outside_wish));
    set_length(node, "off_target", set.off_target);
    if (!set.outlooks.empty()) node.set("forms", outlook_nodes(set.outlooks));
    return node;
  }

  Node outlook_nodes(const std::vector<engine::stack::Outlook>& outlooks) const {
    Node list = Node::list();
    for (std::size_t i = 0; i < outlooks.size(); ++i) {
      Node node = Node::map();
      node.set("id", form_name(i));
      Node worst = Node::map();
      set_length(worst, "low", outlooks[i].worst_case.range.low());
      set_length(worst, "high", outlooks[i].worst_case.range.high());
      node.set("worst_case", std::move(worst));
      if (outlooks[i].probability) node.set("probability", Node::real(outlooks[i].probability->inside));
      list.push(std::move(node));
    }
    return list;
  }

  Node miss_node() const {
    const engine::stack::NearestMiss& miss = *result_.nearest_miss;
    Node node = Node::map();
    node.set("form", form_name(miss.form));
    set_length(node, "off", miss.off);
    node.set("uses", uses(miss.uses));
    return node;
  }

  Node measurements() const {
    Node list = Node::list();
    for (const engine::stack::Measurement& measurement : result_.measure_first) {
      Node node = Node::map();
      node.set("term", Node::text(problem_.terms[measurement.term].id));
      node.set("settles", form_names(measurement.settles));
      node.set("may_settle", form_names(measurement.may_settle));
      node.set("settled_share", Node::real(measurement.settled_share));
      node.set("share", Node::real(measurement.share));
      list.push(std::move(node));
    }
    return list;
  }

  const Problem& problem_;
  const Result& result_;
};

}  // namespace

document::Read<Node> solve_stack(const Node& problem, const std::string& file) {
  const auto read = read_stack(problem, file);
  if (!read) return tl::unexpected(read.error());
  engine::stack::Options options;
  options.node_limit = document::integer_or(problem, "node_limit", options.node_limit);
  options.most_sets = static_cast<std::size_t>(
      document::integer_or(problem, "most_sets", static_cast<std::int64_t>(options.most_sets)));
  const Result result = engine::stack::solve(*read, options);
  quantity::ensure(result.status != Status::bad, "a stack problem passed its reader with faults");
  return Writer(*read, result).write();
}

}  // namespace cotter::problem
