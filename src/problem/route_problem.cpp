#include "problem/route_problem.hpp"

#include "engine/route/solve.hpp"
#include "quantity/text.hpp"

namespace cotter::problem {

namespace {

using document::Node;
using engine::route::Problem;
using engine::route::Result;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

template <class List>
Node numbers(const List& list) {
  Node node = Node::list();
  for (const auto& number : list) node.push(Node::integer(number));
  return node;
}

Node whole(const std::optional<std::int64_t>& number) {
  return number ? Node::integer(*number) : Node::null();
}

Node millimetres(quantity::Length length) {
  return Node::number(quantity::print_number(length.base(), quantity::Dimension::length));
}

class Writer {
 public:
  Writer(const Problem& problem, const Result& result, const std::string& source)
      : problem_(problem), result_(result), source_(source) {}

  Node write() const {
    Node node = Node::map();
    node.set("engine", Node::text("route"));
    node.set("instance", Node::text(problem_.name));
    node.set("status", Node::text(std::string(word_for(result_.status))));
    node.set("objective", whole(result_.objective));
    node.set("bound", whole(result_.bound));
    node.set("nodes", Node::integer(result_.nodes));
    if (result_.objective) write_plan(node);
    if (result_.conflict) node.set("conflict", conflict());
    node.set("undecided", undecided());
    if (result_.objective_if_undecided_fit)
      node.set("objective_if_undecided_fit", whole(result_.objective_if_undecided_fit));
    node.set("source", sources());
    return node;
  }

 private:
  Node line_name(int line) const { return Node::text(problem_.lines[index(line)].id); }
  Node aperture_name(int aperture) const { return Node::text(problem_.apertures[index(aperture)].id); }

  Node line_names(const std::vector<int>& lines) const {
    Node names = Node::list();
    for (const int line : lines) names.push(line_name(line));
    return names;
  }

  void write_plan(Node& node) const {
    node.set("relax_cost", Node::integer(0));
    node.set("seats", numbers(result_.seats));
    Node lines = Node::list();
    for (std::size_t k = 0; k < result_.runs.size(); ++k) lines.push(run(k));
    node.set("lines", std::move(lines));
    node.set("enlarge", numbers(result_.enlarge));
    node.set("shared_exclusive", Node::list());
    node.set("pull_order", numbers(result_.pull_order));
    Node pairs = Node::list();
    for (const auto& pair : result_.precedences) pairs.push(precedence(pair));
    node.set("precedences", std::move(pairs));
    Node entries = Node::list();
    for (const auto& one : result_.device_entries) entries.push(entry(one));
    node.set("device_entries", std::move(entries));
    Node fills = Node::list();
    for (const auto& one : result_.fills) fills.push(fill(one));
    node.set("fills", std::move(fills));
    node.set("cost", cost());
  }

  Node run(std::size_t k) const {
    const engine::route::Run& run = result_.runs[k];
    Node node = Node::map();
    node.set("name", Node::text(problem_.lines[k].id));
    node.set("path", numbers(run.path));
    node.set("length", Node::integer(run.length));
    node.set("way", Node::integer(run.way));
    node.set("segments", numbers(run.segments));
    node.set("leading_end", Node::integer(run.leading_end));
    node.set("dropped", Node::boolean(false));
    node.set("length_waived", Node::boolean(false));
    return node;
  }

  Node precedence(const engine::route::Precedence& pair) const {
    Node node = Node::map();
    node.set("before", Node::integer(pair.before));
    node.set("after", Node::integer(pair.after));
    node.set("aperture", Node::integer(pair.aperture));
    node.set("because", Node::text(std::string(word_for(pair.because))));
    node.set("before_name", line_name(pair.before));
    node.set("after_name", line_name(pair.after));
    node.set("aperture_name", aperture_name(pair.aperture));
    return node;
  }

  Node entry(const engine::route::DeviceEntry& entry) const {
    Node node = Node::map();
    node.set("device", Node::integer(entry.device));
    node.set("device_name", Node::text(problem_.devices[index(entry.device)].id));
    node.set("entries", numbers(entry.entries));
    node.set("after", numbers(entry.after));
    node.set("before", numbers(entry.before));
    return node;
  }

