// A stack problem from its document, and the shape of that document.
#include <algorithm>

#include "problem/names.hpp"
#include "problem/stack_problem.hpp"
#include "quantity/value.hpp"

namespace cotter::problem {
namespace {

using document::Diagnostics;
using document::Field;
using document::Node;
using document::SchemaRef;
using engine::stack::Interval;
using engine::stack::Length;
using engine::stack::Problem;
using quantity::Dimension;
using Need = Field::Need;

constexpr std::int64_t k_most_count = 1'000;
constexpr std::int64_t k_most_sets = 1'000;
constexpr std::int64_t k_most_nodes = 100'000'000;

SchemaRef length() {
  return document::value_schema(Dimension::length);
}

SchemaRef term_schema() {
  return document::object_schema(
      "term", {{"id", document::identifier_schema(), Need::required, "Name of the length, once in the problem."},
               {"value", length(), Need::optional, "The length as it is known."},
               {"from", length(), Need::optional, "Least possible length, when it is not known."},
               {"to", length(), Need::optional, "Greatest possible length, when it is not known."}});
}

SchemaRef piece_schema() {
  return document::object_schema(
      "piece", {{"id", document::identifier_schema(), Need::required, "Name of the kind of piece."},
                {"thickness", length(), Need::required, "Its thickness, without deviations."},
                {"count", document::integer_schema(0, k_most_count), Need::required, "How many are at hand."}});
}

SchemaRef slot_schema() {
  return document::object_schema(
      "slot", {{"id", document::identifier_schema(), Need::required, "Name of the place that takes pieces."},
               {"most_pieces", document::integer_schema(0, engine::stack::k_most_pieces), Need::required,
                "Most pieces it takes."},
               {"allowed", document::list_schema(document::identifier_schema(), 0, engine::stack::k_most_kinds),
                Need::optional, "Pieces that may go here; any when left out."}});
}

SchemaRef window_schema() {
  return document::object_schema("window", {{"from", length(), Need::optional, "Least length."},
                                            {"to", length(), Need::optional, "Greatest length."}});
}

SchemaRef form_schema() {
  const SchemaRef factors =
      document::map_schema(document::integer_schema(-engine::stack::k_most_factor, engine::stack::k_most_factor),
                           engine::stack::k_most_terms);
  return document::object_schema(
      "form", {{"id", document::identifier_schema(), Need::required, "Name of the form, once in the problem."},
               {"coefficients", factors, Need::optional, "Term: how often it is added; negative, taken off."},
               {"slot_coefficients", factors, Need::optional, "Slot: how often its pieces are added."},
               {"half", document::boolean_schema(), Need::optional, "True when the sum is halved."},
               {"window", window_schema(), Need::optional, "Where the form must lie."},
               {"wish", window_schema(), Need::optional, "Where common practice puts it."},
               {"target", length(), Need::optional, "The nearer, the better."},
               {"source", document::text_schema(), Need::optional, "Where the window comes from; handed through."}});
}

class Reader {
 public:
  Reader(const Node& node, Diagnostics& diagnostics)
      : node_(node),
        diagnostics_(diagnostics),
        terms_(ids_of(node, "terms", diagnostics)),
        kit_(ids_of(node, "kit", diagnostics)),
        slots_(ids_of(node, "slots", diagnostics)) {
    ids_of(node, "forms", diagnostics);
  }

  Problem read() {
    each("terms", &Reader::read_term);
    each("kit", &Reader::read_piece);
    each("slots", &Reader::read_slot);
    each("forms", &Reader::read_form);
    return std::move(problem_);
  }

 private:
  void each(const std::string& list, void (Reader::*read_entry)(const Node&, const std::string&)) {
    const std::vector<Node>& entries = entries_of(node_, list);
    for (std::size_t i = 0; i < entries.size(); ++i) (this->*read_entry)(entries[i], entry_field(list, i));
  }

