#include "problem/fit_problem.hpp"

#include <set>

#include "engine/fit/solve.hpp"
#include "problem/fit_press.hpp"
#include "problem/fit_read.hpp"
#include "problem/fit_write.hpp"

namespace cotter::problem {
namespace {

using document::Diagnostics;
using document::Field;
using document::Node;
using document::SchemaRef;
using Need = Field::Need;

constexpr std::int64_t k_most_whole = 1'000'000'000'000'000;
constexpr std::size_t k_most_entries = 2'000;
constexpr std::size_t k_most_presses = 200;

std::vector<std::string> law_words() {
  std::vector<std::string> words;
  for (const engine::fit::LawSpec& spec : engine::fit::all_laws()) words.emplace_back(spec.word);
  return words;
}

SchemaRef window_schema() {
  const SchemaRef end =
      document::either_schema({document::text_schema(), document::integer_schema(-k_most_whole, k_most_whole)});
  return document::object_schema(
      "window", {{"from", end, Need::optional, "Least amount."}, {"to", end, Need::optional, "Greatest amount."}});
}

SchemaRef check_schema() {
  const SchemaRef pair = document::list_schema(document::text_schema(200), 2, 2);
  return document::object_schema(
      "check",
      {{"id", document::identifier_schema(), Need::required, "Name of the check, once in the problem."},
       {"law", document::word_schema(law_words()), Need::required, "The law that is held against the operands."},
       {"is", document::word_schema({"length", "angle", "torque", "force", "mass", "pressure", "duration", "count"}),
        Need::optional, "Dimension of operands that may be anything."},
       {"operands", document::map_schema(fit_operand_schema(), 20), Need::optional, "Role of the law: its operand."},
       {"words", document::map_schema(pair, 20), Need::optional,
        "Role: word on the one side, word on the other; empty when not known."},
       {"must", window_schema(), Need::optional, "Where the law's number must lie."},
       {"should", window_schema(), Need::optional, "Where common practice puts it."},
       {"source", document::text_schema(), Need::optional, "Where the window comes from; handed through."}});
}

SchemaRef limits_schema() {
  return document::object_schema(
      "limits", {{"id", document::identifier_schema(), Need::required, "Name of the entry, once in the problem."},
                 {"nominal", document::value_schema(quantity::Dimension::length), Need::optional, "Nominal size."},
                 {"class", document::text_schema(20), Need::optional, "ISO 286 or ISO 965 class."},
                 {"bearing", document::word_schema({"outer", "bore"}), Need::optional, "Feature of a bearing."},
                 {"thread", document::text_schema(100), Need::optional, "Name of a thread."}});
}

/// Ids are names in the result, so each may stand once in its list.
void check_ids(const Node& problem, const std::string& list, Diagnostics& diagnostics) {
  const Node* entries = problem.find(list);
  if (!entries) return;
  std::set<std::string> seen;
  for (std::size_t i = 0; i < entries->items().size(); ++i) {
    const Node& id = *entries->items()[i].find("id");
    if (seen.insert(document::text_of(id)).second) continue;
    diagnostics.add({"double_id", "", id.mark(), list + "[" + std::to_string(i) + "].id",
                     "This id stands in the list already.", document::text_of(id), "each id once", ""});
  }
}

Node solve_checks(const Node& list, Diagnostics& diagnostics) {
  Node solved = Node::list();
  for (std::size_t i = 0; i < list.items().size(); ++i) {
    const Node& node = list.items()[i];
    const auto check = read_fit_check(node, "checks[" + std::to_string(i) + "]", diagnostics);
    if (check) solved.push(fit_result_node(*check, engine::fit::judge(*check), document::text_or(node, "source")));
  }
  return solved;
}

Node solve_limits(const Node& list, Diagnostics& diagnostics) {
  Node solved = Node::list();
  for (std::size_t i = 0; i < list.items().size(); ++i)
    if (auto limits = fit_limits_node(list.items()[i], "limits[" + std::to_string(i) + "]", diagnostics))
      solved.push(std::move(*limits));
  return solved;
}

Node solve_presses(const Node& list, Diagnostics& diagnostics) {
  Node solved = Node::list();
  for (std::size_t i = 0; i < list.items().size(); ++i) {
    const Node& node = list.items()[i];
    const auto fit = read_fit_press(node, "press[" + std::to_string(i) + "]", diagnostics);
    if (fit) solved.push(fit_press_node(*fit, engine::fit::press(*fit), document::text_or(node, "source")));
  }
  return solved;
}

}  // namespace

SchemaRef fit_schema() {
  return document::object_schema(
      "fit problem",
      {{"cotter", document::word_schema({"fit_problem 1"}), Need::required, "Format and version."},
       {"checks", document::list_schema(check_schema(), 0, k_most_entries), Need::optional, "Checks to judge."},
       {"limits", document::list_schema(limits_schema(), 0, k_most_entries), Need::optional,
        "ISO classes whose limits are wanted."},
       {"press", document::list_schema(fit_press_schema(), 0, k_most_presses), Need::optional,
        "Press fits to compute."}});
}

document::Read<Node> solve_fit(const Node& problem, const std::string& file) {
  Diagnostics diagnostics(file);
  document::check(problem, *fit_schema(), diagnostics);
  if (!diagnostics.empty()) return tl::unexpected(diagnostics);
  check_ids(problem, "checks", diagnostics);
  check_ids(problem, "limits", diagnostics);
  check_ids(problem, "press", diagnostics);
  Node result = Node::map();
  result.set("engine", Node::text("fit"));
  if (const Node* checks = problem.find("checks")) result.set("checks", solve_checks(*checks, diagnostics));
  if (const Node* limits = problem.find("limits")) result.set("limits", solve_limits(*limits, diagnostics));
  if (const Node* presses = problem.find("press")) result.set("press", solve_presses(*presses, diagnostics));
  if (!diagnostics.empty()) return tl::unexpected(diagnostics);
  return result;
}

}  // namespace cotter::problem
