#include "problem/fit_read.hpp"

#include <fmt/format.h>

#include "engine/fit/solve.hpp"
#include "problem/fit_operand.hpp"
#include "quantity/text.hpp"

namespace cotter::problem {
namespace {

using document::Diagnostics;
using document::Node;
using engine::fit::Check;
using engine::fit::Fault;
using engine::fit::LawSpec;
using quantity::Dimension;

std::string message_of(const Fault& fault, std::string_view law) {
  switch (fault.kind) {
    case Fault::Kind::missing_role:
      return fmt::format("The law `{}` needs an operand `{}`.", law, fault.name);
    case Fault::Kind::unknown_role:
      return fmt::format("The law `{}` has no operand `{}`.", law, fault.name);
    case Fault::Kind::double_role:
      return fmt::format("The operand `{}` is given twice.", fault.name);
    case Fault::Kind::wrong_dimension:
      return fmt::format("The operand `{}` has another dimension.", fault.name);
    case Fault::Kind::missing_word:
      return fmt::format("The law `{}` compares the words `{}`, which are not given.", law, fault.name);
    case Fault::Kind::unknown_word:
      return fmt::format("The law `{}` does not compare the words `{}`.", law, fault.name);
    case Fault::Kind::missing_parameter:
      return fmt::format("The law `{}` needs the number `{}`.", law, fault.name);
    case Fault::Kind::bad_parameter:
      return fmt::format("The number `{}` is not one the law `{}` can use.", fault.name, law);
    case Fault::Kind::window_without_number:
      return fmt::format("The law `{}` yields no number that could lie in `{}`.", law, fault.name);
    case Fault::Kind::window_swapped:
      return fmt::format("The window `{}` ends before it begins.", fault.name);
    case Fault::Kind::out_of_bounds:
      return fmt::format("`{}` is too large.", fault.name);
  }
  return {};
}

std::string code_of(Fault::Kind kind) {
  switch (kind) {
    case Fault::Kind::missing_role:
      return "missing_role";
    case Fault::Kind::unknown_role:
      return "unknown_role";
    case Fault::Kind::double_role:
      return "double_role";
    case Fault::Kind::wrong_dimension:
      return "wrong_dimension";
    case Fault::Kind::missing_word:
    case Fault::Kind::unknown_word:
      return "wrong_words";
    case Fault::Kind::missing_parameter:
    case Fault::Kind::bad_parameter:
      return "wrong_parameter";
    case Fault::Kind::window_without_number:
    case Fault::Kind::window_swapped:
      return "wrong_window";
    case Fault::Kind::out_of_bounds:
      return "out_of_bounds";
  }
  return {};
}

class CheckReader {
 public:
  CheckReader(const Node& node, const std::string& field, Diagnostics& diagnostics)
      : node_(node),
        field_(field),
        diagnostics_(diagnostics),
        trouble_(diagnostics.file()),
        spec_(engine::fit::law_spec(*engine::fit::law_from_word(document::text_of(*node.find("law"))))) {}

  std::optional<Check> read() {
    check_.id = document::text_of(*node_.find("id"));
    check_.law = spec_.law;
    common_ = common_dimension();
    read_operands();
    read_words();
    read_window("must", check_.must);
    read_window("should", check_.should);
    if (trouble_.empty()) read_faults();
    diagnostics_.append(trouble_);
    if (!trouble_.empty()) return std::nullopt;
    return check_;
  }

 private:
  /// Of the roles that take any: what the check says, else what the first one is written in.
  Dimension common_dimension() const {
    const std::string word = document::text_or(node_, "is");
    for (const Dimension dimension : {Dimension::angle, Dimension::torque, Dimension::force, Dimension::mass,
                                      Dimension::pressure, Dimension::duration, Dimension::count})
      if (word == quantity::word_for(dimension)) return dimension;
    const Node* operands = node_.find("operands");
    if (word.empty() && operands)
      for (const auto& role : spec_.roles)
        if (const Node* operand = operands->find(role.name); operand && !role.dimension)
          if (const auto found = dimension_of(*operand)) return *found;
    return Dimension::length;
  }

  Dimension dimension_of_role(const std::string& role) const {
    if (!spec_.parameter.empty() && role == spec_.parameter) return Dimension::count;
    const auto index = engine::fit::role_index(spec_, role);
    return index ? spec_.roles[*index].dimension.value_or(common_) : common_;
  }