  void complain(std::string code, const Node& node, const std::string& field, std::string message,
                std::string accepted) {
    diagnostics_.add({std::move(code), "", node.mark(), field, std::move(message),
                      node.is_scalar() ? node.scalar() : "", std::move(accepted), ""});
  }

  /// A length of the map that must be known, with its limits.
  std::optional<Interval<Length>> limits(const Node& map, std::string_view key, const std::string& field) {
    const Node& node = *map.find(key);
    const quantity::Value value = document::value_of(node, Dimension::length);
    const std::string place = field + "." + std::string(key);
    if (!value.range_known) {
      complain("unknown_range", node, place, "This length must be known.", "a length, for example 2.5 mm");
      return std::nullopt;
    }
    const Interval<Length> interval = quantity::length_interval(value);
    if (-engine::stack::k_most_length <= interval.low() && interval.high() <= engine::stack::k_most_length) {
      return interval;
    }
    complain("out_of_range", node, place, "The length is out of its range.", "up to 1 km either way");
    return std::nullopt;
  }

  /// A length of the map that must have no deviations.
  std::optional<Length> exact(const Node& map, std::string_view key, const std::string& field) {
    const auto interval = limits(map, key, field);
    if (!interval) return std::nullopt;
    if (interval->width() == Length{}) return interval->low();
    complain("bad_value", *map.find(key), field + "." + std::string(key), "This length takes no deviations.",
             "the length alone, for example 2.5 mm");
    return std::nullopt;
  }

  void read_term(const Node& node, const std::string& field) {
    engine::stack::Term term;
    term.id = document::text_of(*node.find("id"));
    const bool has_value = node.find("value") != nullptr;
    const bool has_ends = node.find("from") != nullptr && node.find("to") != nullptr;
    const bool has_an_end = node.find("from") != nullptr || node.find("to") != nullptr;
    if (has_value && !has_an_end) {
      if (const auto interval = limits(node, "value", field)) {
        const quantity::Value value = document::value_of(*node.find("value"), Dimension::length);
        term.interval = *interval;
        term.nominal = quantity::nominal_length(value);
        term.attested = quantity::is_attested(value);
      }
    } else if (has_ends && !has_value) {
      read_possible(node, field, term);
    } else {
      complain("missing_field", node, field, "A term has a value, or the two ends of what is possible.",
               "`value`, or `from` and `to`");
    }
    problem_.terms.push_back(std::move(term));
  }

  void read_possible(const Node& node, const std::string& field, engine::stack::Term& term) {
    const auto from = limits(node, "from", field), to = limits(node, "to", field);
    term.known = false;
    term.attested = false;
    if (!from || !to) return;
    if (from->low() > to->high()) {
      complain("bad_range", node, field, "The ends of what is possible are swapped.", "`from` no greater than `to`");
      return;
    }
    term.interval = {from->low(), to->high()};
    term.nominal = term.interval.low() + Length::from_base(in_nanometres(term.interval.width()) / 2);
  }

  void read_piece(const Node& node, const std::string& field) {
    engine::stack::Piece piece;
    piece.id = document::text_of(*node.find("id"));
    piece.thickness = exact(node, "thickness", field).value_or(quantity::nanometres(1));
    piece.count = static_cast<int>(document::integer_of(*node.find("count")));
    if (piece.thickness <= Length{}) {
      complain("out_of_range", *node.find("thickness"), field + ".thickness", "A piece has a thickness.",
               "more than 0 mm");
    }
    problem_.kit.push_back(std::move(piece));
  }

  void read_slot(const Node& node, const std::string& field) {
    engine::stack::Slot slot;
    slot.id = document::text_of(*node.find("id"));
    slot.most_pieces = static_cast<int>(document::integer_of(*node.find("most_pieces")));
    slot.allowed = read_names(node, "allowed", field, "piece", kit_, diagnostics_);
    pieces_ += slot.most_pieces;
    if (pieces_ > engine::stack::k_most_pieces) {
      complain("out_of_range", *node.find("most_pieces"), field + ".most_pieces",
               "The slots together take too many pieces.",
               "at most " + std::to_string(engine::stack::k_most_pieces) + " in all slots together");
    }
    problem_.slots.push_back(std::move(slot));
  }

