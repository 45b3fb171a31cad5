#include "engine/fit/press.hpp"
#include "engine/fit/solve.hpp"
#include "plan/fit/fit_check.hpp"
#include "plan/fit/fit_findings.hpp"

namespace cotter::plan {
namespace {

/// The dimension a role will have, from the kinds on both sides; nothing when the kind has no such dimension.
std::optional<quantity::Dimension> dimension_of(const model::OperandRef& ref, const model::InterfaceKind& own,
                                                const model::InterfaceKind& other) {
  if (ref.side == model::OperandRef::Side::fixed) return ref.fixed.dimension;
  const model::InterfaceKind& kind = ref.side == model::OperandRef::Side::own ? own : other;
  const model::KindDimension* found = model::find_dimension(kind, ref.dimension);
  if (found == nullptr) return std::nullopt;
  return found->dimension;
}

std::string sentence(const engine::fit::Fault& fault) {
  using Kind = engine::fit::Fault::Kind;
  switch (fault.kind) {
    case Kind::missing_role:
      return "the law needs the operand " + fault.name;
    case Kind::unknown_role:
      return "the law has no operand " + fault.name + "; it takes " + fault.accepted;
    case Kind::double_role:
      return "the operand " + fault.name + " stands twice";
    case Kind::wrong_dimension:
      return "the operand " + fault.name + " must be " + fault.accepted;
    case Kind::missing_word:
      return "the law compares the word " + fault.name + ", which is not given";
    case Kind::unknown_word:
      return "the law has no word " + fault.name + "; it takes " + fault.accepted;
    case Kind::missing_parameter:
      return "the law needs the number " + fault.name;
    case Kind::bad_parameter:
      return "the number " + fault.name + " must be " + fault.accepted;
    case Kind::window_without_number:
      return "the law compares words only, so it takes no window";
    case Kind::window_swapped:
      return "the window " + fault.name + " starts above its end";
    case Kind::out_of_bounds:
      return "the value of " + fault.name + " is out of bounds";
  }
  return "the rule cannot be judged";
}

void add_press_faults(const model::Rule& rule, std::vector<std::string>& out) {
  if (rule.law != engine::fit::law_spec(engine::fit::Law::bore_on_shaft).word)
    out.emplace_back("only a bore on a shaft can be pressed");
  for (const char* role : {"outer", "length"})
    if (!rule.press->operands.contains(role)) out.push_back("pressing needs the operand " + std::string(role));
}

std::vector<std::string> faults_of(const model::Rule& rule, const model::InterfaceKind& own,
                                   const model::InterfaceKind& other) {
  const auto law = engine::fit::law_from_word(rule.law);
  if (!law) {
    std::string names;
    for (const engine::fit::LawSpec& spec : engine::fit::all_laws())
      names += (names.empty() ? "" : ", ") + std::string(spec.word);
    return {"there is no law " + rule.law + "; the laws are " + names};
  }
  std::vector<std::string> out;
  engine::fit::Check check;
  check.law = *law;
  for (const auto& [role, ref] : rule.operands) {
    const auto dimension = dimension_of(ref, own, other);
    if (!dimension) {
      out.push_back("neither side has the dimension " + ref.dimension);
      continue;
    }
    engine::fit::Operand operand;
    operand.role = role;
    operand.dimension = *dimension;
    operand.nominal = ref.side == model::OperandRef::Side::fixed ? ref.fixed.nominal : 1;
    operand.range = quantity::Range(quantity::Mixed::from_base(operand.nominal));
    check.operands.push_back(operand);
  }
  for (const auto& [role, words] : rule.words) check.words[role] = {"", ""};
  check.must = window_of(rule.must);
  for (const engine::fit::Fault& fault : engine::fit::faults(check)) out.push_back(sentence(fault));
  if (rule.press) add_press_faults(rule, out);
  return out;
}

}  // namespace

std::vector<RuleFault> rule_faults(const model::Catalog& catalog) {
  std::vector<RuleFault> out;
  for (const auto& [id, kind] : catalog.kinds)
    for (const model::Meeting& meeting : kind.meets) {
      const auto other = catalog.kinds.find(meeting.kind);
      if (other == catalog.kinds.end()) continue;
      for (const model::Rule& rule : meeting.rules)
        for (std::string& message : faults_of(rule, kind, other->second))
          out.push_back({id, rule.id, std::move(message)});
    }
  return out;
}

}  // namespace cotter::plan