  Node fill(const engine::route::Fill& fill) const {
    Node node = Node::map();
    node.set("aperture", Node::integer(fill.aperture));
    node.set("aperture_name", aperture_name(fill.aperture));
    node.set("lines", numbers(fill.lines));
    node.set("area_permille", Node::integer(fill.area_permille));
    node.set("room_mm", millimetres(fill.room));
    return node;
  }

  Node cost() const {
    Node node = Node::map();
    node.set("ways", Node::integer(result_.cost.ways));
    node.set("apertures", Node::integer(result_.cost.apertures));
    node.set("turns", Node::integer(result_.cost.turns));
    node.set("enlargement", Node::integer(result_.cost.enlargement));
    node.set("seats", Node::integer(result_.cost.seats));
    return node;
  }

  Node reason(const engine::route::ConflictReason& reason) const {
    Node node = Node::map();
    node.set("line", Node::integer(reason.line));
    node.set("line_name", line_name(reason.line));
    node.set("why", Node::text(std::string(word_for(reason.why))));
    if (reason.aperture) {
      node.set("aperture", Node::integer(*reason.aperture));
      node.set("aperture_name", aperture_name(*reason.aperture));
    }
    if (reason.missing > quantity::Length{}) node.set("missing_mm", millimetres(reason.missing));
    return node;
  }

  Node conflict() const {
    Node node = Node::map();
    node.set("lines", numbers(result_.conflict->lines));
    node.set("names", line_names(result_.conflict->lines));
    node.set("irreducible", Node::boolean(result_.conflict->irreducible));
    Node reasons = Node::list();
    for (const auto& one : result_.conflict->reasons) reasons.push(reason(one));
    node.set("reasons", std::move(reasons));
    return node;
  }

  Node undecided() const {
    Node list = Node::list();
    for (const auto& one : result_.undecided) {
      Node node = Node::map();
      node.set("aperture", Node::integer(one.aperture));
      node.set("aperture_name", aperture_name(one.aperture));
      node.set("lines", numbers(one.lines));
      list.push(std::move(node));
    }
    return list;
  }

  Node sources() const {
    Node list = Node::list();
    if (!source_.empty()) list.push(Node::text(source_));
    if (problem_.rules.packing == engine::route::Packing::exact) {
      list.push(
          Node::text("two circles: sum of the diameters; three: Descartes' circle theorem, and the circle "
                     "inscribed in an arbelos where the third is small"));
      list.push(Node::text("equal circles up to seven: best packings in a circle, Graham 1968 (from memory)"));
    } else {
      list.push(Node::text("shares of the area and the table of equal lines: as given in the problem"));
      if (problem_.rules.pull_permille > 500)
        list.push(
            Node::text("a pulling share above 500 permille is not proven: two equal circles at that share may "
                       "not fit"));
    }
    list.push(
        Node::text("half of the area always fits: Fekete, Keldenich and Scheffer, Packing Disks into Disks with "
                   "Optimal Worst-Case Density, SoCG 2019 (from memory)"));
    list.push(Node::text("lengths of ways: straight distances from mark to mark, good to about 20 mm"));
    return list;
  }

  const Problem& problem_;
  const Result& result_;
  const std::string& source_;
};

}  // namespace

Node write_route(const Problem& problem, const Result& result, const std::string& source) {
  return Writer(problem, result, source).write();
}

document::Read<Node> solve_route(const Node& problem, const std::string& file) {
  auto read = read_route(problem, file);
  if (!read) return tl::unexpected(std::move(read.error()));
  engine::route::Options options;
  options.node_limit = document::integer_or(problem, "node_limit", options.node_limit);
  const std::string source = document::text_or(problem, "source");
  if (document::boolean_or(problem, "relaxed", false)) return solve_route_relaxed(problem, *read, options, source);
  return write_route(*read, engine::route::solve(*read, options), source);
}

}  // namespace cotter::problem
