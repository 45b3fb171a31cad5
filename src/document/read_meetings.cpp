// Rules of the meeting of two kinds.

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "document/read_kinds.hpp"
#include "document/read_rules.hpp"
#include "document/read_value.hpp"
#include "document/schemas_fields.hpp"

namespace cotter::document {
namespace {

using model::OperandRef;

/// Reads the rules of one meeting.
class RuleReader {
 public:
  RuleReader(const model::InterfaceKind& own, const model::InterfaceKind& other, RuleNames& names,
             Diagnostics& diagnostics)
      : own_(own), other_(other), names_(names), diagnostics_(diagnostics) {}

  model::Rule read(const Spot& spot);

 private:
  std::optional<OperandRef> read_operand(const Spot& spot);
  std::pair<std::string, std::string> read_words(const Spot& spot);
  std::string read_word(const Spot& spot, std::string_view side, const model::InterfaceKind& kind);
  void read_limits(const Spot& spot, model::Rule& rule);
  std::optional<model::PressRule> read_press(const Spot& spot);
  model::MaterialRef read_material(const Spot& spot);
  void claim(const Spot& id);

  const model::InterfaceKind& own_;
  const model::InterfaceKind& other_;
  RuleNames& names_;
  Diagnostics& diagnostics_;
  std::vector<quantity::Dimension> operand_dimensions_;
};

void RuleReader::claim(const Spot& id) {
  if (!id.is_scalar()) return;
  const auto [seen, is_new] = names_.ids.emplace(id.text(), Seen{diagnostics_.file(), id.mark()});
  if (!is_new) report_duplicate(diagnostics_, id, "rule", seen->second);
}

std::optional<OperandRef> RuleReader::read_operand(const Spot& spot) {
  const std::string text = spot.text();
  const bool own = text.starts_with("own.");
  if (!own && !text.starts_with("other.")) {
    const auto value = read_any_value(spot, diagnostics_);
    if (!value) return std::nullopt;
    operand_dimensions_.push_back(value->dimension);
    return OperandRef{OperandRef::Side::fixed, "", *value};
  }
  const model::InterfaceKind& kind = own ? own_ : other_;
  const std::string name = text.substr(text.find('.') + 1);
  const auto* dimension = model::find_dimension(kind, name);
  if (dimension == nullptr) {
    auto names = dimension_names(kind);
    for (std::string& known : names) known.insert(0, own ? "own." : "other.");
    report_unknown(diagnostics_, spot, fmt::format("dimension of {}", kind.id), names);
    return std::nullopt;
  }
  operand_dimensions_.push_back(dimension->dimension);
  return OperandRef{own ? OperandRef::Side::own : OperandRef::Side::other, name, {}};
}

std::string RuleReader::read_word(const Spot& spot, std::string_view side, const model::InterfaceKind& kind) {
  auto names = word_names(kind);
  for (std::string& known : names) known.insert(0, side);
  if (std::find(names.begin(), names.end(), spot.text()) != names.end()) return spot.text().substr(side.size());
  report_unknown(diagnostics_, spot, fmt::format("word of {}", kind.id), names);
  return {};
}

std::pair<std::string, std::string> RuleReader::read_words(const Spot& spot) {
  auto sides = spot.items();
  if (sides.size() != 2) return {};
  if (sides[0].text().starts_with("other.") && sides[1].text().starts_with("own.")) std::swap(sides[0], sides[1]);
  return {read_word(sides[0], "own.", own_), read_word(sides[1], "other.", other_)};
}

void RuleReader::read_limits(const Spot& spot, model::Rule& rule) {
  rule.must = read_window(spot.at("must"), diagnostics_);
  rule.should = read_window(spot.at("should"), diagnostics_);
  if (operand_dimensions_.empty()) return;
  require_dimension(spot.at("must"), rule.must, operand_dimensions_, diagnostics_);
  require_dimension(spot.at("should"), rule.should, operand_dimensions_, diagnostics_);
}

model::MaterialRef RuleReader::read_material(const Spot& spot) {
  const std::string text = spot.text();
  if (text.starts_with("own.")) return {OperandRef::Side::own, read_word(spot, "own.", own_)};
  if (text.starts_with("other.")) return {OperandRef::Side::other, read_word(spot, "other.", other_)};
  const auto& known = material_words();
  if (std::find(known.begin(), known.end(), text) == known.end()) report_unknown(diagnostics_, spot, "material", known);
  return {OperandRef::Side::fixed, text};
}

std::optional<model::PressRule> RuleReader::read_press(const Spot& spot) {
  if (!spot.is_map()) return std::nullopt;
  model::PressRule press;
  for (const char* name : {"outer", "inner", "length", "most_stress"}) {
    if (!spot.at(name).is_scalar()) continue;
    const auto wanted =
        std::string_view(name) == "most_stress" ? quantity::Dimension::pressure : quantity::Dimension::length;
    operand_dimensions_.clear();
    auto operand = read_operand(spot.at(name));
    if (!operand) continue;
    if (operand_dimensions_.back() != wanted)
      report(diagnostics_, spot.at(name), "bad_value", "The operand is of another kind of quantity.",
             fmt::format("a {}", quantity::word_for(wanted)));
    press.operands[name] = std::move(*operand);
  }
  press.hub = read_material(spot.at("hub"));
  press.shaft = read_material(spot.at("shaft"));
  const auto millionths = [](double number) { return static_cast<std::int64_t>(std::llround(number * 1e6)); };
  press.friction_low = millionths(spot.at("friction").at("from").real(0));
  press.friction_high = millionths(spot.at("friction").at("to").real(0));
  if (press.friction_high < press.friction_low)
    report(diagnostics_, spot.at("friction").at("to"), "out_of_range", "The range ends before it starts.",
           "at least `from`");
  return press;
}

model::Rule RuleReader::read(const Spot& spot) {
  operand_dimensions_.clear();
  claim(spot.at("id"));
  model::Rule rule;
  rule.id = spot.at("id").text();
  rule.label = spot.at("label").text();
  rule.law = spot.at("law").text();
  for (const SpotEntry& entry : spot.at("operands").entries())
    if (auto operand = read_operand(entry.value)) rule.operands[entry.key] = std::move(*operand);
  for (const SpotEntry& entry : spot.at("words").entries()) rule.words[entry.key] = read_words(entry.value);
  read_limits(spot, rule);
  rule.below = read_outcome(spot.at("below"), names_.operations, diagnostics_);
  rule.above = read_outcome(spot.at("above"), names_.operations, diagnostics_);
  const Protection protection = read_protection(spot, diagnostics_);
  rule.guards = protection.guards;
  rule.may_pass = protection.may_pass;
  if (rule.may_pass == model::MayPass::maker && !rule.words.empty() && rule.operands.empty())
    report(diagnostics_, spot.at("may_pass"), "bad_value",
           "Words that differ leave no amount that a maker's paper could allow; what its maker calls a part is written "
           "in the part.",
           spot.at("guards").text("nothing") == "nothing" ? "nobody or mechanic" : "nobody");
  rule.source = read_source(spot.at("source"), diagnostics_);
  rule.press = read_press(spot.at("press"));
  return rule;
}

bool declares(const model::InterfaceKind& kind, const std::string& met) {
  return std::any_of(kind.meets.begin(), kind.meets.end(),
                     [&](const model::Meeting& meeting) { return meeting.kind == met; });
}

}  // namespace

std::vector<model::Meeting> read_meetings(const Spot& spot, const model::InterfaceKind& own, const Kinds& kinds,
                                          RuleNames& names, Diagnostics& diagnostics) {
  std::vector<model::Meeting> meetings;
  for (const Spot& item : spot.at("meets").items()) {
    const Spot met = item.at("kind");
    if (!met.is_scalar()) continue;
    const auto other = kinds.find(met.text());
    if (other == kinds.end()) {
      report_unknown(diagnostics, met, "interface kind", names_of(kinds));
      continue;
    }
    const bool twice = std::any_of(meetings.begin(), meetings.end(),
                                   [&](const model::Meeting& meeting) { return meeting.kind == met.text(); });
    if (twice || (other->first != own.id && declares(other->second, own.id)))
      report(diagnostics, met, "duplicate_id",
             fmt::format("The meeting of {} and {} is declared twice.", own.id, met.text()),
             "one declaration, on one of the two sides");
    RuleReader reader(own, other->second, names, diagnostics);
    model::Meeting meeting{met.text(), {}};
    for (const Spot& rule : item.at("rules").items()) meeting.rules.push_back(reader.read(rule));
    meetings.push_back(std::move(meeting));
  }
  return meetings;
}

}  // namespace cotter::document
