// A bridge problem from its document.
#include <algorithm>
#include <set>

#include "problem/bridge_problem.hpp"
#include "problem/fit_operand.hpp"
#include "problem/fit_read.hpp"
#include "problem/names.hpp"
#include "quantity/text.hpp"

namespace cotter::problem {
namespace {

using document::Diagnostics;
using document::Node;
using engine::fit::bridge::Amount;
using engine::fit::bridge::Feature;
using engine::fit::bridge::Kind;
using engine::fit::bridge::Meeting;
using engine::fit::bridge::Piece;
using engine::fit::bridge::Rule;
using engine::fit::bridge::RuleOperand;
using quantity::Dimension;

/// Something of this dimension, to hold a rule against its law before any feature is there.
std::string sample_text(Dimension dimension) {
  switch (dimension) {
    case Dimension::length:
      return "1 mm";
    case Dimension::angle:
      return "1°";
    case Dimension::torque:
      return "1 N·m";
    case Dimension::force:
      return "1 N";
    case Dimension::mass:
      return "1 g";
    case Dimension::pressure:
      return "1 bar";
    case Dimension::duration:
      return "1 min";
    case Dimension::count:
      break;
  }
  return "1";
}

struct KindNames {
  std::vector<std::string> dimensions;
  std::vector<std::string> words;
};

std::uint32_t index_of(const std::vector<std::string>& names, const std::string& name) {
  return static_cast<std::uint32_t>(std::find(names.begin(), names.end(), name) - names.begin());
}

bool is_one_of(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

class Reader {
 public:
  Reader(const Node& node, Diagnostics& diagnostics) : node_(node), diagnostics_(diagnostics) {}

  BridgeProblem read() {
    kind_ids_ = ids_of(node_, "kinds", diagnostics_);
    out_.piece_ids = ids_of(node_, "pieces", diagnostics_);
    for (std::size_t i = 0; i < entries_of(node_, "kinds").size(); ++i) read_kind(i);
    for (std::size_t i = 0; i < entries_of(node_, "meetings").size(); ++i) read_meeting(i);
    for (std::size_t i = 0; i < entries_of(node_, "pieces").size(); ++i) read_piece(i);
    out_.query.start = read_feature(*node_.find("start"), "start");
    out_.query.goal = read_feature(*node_.find("goal"), "goal");
    for (const std::string& id : read_names(node_, "forbidden", "forbidden", "piece", out_.piece_ids, diagnostics_))
      out_.query.forbidden.push_back(index_of(out_.piece_ids, id));
    out_.query.most_pieces = static_cast<int>(document::integer_or(node_, "most_pieces", out_.query.most_pieces));
    out_.options.most_proposals = document::integer_or(node_, "proposals", 1);
    out_.options.node_limit = document::integer_or(node_, "node_limit", out_.options.node_limit);
    return std::move(out_);
  }

 private:
  void complain(const std::string& code, const Node& at, const std::string& field, std::string message,
                std::string found, std::string accepted) {
    diagnostics_.add({code, "", at.mark(), field, std::move(message), std::move(found), std::move(accepted), ""});
  }

  void read_kind(std::size_t i) {
    const Node& node = entries_of(node_, "kinds")[i];
    Kind kind;
    KindNames names;
    if (const Node* dimensions = node.find("dimensions"))
      for (const Node::Entry& entry : dimensions->entries()) {
        names.dimensions.push_back(entry.key);
        for (const Dimension dimension : {Dimension::length, Dimension::angle, Dimension::torque, Dimension::force,
                                          Dimension::mass, Dimension::pressure, Dimension::duration, Dimension::count})
          if (document::text_of(entry.value) == quantity::word_for(dimension)) kind.dimensions.push_back(dimension);
      }
    for (const Node& word : entries_of(node, "words")) {
      const std::string& name = document::text_of(word);
      if (name == "kind" || is_one_of(names.dimensions, name) || is_one_of(names.words, name))
        complain("double_id", word, entry_field("kinds", i) + ".words", "The kind has this name already.", name,
                 "each name once");
      names.words.push_back(name);
    }
    if (is_one_of(names.dimensions, "kind"))
      complain("double_id", node, entry_field("kinds", i) + ".dimensions", "A dimension cannot have this name.", "kind",
               "another name");
    kind.words = static_cast<std::uint32_t>(names.words.size());
    out_.kinds.push_back(std::move(kind));
    names_.push_back(std::move(names));
  }

  /// Number of the kind, or nothing.
  std::optional<std::uint32_t> read_kind_name(const Node& node, const std::string& field) {
    const std::string& name = document::text_of(node);
    check_name(name, node.mark(), field, "kind", kind_ids_, diagnostics_);
    const std::uint32_t number = index_of(kind_ids_, name);
    return number < kind_ids_.size() ? std::optional(number) : std::nullopt;
  }

  void read_meeting(std::size_t i) {
    const Node& node = entries_of(node_, "meetings")[i];
    const std::string field = entry_field("meetings", i);
    const auto own = read_kind_name(*node.find("own"), field + ".own");
    const auto other = read_kind_name(*node.find("other"), field + ".other");
    if (!own || !other) return;
    if (*own == *other) {
      complain("same_kind", *node.find("other"), field + ".other", "A kind cannot meet itself here.", kind_ids_[*other],
               "another kind");
      return;
    }
    if (!met_.insert(std::minmax(*own, *other)).second) {
      complain("double_meeting", node, field, "The two kinds meet already.", kind_ids_[*own] + ", " + kind_ids_[*other],
               "each pair once");
      return;
    }
    Meeting meeting{*own, *other, {}};
    const auto& rules = entries_of(node, "rules");
    for (std::size_t r = 0; r < rules.size(); ++r)
      if (auto rule = read_rule(rules[r], meeting, field + "." + entry_field("rules", r)))
        meeting.rules.push_back(*std::move(rule));
    out_.meetings.push_back(std::move(meeting));
  }

  /// The rule as a check with samples in place of the features, so that the fit's own reader says what is wrong.
  std::optional<Rule> read_rule(const Node& node, const Meeting& meeting, const std::string& field) {
    Rule rule;
    rule.law = *engine::fit::law_from_word(document::text_of(*node.find("law")));
    Node check = Node::map();
    check.set("id", Node::text("rule")).set("law", *node.find("law"));
    Node operands = Node::map();
    bool good = true;
    if (const Node* list = node.find("operands"))
      for (const Node::Entry& entry : list->entries()) {
        auto operand = read_rule_operand(entry, meeting, field + ".operands." + entry.key);
        good = good && operand.has_value();
        if (!operand) continue;
        const bool fixed = operand->side == RuleOperand::Side::fixed;
        operands.set(entry.key, fixed ? entry.value : Node::text(sample_text(dimension_of(*operand, meeting))));
        rule.operands.push_back(*std::move(operand));
      }
    check.set("operands", std::move(operands));
    if (const Node* words = node.find("words")) {
      good = read_rule_words(*words, meeting, field + ".words", rule) && good;
      check.set("words", *words);
    }
    if (const Node* must = node.find("must")) check.set("must", *must);
    if (!good) return std::nullopt;
    const auto read = read_fit_check(check, field, diagnostics_);
    if (!read) return std::nullopt;
    rule.must = read->must;
    for (RuleOperand& operand : rule.operands) take_fixed(*read, field, node, operand);
    return rule;
  }

  void take_fixed(const engine::fit::Check& check, const std::string& field, const Node& node, RuleOperand& operand) {
    if (operand.side != RuleOperand::Side::fixed) return;
    for (const engine::fit::Operand& read : check.operands) {
      if (read.role != operand.role) continue;
      operand.fixed = read.range.low().base();
      operand.fixed_dimension = read.dimension;
      if (read.range.low() != read.range.high())
        complain("not_exact", node, field + ".operands." + operand.role, "A value of the rule itself is exact.", "",
                 "a value without deviations");
    }
  }

  Dimension dimension_of(const RuleOperand& operand, const Meeting& meeting) const {
    const std::uint32_t kind = operand.side == RuleOperand::Side::own ? meeting.own : meeting.other;
    return out_.kinds[kind].dimensions[operand.dimension];
  }

  std::optional<RuleOperand> read_rule_operand(const Node::Entry& entry, const Meeting& meeting,
                                               const std::string& field) {
    RuleOperand operand;
    operand.role = entry.key;
    const std::string& text = document::text_of(entry.value);
    const bool own = text.starts_with("own.");
    if (!own && !text.starts_with("other.")) {
      operand.side = RuleOperand::Side::fixed;
      return operand;
    }
    operand.side = own ? RuleOperand::Side::own : RuleOperand::Side::other;
    const auto& names = names_[own ? meeting.own : meeting.other].dimensions;
    const std::string name = text.substr(text.find('.') + 1);
    check_name(name, entry.value.mark(), field, "dimension", names, diagnostics_);
    operand.dimension = index_of(names, name);
    if (operand.dimension >= names.size()) return std::nullopt;
    return operand;
  }

  bool read_rule_words(const Node& words, const Meeting& meeting, const std::string& field, Rule& rule) {
    bool good = true;
    for (const Node::Entry& entry : words.entries()) {
      std::uint32_t found[2] = {0, 0};
      for (std::size_t side = 0; side < 2; ++side) {
        const Node& node = entry.value.items()[side];
        const auto& names = names_[side == 0 ? meeting.own : meeting.other].words;
        check_name(document::text_of(node), node.mark(), field + "." + entry.key, "word", names, diagnostics_);
        found[side] = index_of(names, document::text_of(node));
        good = good && found[side] < names.size();
      }
      rule.words.push_back({entry.key, found[0], found[1]});
    }
    return good;
  }

  Feature read_feature(const Node& node, const std::string& field) {
    Feature feature;
    const Node* kind_node = node.find("kind");
    if (kind_node == nullptr) {
      complain("missing_field", node, field + ".kind", "A feature needs the field `kind`.", "", "the id of a kind");
      return feature;
    }
    const auto kind = read_kind_name(*kind_node, field + ".kind");
    if (!kind) return feature;
    feature.kind = *kind;
    const KindNames& names = names_[*kind];
    feature.amounts.resize(names.dimensions.size());
    feature.words.resize(names.words.size());
    for (const Node::Entry& entry : node.entries()) {
      if (entry.key == "kind") continue;
      const std::string at = field + "." + entry.key;
      if (is_one_of(names.words, entry.key)) {
        feature.words[index_of(names.words, entry.key)] = word_number(document::text_of(entry.value));
        continue;
      }
      check_name(entry.key, entry.value.mark(), at, "dimension or word", names.dimensions, diagnostics_);
      const std::uint32_t number = index_of(names.dimensions, entry.key);
      if (number < names.dimensions.size())
        feature.amounts[number] = read_amount(entry.value, out_.kinds[*kind].dimensions[number], entry.key, at);
    }
    return feature;
  }

  Amount read_amount(const Node& node, Dimension dimension, const std::string& name, const std::string& field) {
    const auto operand = read_operand(node, name, dimension, field, diagnostics_);
    if (!operand) return {};
    const auto low = operand->range.low().base();
    const auto high = operand->range.high().base();
    if (low < -engine::fit::k_most_base_units || high > engine::fit::k_most_base_units) {
      complain("out_of_bounds", node, field, "The value is too large.", document::text_of(node),
               "at most 1e15 base units");
      return {};
    }
    return {low, high, operand->attested, operand->known};
  }

  std::uint32_t word_number(const std::string& word) {
    if (word.empty()) return 0;
    return words_.emplace(word, static_cast<std::uint32_t>(words_.size() + 1)).first->second;
  }

  void read_piece(std::size_t i) {
    const Node& node = entries_of(node_, "pieces")[i];
    const std::string field = entry_field("pieces", i);
    Piece piece;
    piece.cost = document::integer_or(node, "cost", 0);
    std::vector<std::string> names;
    for (const Node::Entry& entry : node.find("features")->entries()) {
      names.push_back(entry.key);
      piece.features.push_back(read_feature(entry.value, field + ".features." + entry.key));
    }
    const auto& joins = entries_of(node, "joins");
    for (std::size_t j = 0; j < joins.size(); ++j)
      read_join(joins[j], field + "." + entry_field("joins", j), names, piece);
    out_.pieces.push_back(std::move(piece));
    out_.feature_names.push_back(std::move(names));
  }

  void read_join(const Node& pair, const std::string& field, const std::vector<std::string>& names, Piece& piece) {
    std::uint32_t ends[2] = {0, 0};
    for (std::size_t side = 0; side < 2; ++side) {
      const std::string& name = document::text_of(pair.items()[side]);
      check_name(name, pair.items()[side].mark(), field, "feature", names, diagnostics_);
      ends[side] = index_of(names, name);
    }
    if (ends[0] == ends[1])
      complain("same_feature", pair, field, "A piece cannot join a feature with itself.", "", "two features");
    piece.links.emplace_back(ends[0], ends[1]);
  }

  const Node& node_;
  Diagnostics& diagnostics_;
  BridgeProblem out_;
  std::vector<std::string> kind_ids_;
  std::vector<KindNames> names_;
  std::map<std::string, std::uint32_t> words_;
  std::set<std::pair<std::uint32_t, std::uint32_t>> met_;
};

}  // namespace

document::Read<BridgeProblem> read_bridge(const Node& problem, const std::string& file) {
  Diagnostics diagnostics(file);
  document::check(problem, *bridge_schema(), diagnostics);
  if (!diagnostics.empty()) return tl::unexpected(diagnostics);
  BridgeProblem read = Reader(problem, diagnostics).read();
  if (!diagnostics.empty()) return tl::unexpected(diagnostics);
  return read;
}

}  // namespace cotter::problem