  std::optional<Interval<Length>> window(const Node& form, const std::string& key, const std::string& field) {
    const Node* node = form.find(key);
    if (node == nullptr) return std::nullopt;
    const std::string place = field + "." + key;
    std::optional<Length> low = engine::stack::k_no_low, high = engine::stack::k_no_high;
    if (node->find("from") != nullptr) low = exact(*node, "from", place);
    if (node->find("to") != nullptr) high = exact(*node, "to", place);
    if (!low || !high) return std::nullopt;
    if (*low <= *high) return Interval<Length>(*low, *high);
    complain("bad_range", *node, place, "The ends of the window are swapped.", "`from` no greater than `to`");
    return std::nullopt;
  }

  std::map<std::string, std::int64_t> factors(const Node& form, const std::string& key, const std::string& field,
                                              std::string_view noun, const std::vector<std::string>& known) {
    std::map<std::string, std::int64_t> factors;
    const Node* node = form.find(key);
    if (node == nullptr) return factors;
    for (const Node::Entry& entry : node->entries()) {
      check_name(entry.key, entry.key_mark, field + "." + key + "." + entry.key, noun, known, diagnostics_);
      factors[entry.key] = document::integer_of(entry.value);
    }
    return factors;
  }

  void read_form(const Node& node, const std::string& field) {
    engine::stack::Form form;
    form.id = document::text_of(*node.find("id"));
    form.coefficients = factors(node, "coefficients", field, "term", terms_);
    form.slot_coefficients = factors(node, "slot_coefficients", field, "slot", slots_);
    form.half = document::boolean_or(node, "half", false);
    form.window = window(node, "window", field);
    form.wish = window(node, "wish", field);
    if (node.find("target") != nullptr) form.target = exact(node, "target", field);
    form.source = document::text_or(node, "source");
    problem_.forms.push_back(std::move(form));
  }

  const Node& node_;
  Diagnostics& diagnostics_;
  std::vector<std::string> terms_, kit_, slots_;
  int pieces_ = 0;
  Problem problem_;
};

}  // namespace

SchemaRef stack_schema() {
  return document::object_schema(
      "stack problem", {{"cotter", document::word_schema({"stack_problem 1"}), Need::required, "Format and version."},
                        {"terms", document::list_schema(term_schema(), 0, engine::stack::k_most_terms), Need::optional,
                         "The lengths of the stack."},
                        {"kit", document::list_schema(piece_schema(), 0, engine::stack::k_most_kinds), Need::optional,
                         "Spacers, shims and rings at hand."},
                        {"slots", document::list_schema(slot_schema(), 0, engine::stack::k_most_slots), Need::optional,
                         "Places that take pieces."},
                        {"forms", document::list_schema(form_schema(), 0, engine::stack::k_most_forms), Need::required,
                         "Sums of lengths, each with its window."},
                        {"node_limit", document::integer_schema(1, k_most_nodes), Need::optional,
                         "Most partial sets the search may look at."},
                        {"most_sets", document::integer_schema(1, k_most_sets), Need::optional,
                         "Most sets in the result, the best ones; 10 when left out. The others are counted."}});
}

document::Read<Problem> read_stack(const Node& problem, const std::string& file) {
  Diagnostics diagnostics(file);
  document::check(problem, *stack_schema(), diagnostics);
  if (!diagnostics.empty()) return tl::unexpected(diagnostics);
  Problem read = Reader(problem, diagnostics).read();
  if (!diagnostics.empty()) return tl::unexpected(diagnostics);
  return read;
}

}  // namespace cotter::problem
