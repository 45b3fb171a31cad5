#include "problem/sequence_problem.hpp"

#include "engine/sequence/solve.hpp"
#include "problem/names.hpp"
#include "quantity/ensure.hpp"

namespace cotter::problem {
namespace {

using document::Diagnostics;
using document::Field;
using document::Node;
using document::SchemaRef;
using engine::sequence::Problem;
using engine::sequence::Reason;
using engine::sequence::Result;
using engine::sequence::Reversible;
using engine::sequence::Status;
using Need = Field::Need;

constexpr std::size_t k_most_operations = 500;
constexpr std::size_t k_most_accesses = 200;
constexpr std::size_t k_most_names = 500;
constexpr std::int64_t k_most_hundredths = 1'000'000'000;
constexpr std::int64_t k_most_nodes = 10'000'000;

SchemaRef names() {
  return document::list_schema(document::identifier_schema(), 0, k_most_names);
}

SchemaRef access_schema() {
  return document::object_schema(
      "access", {{"id", document::identifier_schema(), Need::required, "Name of the access, once in the problem."},
                 {"open_at_start", document::boolean_schema(), Need::optional, "True when left out."}});
}

SchemaRef operation_schema() {
  const SchemaRef group = document::list_schema(document::identifier_schema(), 1, k_most_names);
  const SchemaRef label = document::text_schema(100);
  return document::object_schema(
      "operation",
      {{"id", document::identifier_schema(), Need::required, "Name of the operation, once in the problem."},
       {"after", names(), Need::optional, "Operations that must all be done earlier."},
       {"needs_open", document::list_schema(group, 0, k_most_names), Need::optional,
        "Groups of accesses; of each group one at least must be open at that moment."},
       {"closes", names(), Need::optional, "Accesses that are closed once it is done."},
       {"opens", names(), Need::optional, "Accesses that are open once it is done."},
       {"position", label, Need::optional, "How the bicycle stands; left out when any will do."},
       {"side", label, Need::optional, "Where the mechanic stands; left out when any will do."},
       {"tools", document::list_schema(label, 0, k_most_names), Need::optional, "Tools in hand."},
       {"hundredths_of_minute", document::integer_schema(0, k_most_hundredths), Need::optional,
        "Time it takes, in hundredths of a minute."},
       {"reversible", document::word_schema({"yes", "costly", "no"}), Need::optional,
        "Whether it can be undone; yes when left out."},
       {"checks", document::boolean_schema(), Need::optional, "True when it only looks or measures."}});
}

SchemaRef choice_schema() {
  return document::object_schema(
      "choice", {{"id", document::identifier_schema(), Need::required, "Name of what is still to be chosen."},
                 {"used_by", names(), Need::required, "Operations that cannot be done before the choice is made."}});
}

class Reader {
 public:
  Reader(const Node& node, Diagnostics& diagnostics)
      : node_(node),
        diagnostics_(diagnostics),
        operations_(ids_of(node, "operations", diagnostics)),
        accesses_(ids_of(node, "accesses", diagnostics)) {
    ids_of(node, "choices", diagnostics);
  }

  Problem read() {
    for (const Node& access : entries_of(node_, "accesses")) {
      problem_.accesses.push_back(
          {document::text_of(*access.find("id")), document::boolean_or(access, "open_at_start", true)});
    }
    const std::vector<Node>& operations = entries_of(node_, "operations");
    for (std::size_t i = 0; i < operations.size(); ++i) read_operation(operations[i], entry_field("operations", i));
    const std::vector<Node>& choices = entries_of(node_, "choices");
    for (std::size_t i = 0; i < choices.size(); ++i) {
      problem_.choices.push_back(
          {document::text_of(*choices[i].find("id")), operations_in(choices[i], "used_by", entry_field("choices", i))});
    }
    return std::move(problem_);
  }

 private:
  std::vector<std::string> operations_in(const Node& map, const std::string& list, const std::string& field) {
    return read_names(map, list, field, "operation", operations_, diagnostics_);
  }

  std::vector<std::string> accesses_in(const Node& map, const std::string& list, const std::string& field) {
    return read_names(map, list, field, "access", accesses_, diagnostics_);
  }

  void read_operation(const Node& node, const std::string& field) {
    engine::sequence::Operation operation;
    operation.id = document::text_of(*node.find("id"));
    operation.after = operations_in(node, "after", field);
    const std::vector<Node>& groups = entries_of(node, "needs_open");
    for (std::size_t i = 0; i < groups.size(); ++i) {
      operation.needs_open.push_back(read_group(groups[i], field + "." + entry_field("needs_open", i)));
    }
    operation.closes = accesses_in(node, "closes", field);
    operation.opens = accesses_in(node, "opens", field);
    operation.position = document::text_or(node, "position");
    operation.side = document::text_or(node, "side");
    for (const Node& tool : entries_of(node, "tools")) operation.tools.push_back(document::text_of(tool));
    operation.hundredths_of_minute = document::integer_or(node, "hundredths_of_minute", 0);
    const std::string reversible = document::text_or(node, "reversible", "yes");
    operation.reversible = reversible == "no"       ? Reversible::no
                           : reversible == "costly" ? Reversible::costly
                                                    : Reversible::yes;
    operation.checks = document::boolean_or(node, "checks", false);
    problem_.operations.push_back(std::move(operation));
  }