  void read_operands() {
    const Node* operands = node_.find("operands");
    if (!operands) return;
    for (const Node::Entry& entry : operands->entries()) {
      const bool known = engine::fit::role_index(spec_, entry.key) || entry.key == spec_.parameter;
      if (!known) {
        check_.operands.emplace_back().role = entry.key;
        continue;
      }
      const auto operand = read_operand(entry.value, entry.key, dimension_of_role(entry.key),
                                        field_ + ".operands." + entry.key, trouble_);
      if (operand) check_.operands.push_back(*operand);
    }
  }

  void read_words() {
    const Node* words = node_.find("words");
    if (!words) return;
    for (const Node::Entry& entry : words->entries())
      check_.words[entry.key] = {document::text_of(entry.value.items()[0]), document::text_of(entry.value.items()[1])};
  }

  void read_window(const std::string& name, engine::fit::Window& window) {
    const Node* node = node_.find(name);
    if (!node || spec_.number.empty()) {
      if (node) window.low = quantity::Mixed::from_base(0);
      return;
    }
    read_end(*node, "from", field_ + "." + name, window.low);
    read_end(*node, "to", field_ + "." + name, window.high);
  }

  void read_end(const Node& window, const std::string& name, const std::string& field,
                std::optional<quantity::Mixed>& end) {
    const Node* node = window.find(name);
    if (!node) return;
    Diagnostics trouble(trouble_.file());
    document::check(*node, *document::value_schema(number_dimension()), trouble, field + "." + name);
    trouble_.append(trouble);
    if (!trouble.empty()) return;
    const quantity::Value value = document::value_of(*node, number_dimension());
    if (value.range_known && value.lower == 0 && value.upper == 0) {
      end = quantity::Mixed::from_base(value.nominal);
      return;
    }
    trouble_.add({"wrong_window", "", node->mark(), field + "." + name, "An end of a window is one exact amount.",
                  value.text, "an amount without deviations", ""});
  }

  Dimension number_dimension() const {
    for (std::size_t role = 0; role < spec_.roles.size(); ++role)
      if (spec_.number.front().factors[role] != 0) return spec_.roles[role].dimension.value_or(common_);
    return Dimension::length;
  }

  void read_faults() {
    std::vector<std::string> accepted;
    for (const auto& role : spec_.roles) accepted.emplace_back(role.name);
    for (const Fault& fault : engine::fit::faults(check_)) {
      const bool unknown = fault.kind == Fault::Kind::unknown_role;
      const std::string field = unknown ? field_ + ".operands." + fault.name : field_;
      const std::string suggestion = unknown ? quantity::nearest_word(fault.name, accepted).value_or("") : "";
      trouble_.add({code_of(fault.kind), "", mark_of(fault.name), field, message_of(fault, spec_.word),
                    unknown ? fault.name : "", fault.accepted, suggestion});
    }
  }

  /// Where the operand, the words or the window of this name stand; else the check.
  document::Mark mark_of(const std::string& name) const {
    const Node* operands = node_.find("operands");
    const Node* words = node_.find("words");
    for (const Node* map : {operands, words, &node_})
      if (map)
        for (const Node::Entry& entry : map->entries())
          if (entry.key == name) return entry.key_mark;
    return node_.mark();
  }

  const Node& node_;
  const std::string& field_;
  Diagnostics& diagnostics_;
  Diagnostics trouble_;
  const LawSpec& spec_;
  Dimension common_ = Dimension::length;
  Check check_;
};

}  // namespace

std::optional<Check> read_fit_check(const Node& node, const std::string& field, Diagnostics& diagnostics) {
  return CheckReader(node, field, diagnostics).read();
}

std::optional<quantity::Length> read_nominal(const Node& node, const std::string& field, Diagnostics& diagnostics) {
  const quantity::Value value = document::value_of(node, Dimension::length);
  if (value.range_known && value.nominal > 0) return quantity::nominal_length(value);
  diagnostics.add({"bad_nominal", "", node.mark(), field, "A nominal size is a length above zero.", value.text,
                   "a length such as 42 mm", ""});
  return std::nullopt;
}

document::Diagnostic class_diagnostic(const engine::fit::ClassError& error, const Node& node,
                                      const std::string& field) {
  const bool no_row = error.code == engine::fit::ClassError::Code::no_row;
  const std::string message = no_row ? fmt::format("The table {} has no sourced row for {}.", error.table, error.wanted)
                                     : fmt::format("This is not a class or name that {} knows.", error.table);
  return {no_row ? "no_row" : "bad_class", "", node.mark(), field, message, error.wanted, error.accepted, ""};
}

}  // namespace cotter::problem