  std::vector<std::string> read_group(const Node& list, const std::string& field) {
    std::vector<std::string> group;
    for (std::size_t i = 0; i < list.items().size(); ++i) {
      group.push_back(list.items()[i].scalar());
      check_name(group.back(), list.items()[i].mark(), entry_field(field, i), "access", accesses_, diagnostics_);
    }
    return group;
  }

  const Node& node_;
  Diagnostics& diagnostics_;
  std::vector<std::string> operations_, accesses_;
  Problem problem_;
};

std::string word_for(Status status) {
  switch (status) {
    case Status::ordered:
      return "ordered";
    case Status::impossible:
      return "impossible";
    case Status::unfinished:
      return "unfinished";
    case Status::bad:
      break;
  }
  return "bad";
}

std::string word_for(Reason::Kind kind) {
  switch (kind) {
    case Reason::Kind::after:
      return "after";
    case Reason::Kind::needs_before_close:
      return "needs_before_close";
    case Reason::Kind::opens_before_need:
      return "opens_before_need";
    case Reason::Kind::needs_one_of:
      break;
  }
  return "needs_one_of";
}

class Writer {
 public:
  Writer(const Problem& problem, const Result& result) : problem_(problem), result_(result) {}

  Node write() const {
    Node node = Node::map();
    node.set("engine", Node::text("sequence"));
    node.set("status", Node::text(word_for(result_.status)));
    if (result_.status == Status::ordered) write_order(node);
    if (result_.status == Status::impossible) {
      node.set("circle", reasons(result_.circle));
      node.set("conflict", reasons(result_.conflict));
      node.set("conflict_is_least", Node::boolean(result_.conflict_is_least));
    }
    node.set("precedence_complete", Node::boolean(result_.precedence_complete));
    node.set("nodes", Node::integer(result_.nodes));
    return node;
  }

 private:
  Node operation(std::size_t index) const { return Node::text(problem_.operations[index].id); }

  void write_order(Node& node) const {
    Node order = Node::list();
    for (const std::size_t index : result_.order) order.push(operation(index));
    node.set("order", std::move(order));
    node.set("position_changes", Node::integer(result_.position_changes));
    node.set("least_position_changes", Node::integer(result_.least_position_changes));
    node.set("side_changes", Node::integer(result_.side_changes));
    node.set("tool_changes", Node::integer(result_.tool_changes));
    node.set("hundredths_of_minute", Node::integer(result_.hundredths_of_minute));
    Node choices = Node::list();
    for (const auto& decide_by : result_.decide_by) {
      Node choice = Node::map();
      choice.set("choice", Node::text(problem_.choices[decide_by.choice].id));
      choice.set("before", operation(decide_by.operation));
      choice.set("step", Node::integer(static_cast<long long>(decide_by.place) + 1));
      choices.push(std::move(choice));
    }
    node.set("decide_by", std::move(choices));
  }

  Node reasons(const std::vector<Reason>& reasons) const {
    Node list = Node::list();
    for (const Reason& reason : reasons) {
      Node node = Node::map();
      node.set("why", Node::text(word_for(reason.kind)));
      if (reason.kind != Reason::Kind::needs_one_of) node.set("earlier", operation(reason.earlier));
      node.set("later", operation(reason.later));
      Node accesses = Node::list();
      for (const std::size_t access : reason.accesses) accesses.push(Node::text(problem_.accesses[access].id));
      if (!reason.accesses.empty()) node.set("accesses", std::move(accesses));
      list.push(std::move(node));
    }
    return list;
  }

  const Problem& problem_;
  const Result& result_;
};

}  // namespace

SchemaRef sequence_schema() {
  return document::object_schema(
      "sequence problem",
      {{"cotter", document::word_schema({"sequence_problem 1"}), Need::required, "Format and version."},
       {"accesses", document::list_schema(access_schema(), 0, k_most_accesses), Need::optional,
        "Openings that the work needs open for a while."},
       {"operations", document::list_schema(operation_schema(), 0, k_most_operations), Need::required,
        "The steps of the work."},
       {"choices", document::list_schema(choice_schema(), 0, k_most_operations), Need::optional,
        "What is still to be chosen."},
       {"source", document::text_schema(), Need::optional, "Where the problem comes from; handed through."},
       {"node_limit", document::integer_schema(1, k_most_nodes), Need::optional,
        "Most states the search may look at."}});
}

document::Read<Problem> read_sequence(const Node& problem, const std::string& file) {
  Diagnostics diagnostics(file);
  document::check(problem, *sequence_schema(), diagnostics);
  if (!diagnostics.empty()) return tl::unexpected(diagnostics);
  Problem read = Reader(problem, diagnostics).read();
  if (!diagnostics.empty()) return tl::unexpected(diagnostics);
  return read;
}

document::Read<Node> solve_sequence(const Node& problem, const std::string& file) {
  const auto read = read_sequence(problem, file);
  if (!read) return tl::unexpected(read.error());
  engine::sequence::Options options;
  options.node_limit = document::integer_or(problem, "node_limit", options.node_limit);
  const Result result = engine::sequence::solve(*read, options);
  quantity::ensure(result.status != Status::bad, "a sequence problem passed its reader with faults");
  Node written = Writer(*read, result).write();
  if (const Node* source = problem.find("source")) written.set("source", *source);
  return written;
}

}  // namespace cotter::problem
